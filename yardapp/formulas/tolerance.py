"""The class of ISO 484 that a deviation, or a whole surveyed propeller, reaches."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from yardapp.formulas.iso484 import CLASSES, Scope, ToleranceBand, band, scope, spacing_limit
from yardapp.formulas.pitch_survey import BladeSurvey, PitchMeans, mean_of_known, mean_pitch
from yardapp.formulas.ranges import OutsideRange, alike, as_given, hold

__all__ = [
    "Scope",
    "SurveyClass",
    "ToleranceBand",
    "band",
    "classify",
    "deviation_class",
    "scope",
    "spacing_class",
]

WORSE = "none"
UNKNOWN = ""

# The edge belongs to the class, whatever the last digit of a float says; metres or radians.
EDGE = 1e-9


@dataclass(frozen=True, kw_only=True)
class SurveyClass:
    """Classes of a surveyed propeller, from each step to the whole; "none" is beyond III, "" is not known.

    `overall` is the worst of them, `deciding` the quantity that made it so.
    """

    scope: Scope
    means: PitchMeans
    local: NDArray[np.str_]
    section: NDArray[np.str_]
    blade: NDArray[np.str_]
    propeller: str
    overall: str
    deciding: str


def deviation_class(
    quantity: str, deviation_m: ArrayLike, nominal_m: ArrayLike, part: str = "484-2"
) -> NDArray[np.str_]:
    """Finest class whose band holds a deviation.

    Parameters
    ----------
    quantity : str
        As for `band`.
    deviation_m : array_like, shape S
        Measured less nominal, m.
    nominal_m : array_like, shape S
        As for `band`, m.
    part : str
        "484-1" or "484-2".

    Returns
    -------
    classes : ndarray of str, shape S
        "S", "I", "II", "III"; "none" beyond III; "" where a figure is not known.

    Raises
    ------
    OutsideRange
        A nominal is not above zero; a deviation is infinite; no such quantity or part.

    Source
    ------
    As for `band`.

    Examples
    --------
    >>> str(deviation_class("mean_pitch_of_propeller", 0.020, 1.5))
    'III'
    """
    alike(deviation_m=deviation_m, nominal_m=nominal_m)
    deviation_m = hold("deviation_m", deviation_m, "must be finite.")
    nominal_m = hold("nominal_m", nominal_m, "must be above zero.", above=0)
    found = np.full(np.shape(deviation_m + nominal_m), WORSE, "U4")
    for iso_class in reversed(CLASSES):
        allowed = band(quantity, iso_class, nominal_m, part)
        within = (-allowed.minus_m - EDGE <= deviation_m) & (deviation_m <= allowed.plus_m + EDGE)
        found = np.where(within, iso_class, found)
    return as_given(np.where(np.isnan(deviation_m + nominal_m), UNKNOWN, found))


def spacing_class(deviation_rad: ArrayLike) -> NDArray[np.str_]:
    """Finest class whose band holds a deviation of the angle between two neighbouring blades.

    Parameters
    ----------
    deviation_rad : array_like, shape S
        Measured angle less a full turn over the number of blades, rad.

    Returns
    -------
    classes : ndarray of str, shape S
        "S" (for S and I are alike), "II" (II and III are alike), "none" beyond; "" where not known.

    Raises
    ------
    OutsideRange
        A deviation is infinite.

    Source
    ------
    ISO 484-2:1981 (secondary): 1 degree for S and I, 2 degrees for II and III.

    Examples
    --------
    >>> str(spacing_class(np.radians(-1.5)))
    'II'
    """
    deviation_rad = np.abs(hold("deviation_rad", deviation_rad, "must be finite."))
    found = np.full(deviation_rad.shape, WORSE, "U4")
    for iso_class in reversed(CLASSES):
        found = np.where(deviation_rad <= spacing_limit(iso_class) + EDGE, iso_class, found)
    return as_given(np.where(np.isnan(deviation_rad), UNKNOWN, found))


def classify(survey: BladeSurvey, design_pitch_m: ArrayLike, diameter_m: float = np.nan) -> SurveyClass:
    """Class of a surveyed propeller in pitch: the worst over steps, sections, blades and the whole.

    Parameters
    ----------
    survey : BladeSurvey
        As `mean_pitch` takes it.
    design_pitch_m : array_like, shape () or (radii,)
        Pitch it should have, for all radii or for each, m.
    diameter_m : float
        Its diameter, which decides the part of the standard, m.

    Returns
    -------
    classes : SurveyClass
        Class of every step, section and blade, of the whole, the worst of all, and whether the standard applies.

    Raises
    ------
    OutsideRange
        As `mean_pitch` does; a design pitch or diameter is not above zero or does not go with the radii.

    Source
    ------
    As for `band`; that a propeller takes the worst class it meets is derived from the structure of the standard.

    Examples
    --------
    >>> survey = BladeSurvey(heights_m=[[[0, 0.10, 0.20]]] * 3, angles_rad=np.radians([[[0, 36, 72]]] * 3))
    >>> classify(survey, 1.0, diameter_m=1.0).overall
    'S'
    """
    means, speaks = mean_pitch(survey), scope(diameter_m)
    design_m = _hold_design(design_pitch_m, means.section_m.shape[1])
    # A blade is held against the radii that were read on it, lest a pitch that varies look like an error.
    blade_design_m = mean_of_known(np.where(np.isnan(means.section_m), np.nan, design_m))
    propeller_design_m = mean_of_known(blade_design_m)
    found = {
        "local_pitch": _classes("local_pitch", means.local_m, design_m[:, None], speaks.part),
        "mean_pitch_of_section": _classes("mean_pitch_of_section", means.section_m, design_m, speaks.part),
        "mean_pitch_of_blade": _classes("mean_pitch_of_blade", means.blade_m, blade_design_m, speaks.part),
        "mean_pitch_of_propeller": _classes(
            "mean_pitch_of_propeller", means.propeller_m, propeller_design_m, speaks.part
        ),
    }
    worst = {quantity: _worst(classes) for quantity, classes in found.items()}
    deciding = max(worst, key=lambda quantity: _rank(worst[quantity]))
    local, section, blade, propeller = found.values()
    return SurveyClass(
        scope=speaks,
        means=means,
        local=local,
        section=section,
        blade=blade,
        propeller=str(propeller),
        overall=worst[deciding],
        deciding=deciding if worst[deciding] else "",
    )


def _classes(quantity: str, pitch_m: ArrayLike, nominal_m: ArrayLike, part: str) -> NDArray[np.str_]:
    return deviation_class(quantity, np.asarray(pitch_m) - nominal_m, nominal_m, part)


def _hold_design(design_pitch_m: ArrayLike, radii: int) -> NDArray[np.float64]:
    design_m = hold("design_pitch_m", design_pitch_m, "must be above zero.", above=0)
    if design_m.shape not in ((), (radii,)):
        said = f"must be one pitch, or one for each of the {radii} radii."
        raise OutsideRange("design_pitch_m", said, f"of shape {design_m.shape}")
    return np.broadcast_to(design_m, (radii,))


def _rank(iso_class: str) -> int:
    return (UNKNOWN, *CLASSES, WORSE).index(iso_class)


def _worst(classes: NDArray[np.str_]) -> str:
    return max((str(iso_class) for iso_class in np.ravel(classes)), key=_rank)
