"""Pitch of a propeller surveyed blade by blade, radius by radius."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from yardapp.formulas.ranges import OutsideRange, as_given, hold


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
    blade_m = mean_of_known(section_m)
    return PitchMeans(
        local_m=2 * np.pi * np.diff(heights_m, axis=-1) / swing,
        section_m=section_m,
        blade_m=blade_m,
        propeller_m=float(mean_of_known(blade_m)),
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
    return as_given(np.where(known.sum(axis=-1) > 1, span[..., 0], np.nan))


def mean_of_known(figures_m: ArrayLike) -> NDArray[np.float64]:
    """Mean along the last axis of what is known.

    Parameters
    ----------
    figures_m : array_like, shape S + (count,)
        m; NaN where not known.

    Returns
    -------
    mean_m : ndarray, shape S
        m; NaN where nothing is known.

    Raises
    ------
    OutsideRange
        A figure is infinite.

    Source
    ------
    Arithmetic.

    Examples
    --------
    >>> float(mean_of_known([0.30, float("nan"), 0.32]))
    0.31
    """
    figures = hold("figures_m", figures_m, "must be finite.")
    known = ~np.isnan(figures)
    count = known.sum(axis=-1)
    return as_given(np.where(count > 0, np.where(known, figures, 0.0).sum(axis=-1) / np.maximum(count, 1), np.nan))
