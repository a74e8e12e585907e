"""Pitch of a propeller from what a bench can read."""

import numpy as np
from numpy.typing import ArrayLike, NDArray

from yardapp.formulas.diameter import diameter_from_next_tip, diameter_from_tip_chord
from yardapp.formulas.pitch_survey import BladeSurvey, PitchMeans, mean_pitch
from yardapp.formulas.ranges import alike, hold, hold_above_zero

__all__ = [
    "BladeSurvey",
    "PitchMeans",
    "diameter_from_next_tip",
    "diameter_from_tip_chord",
    "mark_radius",
    "mean_pitch",
    "pitch_angle",
    "pitch_from_angle",
    "pitch_from_chord",
    "pitch_from_rise",
    "pitch_ratio",
    "rise_from_edges",
]


def pitch_from_rise(rise_m: ArrayLike, swing_rad: ArrayLike) -> NDArray[np.float64]:
    """Pitch from the rise of a blade's face over a swing about the shaft: 2 pi rise / swing.

    Parameters
    ----------
    rise_m : array_like, shape S
        How far the face rises along the shaft between the two points, m.
    swing_rad : array_like, shape S
        Angle about the shaft between the two points, rad.

    Returns
    -------
    pitch_m : ndarray, shape S
        Advance in one full turn, m; NaN where a reading is not known.

    Raises
    ------
    OutsideRange
        A rise is not above zero; a swing is not above zero or is more than one full turn.

    Source
    ------
    Geometry of the helix; J. S. Carlton, Marine Propellers and Propulsion.

    Examples
    --------
    >>> float(pitch_from_rise(0.0333, np.radians(40)))
    0.2997
    """
    alike(rise_m=rise_m, swing_rad=swing_rad)
    rise_m = hold("rise_m", rise_m, "must be above zero.", above=0)
    said = "must be above zero and at most one full turn."
    swing_rad = hold("swing_rad", swing_rad, said, above=0, at_most=2 * np.pi)
    return 2 * np.pi * rise_m / swing_rad


def pitch_from_angle(radius_m: ArrayLike, angle_rad: ArrayLike) -> NDArray[np.float64]:
    """Pitch from the angle between a blade's face and the plane of the disc: 2 pi r tan(angle).

    Parameters
    ----------
    radius_m : array_like, shape S
        Distance from the shaft's centre at which the angle was read, m.
    angle_rad : array_like, shape S
        Pitch angle, rad.

    Returns
    -------
    pitch_m : ndarray, shape S
        Advance in one full turn, m; NaN where a reading is not known.

    Raises
    ------
    OutsideRange
        A radius is not above zero; an angle is not between zero and a right angle.

    Source
    ------
    Geometry of the helix; J. S. Carlton, Marine Propellers and Propulsion.

    Examples
    --------
    >>> float(pitch_from_angle(0.1575, np.radians(16.849)))
    0.2997
    """
    alike(radius_m=radius_m, angle_rad=angle_rad)
    radius_m = hold("radius_m", radius_m, "must be above zero.", above=0)
    angle_rad = hold("angle_rad", angle_rad, "must lie between zero and a right angle.", above=0, below=np.pi / 2)
    return 2 * np.pi * radius_m * np.tan(angle_rad)


def pitch_from_chord(rise_m: ArrayLike, radius_m: ArrayLike, chord_m: ArrayLike) -> NDArray[np.float64]:
    """Pitch from the rise along a straight gauge centred at one radius: pi rise / asin(chord / 2r).

    Parameters
    ----------
    rise_m : array_like, shape S
        How far the face rises along the shaft between the gauge's two ends, m.
    radius_m : array_like, shape S
        Distance from the shaft's centre to the gauge's two ends, m.
    chord_m : array_like, shape S
        Straight distance between the two ends, seen along the shaft, m.

    Returns
    -------
    pitch_m : ndarray, shape S
        Advance in one full turn, m; NaN where a reading is not known.

    Raises
    ------
    OutsideRange
        A figure is not above zero; a chord is longer than twice the radius.

    Source
    ------
    Geometry of the helix. Taking the chord for the arc overstates pitch: 0.6 % at chord/r = 0.38.

    Examples
    --------
    >>> float(pitch_from_chord(0.0182827, 0.1575, 0.060))
    0.2997
    """
    rise_m, radius_m, chord_m = hold_above_zero(rise_m=rise_m, radius_m=radius_m, chord_m=chord_m)
    hold("chord_m", chord_m, "must be at most twice the radius.", at_most=2 * radius_m)
    return np.pi * rise_m / np.arcsin(np.minimum(chord_m / (2 * radius_m), 1.0))


def pitch_angle(pitch_m: ArrayLike, radius_m: ArrayLike) -> NDArray[np.float64]:
    """Angle of a helix of given pitch at a radius: atan(pitch / 2 pi r).

    Parameters
    ----------
    pitch_m : array_like, shape S
        Advance in one full turn, m.
    radius_m : array_like, shape S
        Distance from the shaft's centre, m.

    Returns
    -------
    angle_rad : ndarray, shape S
        Between the face and the plane of the disc, rad; NaN where not known.

    Raises
    ------
    OutsideRange
        A figure is not above zero.

    Source
    ------
    Geometry of the helix; J. S. Carlton, Marine Propellers and Propulsion.

    Examples
    --------
    >>> float(np.degrees(pitch_angle(16 * 0.0254, 0.7 * 10 * 0.0254)))
    19.99
    """
    pitch_m, radius_m = hold_above_zero(pitch_m=pitch_m, radius_m=radius_m)
    return np.arctan2(pitch_m, 2 * np.pi * radius_m)


def pitch_ratio(pitch_m: ArrayLike, diameter_m: ArrayLike) -> NDArray[np.float64]:
    """Pitch over diameter.

    Parameters
    ----------
    pitch_m : array_like, shape S
        Advance in one full turn, m.
    diameter_m : array_like, shape S
        Diameter of the propeller, m.

    Returns
    -------
    pitch_ratio : ndarray, shape S
        P/D, 1; NaN where not known.

    Raises
    ------
    OutsideRange
        A figure is not above zero.

    Source
    ------
    Definition; ITTC dictionary.

    Examples
    --------
    >>> float(pitch_ratio(0.29970, 0.450))
    0.666
    """
    pitch_m, diameter_m = hold_above_zero(pitch_m=pitch_m, diameter_m=diameter_m)
    return pitch_m / diameter_m


def rise_from_edges(leading_m: ArrayLike, trailing_m: ArrayLike) -> NDArray[np.float64]:
    """Rise of a blade's face between its edges, lying face down: leading edge less trailing edge.

    Parameters
    ----------
    leading_m : array_like, shape S
        Height of the face at the leading edge above the table, m.
    trailing_m : array_like, shape S
        Height of the face at the trailing edge above the table, m.

    Returns
    -------
    rise_m : ndarray, shape S
        Along the shaft, m; below zero when the edges are swapped or the propeller lies the other way up.
        NaN where not known.

    Raises
    ------
    OutsideRange
        A height is infinite.

    Source
    ------
    Geometry: going ahead the leading edge is the forward one, on either hand.

    Examples
    --------
    >>> float(rise_from_edges(0.1433, 0.1100))
    0.0333
    """
    alike(leading_m=leading_m, trailing_m=trailing_m)
    said = "must be a height above the table."
    return hold("leading_m", leading_m, said) - hold("trailing_m", trailing_m, said)


def mark_radius(diameter_m: ArrayLike) -> NDArray[np.float64]:
    """The radius at which a blade's pitch is read by custom: 0.7 of the tip radius.

    Parameters
    ----------
    diameter_m : array_like, shape S
        Diameter of the propeller, m.

    Returns
    -------
    radius_m : ndarray, shape S
        0.7 R, m; NaN where not known.

    Raises
    ------
    OutsideRange
        A diameter is not above zero.

    Source
    ------
    Common practice, no source; loading per unit radius peaks near 0.7 R.

    Examples
    --------
    >>> float(mark_radius(0.450))
    0.1575
    """
    (diameter_m,) = hold_above_zero(diameter_m=diameter_m)
    return 0.7 * diameter_m / 2
