"""Blade areas, the ratios between them, and what a propeller weighs."""

import numpy as np
from numpy.typing import ArrayLike, NDArray

from yardapp.formulas.propeller_materials import PropellerMaterial, propeller_mass, propeller_materials
from yardapp.formulas.ranges import OutsideRange, alike, as_given, hold, hold_above_zero, hold_whole

__all__ = [
    "PropellerMaterial",
    "blade_area_ratio",
    "expanded_area",
    "mean_width_ratio",
    "projected_area_ratio",
    "propeller_mass",
    "propeller_materials",
]


def projected_area_ratio(pitch_ratio: ArrayLike) -> NDArray[np.float64]:
    """Projected over developed blade area, Taylor's line: 1.067 - 0.229 P/D.

    Parameters
    ----------
    pitch_ratio : array_like, shape S
        Pitch over diameter, 1.

    Returns
    -------
    ratio : ndarray, shape S
        Shadow along the shaft over area laid flat, 1; NaN where not known.

    Raises
    ------
    OutsideRange
        A pitch ratio lies outside 0.6 to 1.4.

    Validity
    --------
    Pitch ratio from 0.6 to 1.4.

    Source
    ------
    D. W. Taylor; as given in US Department of Defense UFC 4-159-03, Moorings, eq. 22.

    Examples
    --------
    >>> float(projected_area_ratio(1.0))
    0.838
    """
    pitch_ratio = hold(
        "pitch_ratio", pitch_ratio, "must lie from 0.6 to 1.4 for Taylor's line.", at_least=0.6, at_most=1.4
    )
    return 1.067 - 0.229 * pitch_ratio


def expanded_area(
    radii_m: ArrayLike, widths_m: ArrayLike, hub_radius_m: ArrayLike, blades: ArrayLike
) -> NDArray[np.float64]:
    """Expanded area of all blades, one side, from widths laid flat: blades x integral of the width from hub to tip.

    Between stations a smooth curve; from the hub to the first station the curve's own slope goes on; the last piece,
    to a tip of no width, is a sqrt(1 - x) + b (1 - x) through the two stations before it, for a tip is round.

    Parameters
    ----------
    radii_m : array_like, shape (stations,)
        Radii at which widths were taken, rising, the tip's radius last; four or more, m.
    widths_m : array_like, shape S + (stations,)
        Width of a blade measured round its curve, m; zero at a round tip, the width of the end at a tip cut square.
    hub_radius_m : array_like, shape S
        Radius of the hub where the blade meets it, m.
    blades : array_like, shape S
        Number of blades, 2 to 9.

    Returns
    -------
    area_m2 : ndarray, shape S
        m2; NaN where a width is not known.

    Raises
    ------
    OutsideRange
        Radii do not rise or are fewer than four; a width is not above zero (the tip's: is below zero); shapes do not
        go together; the hub is larger than the first radius; the blades are not a whole number from 2 to 9.

    Source
    ------
    Definition; J. S. Carlton, Marine Propellers and Propulsion. Plain Simpson with no width at the tip gives 4 % less.

    Examples
    --------
    >>> float(expanded_area([0.05, 0.10, 0.15, 0.20], [0.1, 0.1, 0.1, 0.1], 0.04, 3))
    0.048
    """
    radii, widths = _hold_outline(radii_m, widths_m)
    blades = hold_whole("blades", blades, "must be a whole number from 2 to 9.", at_least=2, at_most=9)
    hub = hold("hub_radius_m", hub_radius_m, "must be above zero.", above=0)
    hub = hold("hub_radius_m", hub, "must be at most the first radius.", at_most=radii[0])
    alike(widths_m=widths[..., 0], hub_radius_m=hub, blades=blades)
    slopes = np.gradient(widths[..., :-1], radii[:-1], axis=-1, edge_order=2)
    root = (radii[0] - hub) * (widths[..., 0] - slopes[..., 0] * (radii[0] - hub) / 2)
    return as_given(blades * (root + _middle(radii[:-1], widths[..., :-1], slopes) + _tip(radii, widths)))


def _hold_outline(radii_m: ArrayLike, widths_m: ArrayLike) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    radii = hold("radii_m", radii_m, "must be above zero.", above=0)
    if radii.ndim != 1 or radii.size < 4 or not np.all(np.diff(radii) > 0):
        raise OutsideRange("radii_m", "must be four radii or more, rising, the tip's last.", radii.tolist())
    widths = hold("widths_m", widths_m, "must be zero or more.", at_least=0)
    if widths.ndim == 0 or widths.shape[-1] != radii.size:
        raise OutsideRange("widths_m", f"must have {radii.size} stations, as the radii.", f"of shape {widths.shape}")
    hold("widths_m", widths[..., :-1], "must be above zero short of the tip.", above=0)
    return radii, widths


def _middle(
    radii: NDArray[np.float64], widths: NDArray[np.float64], slopes: NDArray[np.float64]
) -> NDArray[np.float64]:
    """Cubic through widths and slopes, station by station."""
    step = np.diff(radii)
    piece: NDArray[np.float64] = (
        step * (widths[..., 1:] + widths[..., :-1]) / 2 - step**2 * np.diff(slopes, axis=-1) / 12
    )
    return as_given(piece.sum(axis=-1))


def _tip(radii: NDArray[np.float64], widths: NDArray[np.float64]) -> NDArray[np.float64]:
    """Last piece, from the station before the tip: round where the tip has no width, straight where it has."""
    near, last = radii[-1] - radii[-3], radii[-1] - radii[-2]
    inner, outer = widths[..., -3], widths[..., -2]
    linear = (inner / np.sqrt(near) - outer / np.sqrt(last)) / (np.sqrt(near) - np.sqrt(last))
    root = outer / np.sqrt(last) - linear * np.sqrt(last)
    rounded = root * 2 / 3 * last**1.5 + linear * last**2 / 2
    return as_given(np.where(widths[..., -1] == 0, rounded, last * (outer + widths[..., -1]) / 2))


def blade_area_ratio(area_m2: ArrayLike, diameter_m: ArrayLike) -> NDArray[np.float64]:
    """Blade area over the area of the disc; say beside it which area it is.

    Parameters
    ----------
    area_m2 : array_like, shape S
        Expanded, developed or projected area of all blades, one side, m2.
    diameter_m : array_like, shape S
        Diameter of the propeller, m.

    Returns
    -------
    ratio : ndarray, shape S
        1; NaN where not known.

    Raises
    ------
    OutsideRange
        A figure is not above zero.

    Source
    ------
    Definition; ITTC dictionary.

    Examples
    --------
    >>> float(blade_area_ratio(0.0982, 0.50))
    0.500
    """
    area_m2, diameter_m = hold_above_zero(area_m2=area_m2, diameter_m=diameter_m)
    return area_m2 / (np.pi / 4 * diameter_m**2)


def mean_width_ratio(
    expanded_area_m2: ArrayLike, blades: ArrayLike, diameter_m: ArrayLike, hub_radius_m: ArrayLike
) -> NDArray[np.float64]:
    """Mean width of a blade over the diameter: (area of one blade / its length from hub to tip) / D.

    Parameters
    ----------
    expanded_area_m2 : array_like, shape S
        Expanded area of all blades, one side, m2.
    blades : array_like, shape S
        Number of blades, 2 to 9.
    diameter_m : array_like, shape S
        Diameter of the propeller, m.
    hub_radius_m : array_like, shape S
        Radius of the hub where the blade meets it, m.

    Returns
    -------
    mean_width_ratio : ndarray, shape S
        MWR, 1; NaN where not known.

    Raises
    ------
    OutsideRange
        A figure is not above zero; the hub reaches the tip; the blades are not a whole number from 2 to 9.

    Source
    ------
    Definition, as D. Gerr, Propeller Handbook, uses it (from memory, medium).

    Examples
    --------
    >>> float(mean_width_ratio(0.0982, 3, 0.50, 0.05))
    0.327
    """
    blades = hold_whole("blades", blades, "must be a whole number from 2 to 9.", at_least=2, at_most=9)
    expanded_area_m2, diameter_m, hub_radius_m, _ = hold_above_zero(
        expanded_area_m2=expanded_area_m2, diameter_m=diameter_m, hub_radius_m=hub_radius_m, blades=blades
    )
    hold("hub_radius_m", hub_radius_m, "must be less than the tip's radius.", below=diameter_m / 2)
    return expanded_area_m2 / blades / (diameter_m / 2 - hub_radius_m) / diameter_m
