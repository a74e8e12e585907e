"""Pitch and diameter of a propeller from what a bench can read."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from yardapp.formulas.ranges import OutsideRange, alike, hold, hold_above_zero, hold_whole


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
        Between the face and the plane of the disc, rad.

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
        P/D, 1.

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


def diameter_from_tip_chord(chord_m: ArrayLike, blades: ArrayLike) -> NDArray[np.float64]:
    """Diameter of an odd-bladed propeller from the two tips furthest apart: chord / cos(90 deg / blades).

    Parameters
    ----------
    chord_m : array_like, shape S
        Straight distance between the two tips furthest apart, m.
    blades : array_like, shape S
        Number of blades, odd, 3 to 9.

    Returns
    -------
    diameter_m : ndarray, shape S
        Diameter of the circle through the tips, m.

    Raises
    ------
    OutsideRange
        A chord is not above zero; the blades are not 3, 5, 7 or 9. (With even blades tip to tip is the diameter.)

    Source
    ------
    Geometry of the regular polygon.

    Examples
    --------
    >>> float(diameter_from_tip_chord(0.500, 3))
    0.577
    """
    said = "must be 3, 5, 7 or 9; with an even number of blades measure straight across."
    alike(chord_m=chord_m, blades=blades)
    chord_m = hold("chord_m", chord_m, "must be above zero.", above=0)
    blades = hold_whole("blades", blades, said, at_least=3, at_most=9)
    if np.any(blades % 2 == 0):
        raise OutsideRange("blades", said, f"{blades[blades % 2 == 0][0]:.0f}")
    return chord_m / np.cos(np.pi / 2 / blades)


def diameter_from_next_tip(chord_m: ArrayLike, blades: ArrayLike) -> NDArray[np.float64]:
    """Diameter from the tips of two neighbouring blades: chord / sin(180 deg / blades).

    Parameters
    ----------
    chord_m : array_like, shape S
        Straight distance between the tips of two neighbouring blades, m.
    blades : array_like, shape S
        Number of blades, 2 to 9.

    Returns
    -------
    diameter_m : ndarray, shape S
        Diameter of the circle through the tips, m.

    Raises
    ------
    OutsideRange
        A chord is not above zero; the blades are not a whole number from 2 to 9.

    Source
    ------
    Geometry of the regular polygon.

    Examples
    --------
    >>> float(diameter_from_next_tip(0.588, 5))
    1.00
    """
    alike(chord_m=chord_m, blades=blades)
    chord_m = hold("chord_m", chord_m, "must be above zero.", above=0)
    blades = hold_whole("blades", blades, "must be a whole number from 2 to 9.", at_least=2, at_most=9)
    return chord_m / np.sin(np.pi / blades)


@dataclass(frozen=True, kw_only=True)
class BladeSurvey:
    """Heights and angles read over the faces: arrays of shape (blades, radii, stations); NaN where not read.

    Heights count along the shaft and rise with the angle; stations go from one edge of the blade to the other.
    """

    heights_m: ArrayLike
    angles_rad: ArrayLike


@dataclass(frozen=True, kw_only=True)
class PitchMeans:
    """Pitches of a surveyed propeller, m: each step, each radius of each blade, each blade, and the whole."""

    local_m: NDArray[np.float64]
    section_m: NDArray[np.float64]
    blade_m: NDArray[np.float64]
    propeller_m: float


def mean_pitch(survey: BladeSurvey) -> PitchMeans:
    """Local, section, blade and propeller pitch of a survey.

    A section's pitch is its whole rise over its whole swing; a blade's is the mean of its radii, the propeller's the
    mean of its blades, equally weighted. What was not read is left out of a mean; a mean of nothing is NaN.

    Parameters
    ----------
    survey : BladeSurvey
        Heights in m and angles in rad, both of shape (blades, radii, stations).

    Returns
    -------
    means : PitchMeans
        local_m (blades, radii, stations - 1), section_m (blades, radii), blade_m (blades,) and propeller_m, m.

    Raises
    ------
    OutsideRange
        The arrays are not of one shape with at least two stations; the angle or the height does not rise.

    Source
    ------
    The hierarchy of ISO 484-1 and -2 (secondary); J. S. Carlton, Marine Propellers and Propulsion.

    Examples
    --------
    >>> angles = np.radians([[[0, 20, 40]]])
    >>> float(mean_pitch(BladeSurvey(heights_m=[[[0, 0.016, 0.0333]]], angles_rad=angles)).propeller_m)
    0.2997
    """
    heights_m, angles_rad = _readings(survey)
    known = ~np.isnan(heights_m + angles_rad)
    swing = np.diff(angles_rad, axis=-1)
    hold("angles_rad", swing, "must rise from each station to the next.", above=0)
    section_m = 2 * np.pi * _span(heights_m, known) / _span(angles_rad, known)
    hold("heights_m", section_m, "must rise with the angle; for this hand count the angle the other way.", above=0)
    blade_m = _mean_of_known(section_m)
    return PitchMeans(
        local_m=2 * np.pi * np.diff(heights_m, axis=-1) / swing,
        section_m=section_m,
        blade_m=blade_m,
        propeller_m=float(_mean_of_known(blade_m)),
    )


def _readings(survey: BladeSurvey) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    heights_m = hold("heights_m", survey.heights_m, "must be finite.")
    angles_rad = hold("angles_rad", survey.angles_rad, "must be finite.")
    if heights_m.ndim != 3 or heights_m.shape[-1] < 2:
        said = "must have the shape (blades, radii, stations) with two stations or more."
        raise OutsideRange("heights_m", said, f"of shape {heights_m.shape}")
    if angles_rad.shape != heights_m.shape:
        raise OutsideRange("angles_rad", f"must have the shape {heights_m.shape}.", f"of shape {angles_rad.shape}")
    return heights_m, angles_rad


def _span(figures: NDArray[np.float64], known: NDArray[np.bool_]) -> NDArray[np.float64]:
    """Last known figure less the first known one; NaN where fewer than two are known."""
    first = np.argmax(known, axis=-1)[..., None]
    last = (known.shape[-1] - 1 - np.argmax(known[..., ::-1], axis=-1))[..., None]
    span = np.take_along_axis(figures, last, -1) - np.take_along_axis(figures, first, -1)
    return np.where(known.sum(axis=-1) > 1, span[..., 0], np.nan)


def _mean_of_known(figures: NDArray[np.float64]) -> NDArray[np.float64]:
    known = ~np.isnan(figures)
    count = known.sum(axis=-1)
    return np.where(count > 0, np.where(known, figures, 0.0).sum(axis=-1) / np.maximum(count, 1), np.nan)
