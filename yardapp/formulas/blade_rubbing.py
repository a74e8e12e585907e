"""The area of one blade from a paper laid on it: squares counted, or the outline's points."""

from collections.abc import Sequence

import numpy as np
from numpy.typing import ArrayLike, NDArray

from yardapp.formulas.ranges import OutsideRange, alike, as_given, hold, hold_above_zero

Points = Sequence[float] | NDArray[np.float64]


def area_of_squares(
    whole_count: ArrayLike, part_count: ArrayLike, square_m: ArrayLike, part_ratio: ArrayLike = 0.5
) -> NDArray[np.float64]:
    """Area of a tracing on squared paper: (whole + share x part) x side^2; a square cut by the outline counts half.

    Parameters
    ----------
    whole_count : array_like, shape S
        Squares wholly inside the outline, 1.
    part_count : array_like, shape S
        Squares that the outline cuts, 1.
    square_m : array_like, shape S
        Side of a square, m.
    part_ratio : array_like, shape S
        Mean share of a cut square that lies inside, 1.

    Returns
    -------
    area_m2 : ndarray, shape S
        m2; NaN where not known.

    Raises
    ------
    OutsideRange
        A count is below zero, a side is not above zero, a share lies outside 0 to 1.

    Validity
    --------
    A share of a cut square from 0 to 1.

    Source
    ------
    Geometry; `u_of_cut_squares` says how well the share of the cut ones is known.

    Examples
    --------
    >>> round(float(area_of_squares(200, 60, 0.010)), 6)
    0.023
    """
    alike(whole_count=whole_count, part_count=part_count, square_m=square_m, part_ratio=part_ratio)
    whole = hold("whole_count", whole_count, "must be zero or more.", at_least=0)
    part = hold("part_count", part_count, "must be zero or more.", at_least=0)
    (side,) = hold_above_zero(square_m=square_m)
    share = hold("part_ratio", part_ratio, "must lie from 0 to 1.", at_least=0, at_most=1)
    return as_given((whole + share * part) * side**2)


def u_of_cut_squares(part_count: ArrayLike) -> NDArray[np.float64]:
    """Standard uncertainty of the mean share of n squares that an outline cuts: 1 / sqrt(12 n).

    Parameters
    ----------
    part_count : array_like, shape S
        Squares that the outline cuts, 1 or more.

    Returns
    -------
    u_ratio : ndarray, shape S
        1; NaN where not known.

    Raises
    ------
    OutsideRange
        There are fewer than one.

    Source
    ------
    JCGM 100:2008 (GUM), 4.3.7: a figure anywhere from 0 to 1 has a standard uncertainty of 1 / sqrt 12.

    Examples
    --------
    >>> round(float(u_of_cut_squares(48)), 5)
    0.04167
    """
    return as_given(1 / np.sqrt(12 * hold("part_count", part_count, "must be one or more.", at_least=1)))


def area_of_outline(x_m: Points, y_m: Points) -> NDArray[np.float64]:
    """Area inside a closed outline of points, the shoelace: |sum of x y' - x' y| / 2.

    Parameters
    ----------
    x_m : array_like, shape (points,)
        Across, of three points or more in their order round the outline, m.
    y_m : array_like, shape (points,)
        Up, m.

    Returns
    -------
    area_m2 : ndarray, shape ()
        m2.

    Raises
    ------
    OutsideRange
        There are fewer than three points, a coordinate is not known, or the two lists are not of one length.

    Source
    ------
    Surveyor's formula, C. F. Gauss. A curve cut by straight lines between its points loses a little.

    Examples
    --------
    >>> round(float(area_of_outline([0.0, 0.2, 0.2, 0.0], [0.0, 0.0, 0.1, 0.1])), 6)
    0.02
    """
    x, y = _hold_points(x_m, y_m)
    return as_given(np.abs(np.sum(x * np.roll(y, -1) - np.roll(x, -1) * y)) / 2)


def u_area_of_outline(x_m: Points, y_m: Points, u_point_m: float) -> NDArray[np.float64]:
    """Standard uncertainty of an outline's area: u / 2 sqrt(sum of the squared chords between neighbours of a point).

    Parameters
    ----------
    x_m : array_like, shape (points,)
        Across, as for `area_of_outline`, m.
    y_m : array_like, shape (points,)
        Up, m.
    u_point_m : float
        Standard uncertainty of each coordinate, k = 1, each with an error of its own, m.

    Returns
    -------
    u_area_m2 : ndarray, shape ()
        m2.

    Raises
    ------
    OutsideRange
        As `area_of_outline` does; or the uncertainty is below zero.

    Source
    ------
    JCGM 100:2008 (GUM), 5.1.2: the slope of the shoelace by a point is half of the chord between its neighbours.

    Examples
    --------
    >>> round(float(u_area_of_outline([0.0, 0.2, 0.2, 0.0], [0.0, 0.0, 0.1, 0.1], 0.0005)), 8)
    0.00011180
    """
    hold("u_point_m", u_point_m, "must be zero or more.", at_least=0)
    x, y = _hold_points(x_m, y_m)
    chords = (np.roll(x, -1) - np.roll(x, 1)) ** 2 + (np.roll(y, -1) - np.roll(y, 1)) ** 2
    return as_given(u_point_m / 2 * np.sqrt(np.sum(chords)))


def crosses_itself(x_m: Points, y_m: Points) -> bool:
    """Whether an outline crosses itself, so that its points can't be in their order.

    Parameters
    ----------
    x_m : array_like, shape (points,)
        Across, as for `area_of_outline`, m.
    y_m : array_like, shape (points,)
        Up, m.

    Returns
    -------
    crosses : bool
        True where two sides that do not meet at a point cross.

    Raises
    ------
    OutsideRange
        As `area_of_outline` does.

    Source
    ------
    Geometry: two segments cross when each has its ends on either side of the other.

    Examples
    --------
    >>> crosses_itself([0, 1, 0, 1], [0, 1, 1, 0])
    True
    """
    x, y = _hold_points(x_m, y_m)
    ends = np.column_stack([x, y, np.roll(x, -1), np.roll(y, -1)])
    count = len(ends)
    return any(
        _cross(ends[first], ends[second])
        for first in range(count)
        for second in range(first + 2, count)
        if not (first == 0 and second == count - 1)
    )


def _cross(one: NDArray[np.float64], other: NDArray[np.float64]) -> bool:
    return bool(_side(one, other[:2]) * _side(one, other[2:]) < 0 and _side(other, one[:2]) * _side(other, one[2:]) < 0)


def _side(segment: NDArray[np.float64], point: NDArray[np.float64]) -> float:
    along, off = segment[2:] - segment[:2], point - segment[:2]
    return float(along[0] * off[1] - along[1] * off[0])


def _hold_points(x_m: Points, y_m: Points) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    alike(x_m=x_m, y_m=y_m)
    x, y = (hold(name, points, "must be finite.") for name, points in (("x_m", x_m), ("y_m", y_m)))
    if x.ndim != 1 or x.shape != y.shape or x.size < 3 or np.any(np.isnan(x + y)):
        raise OutsideRange("x_m", "must be three points or more, each with both its coordinates.", f"of {x.size}")
    return x, y


def blade_area_with_root(traced_m2: ArrayLike, root_width_m: ArrayLike, root_gap_m: ArrayLike) -> NDArray[np.float64]:
    """Area of one blade from where the hub's round begins: tracing + width at its foot x gap down to the hub.

    Parameters
    ----------
    traced_m2 : array_like, shape S
        Area of the tracing, m2.
    root_width_m : array_like, shape S
        Width of the blade at the tracing's foot, m.
    root_gap_m : array_like, shape S
        From the tracing's foot to the hub, m; zero where the tracing reaches it.

    Returns
    -------
    area_m2 : ndarray, shape S
        m2; NaN where not known.

    Raises
    ------
    OutsideRange
        The tracing has no area; a width or gap is below zero.

    Source
    ------
    Geometry: a short piece counts as a rectangle.

    Examples
    --------
    >>> round(float(blade_area_with_root(0.0230, 0.090, 0.012)), 6)
    0.02408
    """
    alike(traced_m2=traced_m2, root_width_m=root_width_m, root_gap_m=root_gap_m)
    (traced,) = hold_above_zero(traced_m2=traced_m2)
    width = hold("root_width_m", root_width_m, "must be zero or more.", at_least=0)
    return as_given(traced + width * hold("root_gap_m", root_gap_m, "must be zero or more.", at_least=0))


def area_of_all(blade_area_m2: ArrayLike, blades: ArrayLike) -> NDArray[np.float64]:
    """Area of all blades from one: area x blades. A paper laid on a blade takes its developed, near its expanded, area.

    Parameters
    ----------
    blade_area_m2 : array_like, shape S
        Area of one blade, one side, m2.
    blades : array_like, shape S
        Number of blades, 1.

    Returns
    -------
    area_m2 : ndarray, shape S
        m2; NaN where not known.

    Raises
    ------
    OutsideRange
        A figure is not above zero.

    Source
    ------
    Definition; that developed and expanded area differ by little: J. S. Carlton, Marine Propellers and Propulsion.

    Examples
    --------
    >>> round(float(area_of_all(0.02408, 3)), 5)
    0.07224
    """
    area, count = hold_above_zero(blade_area_m2=blade_area_m2, blades=blades)
    return as_given(area * count)


def projected_area(expanded_area_m2: ArrayLike, pitch_m: ArrayLike, diameter_m: ArrayLike) -> NDArray[np.float64]:
    """Shadow of the blades along the shaft, Taylor's line: area x (1.067 - 0.229 P/D).

    Parameters
    ----------
    expanded_area_m2 : array_like, shape S
        Developed area of all blades, for which the expanded is taken, m2.
    pitch_m : array_like, shape S
        Pitch, m.
    diameter_m : array_like, shape S
        Diameter, m.

    Returns
    -------
    area_m2 : ndarray, shape S
        m2; NaN where not known.

    Raises
    ------
    OutsideRange
        A figure is not above zero; the pitch ratio lies outside 0.6 to 1.4.

    Validity
    --------
    Pitch ratio from 0.6 to 1.4.

    Source
    ------
    D. W. Taylor; as given in US Department of Defense UFC 4-159-03, Moorings, eq. 22.

    Examples
    --------
    >>> round(float(projected_area(0.100, 0.5, 0.5)), 4)
    0.0838
    """
    area, pitch, diameter = hold_above_zero(expanded_area_m2=expanded_area_m2, pitch_m=pitch_m, diameter_m=diameter_m)
    ratio = hold("pitch_m", pitch / diameter, "must be 0.6 to 1.4 of the diameter.", at_least=0.6, at_most=1.4)
    return as_given(area * (1.067 - 0.229 * ratio))
