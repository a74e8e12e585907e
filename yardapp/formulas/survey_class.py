"""Which class of ISO 484 a pitch survey may claim: none where its readings are not good enough to tell."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from yardapp.formulas.iso484 import CLASSES, Scope, band
from yardapp.formulas.pitch_survey import BladeSurvey, PitchMeans, mean_of_known
from yardapp.formulas.ranges import hold
from yardapp.formulas.survey_spread import PitchSpread
from yardapp.formulas.tolerance import SurveyClass, classify

K = 2.0
QUANTITIES = ("local_pitch", "mean_pitch_of_section", "mean_pitch_of_blade", "mean_pitch_of_propeller")
BEYOND = "none"
UNKNOWN = ""


@dataclass(frozen=True, kw_only=True)
class QuantityClass:
    """The class that one quantity of a survey reaches; "none" is beyond III, "" cannot be told.

    The figures are those of the one that decides it: the worst of its class, or, where `is_certain` is False, the one
    whose ± is widest beside its class. `deviation_m` is measured less design, `wide_m` its ± (k = 2), `seems` the class
    that it seems to reach, `allowed_m` what that class allows.
    """

    quantity: str
    iso_class: str
    seems: str
    deviation_m: float
    wide_m: float
    allowed_m: float
    is_certain: bool


@dataclass(frozen=True, kw_only=True)
class ClaimedClass:
    """Classes of all four quantities, and of the propeller: the worst, or "" where one of them cannot be told."""

    scope: Scope
    quantities: tuple[QuantityClass, ...]
    overall: str


def claimed_class(
    survey: BladeSurvey, spread: PitchSpread, design_pitch_m: ArrayLike, diameter_m: float = np.nan
) -> ClaimedClass:
    """Class of a surveyed propeller in pitch, as far as the readings can tell.

    Each figure gets the finest class whose band holds its deviation. It is claimed only where the figure's ± (k = 2) is
    no wider than what that class allows; beyond III, where the ± is no wider than what III allows. A quantity takes the
    worst of its figures, and none where one of them can't be told.

    Parameters
    ----------
    survey : BladeSurvey
        As `mean_pitch` takes it.
    spread : PitchSpread
        Its standard uncertainties, from `pitch_spread`, m.
    design_pitch_m : array_like, shape () or (radii,)
        Pitch that it should have, for all radii or for each, m.
    diameter_m : float
        Its diameter, which decides the part of the standard, m.

    Returns
    -------
    claimed : ClaimedClass
        Local pitch, sections, blades and the whole; and the scope of the standard.

    Raises
    ------
    OutsideRange
        As `tolerance.classify` does.

    Source
    ------
    Bands as for `iso484.band`. That no class is claimed where the ± is wider than the class is this yard's rule, after
    JCGM 106:2012, on the part that measurement uncertainty plays in judging conformity.

    Examples
    --------
    >>> from yardapp.formulas.survey_spread import ReadingErrors, pitch_spread
    >>> survey = BladeSurvey(heights_m=[[[0, 0.10, 0.20]]] * 3, angles_rad=np.radians([[[0, 36, 72]]] * 3))
    >>> fine, coarse = (pitch_spread(survey, ReadingErrors(u_height_m=u)) for u in (0.0001, 0.005))
    >>> claimed_class(survey, fine, 1.0, 1.0).overall, claimed_class(survey, coarse, 1.0, 1.0).overall
    ('S', '')
    """
    found = classify(survey, design_pitch_m, diameter_m)
    design_m = np.broadcast_to(hold("design_pitch_m", design_pitch_m, "must be above zero.", above=0), _radii(found))
    quantities = tuple(
        _quantity(quantity, figures_m, u_m, nominal_m, classes, found.scope.part)
        for quantity, figures_m, u_m, nominal_m, classes in zip(
            QUANTITIES,
            _figures(found.means),
            _spreads(spread),
            _nominals(found, design_m),
            _classes(found),
            strict=True,
        )
    )
    is_told = all(one.iso_class for one in quantities)
    return ClaimedClass(scope=found.scope, quantities=quantities, overall=found.overall if is_told else UNKNOWN)


def _radii(found: SurveyClass) -> tuple[int]:
    return (found.means.section_m.shape[1],)


def _figures(means: PitchMeans) -> tuple[ArrayLike, ...]:
    return means.local_m, means.section_m, means.blade_m, means.propeller_m


def _spreads(spread: PitchSpread) -> tuple[ArrayLike, ...]:
    return spread.local_m, spread.section_m, spread.blade_m, spread.propeller_m


def _classes(found: SurveyClass) -> tuple[ArrayLike, ...]:
    return found.local, found.section, found.blade, found.propeller


def _nominals(found: SurveyClass, design_m: NDArray[np.float64]) -> tuple[ArrayLike, ...]:
    """What each figure is held against, as `classify` does it."""
    blade_m = mean_of_known(np.where(np.isnan(found.means.section_m), np.nan, design_m))
    return design_m[:, None], design_m, blade_m, mean_of_known(blade_m)


def _quantity(
    quantity: str, figures_m: ArrayLike, u_m: ArrayLike, nominal_m: ArrayLike, classes: ArrayLike, part: str
) -> QuantityClass:
    figures, found = np.asarray(figures_m, float), np.asarray(classes)
    nominal, wide = (np.broadcast_to(np.asarray(one, float), figures.shape) for one in (nominal_m, u_m))
    is_known = ~np.isnan(figures)
    if not is_known.any():
        return _nothing(quantity)
    off, wide, nominal, found = (one[is_known] for one in (figures - nominal, K * wide, nominal, found))
    allowed = _allowed(quantity, found, nominal, part)
    is_certain = bool((wide <= allowed).all())
    at = _deciding(found, off) if is_certain else int(np.argmax(np.nan_to_num(wide, nan=np.inf) - allowed))
    return QuantityClass(
        quantity=quantity,
        iso_class=str(found[at]) if is_certain else UNKNOWN,
        seems=str(found[at]),
        deviation_m=float(off[at]),
        wide_m=float(wide[at]),
        allowed_m=float(allowed[at]),
        is_certain=is_certain,
    )


def _deciding(found: NDArray[np.str_], off: NDArray[np.float64]) -> int:
    """The figure furthest off among those of the worst class."""
    ranks = np.array([_rank(str(one)) for one in found])
    return int(np.argmax(np.where(ranks == ranks.max(), np.abs(off), -1.0)))


def _nothing(quantity: str) -> QuantityClass:
    return QuantityClass(
        quantity=quantity,
        iso_class=UNKNOWN,
        seems=UNKNOWN,
        deviation_m=np.nan,
        wide_m=np.nan,
        allowed_m=np.nan,
        is_certain=False,
    )


def _allowed(quantity: str, found: NDArray[np.str_], nominal: NDArray[np.float64], part: str) -> NDArray[np.float64]:
    """What the class of each figure allows, either way; beyond III, what III does."""
    allowed = np.full(found.shape, np.nan)
    for iso_class in CLASSES:
        of_class = (found == iso_class) | ((found == BEYOND) & (iso_class == CLASSES[-1]))
        limits = band(quantity, iso_class, nominal, part)
        allowed = np.where(of_class, np.minimum(limits.minus_m, limits.plus_m), allowed)
    return allowed


def _rank(iso_class: str) -> int:
    return (UNKNOWN, *CLASSES, BEYOND).index(iso_class)
