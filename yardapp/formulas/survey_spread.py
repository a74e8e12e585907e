"""How well a pitch survey is known, from how well its heights and angles were read."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from yardapp.formulas.pitch_survey import BladeSurvey, PitchMeans, mean_pitch
from yardapp.formulas.ranges import hold


@dataclass(frozen=True, kw_only=True)
class ReadingErrors:
    """Standard uncertainties (k = 1) of the readings of a survey, m and rad.

    Separate: each reading has its own error. Common: at one station it is the same on every blade and radius, as with a
    swing template or a ring whose marks are out; what is the same at every station drops out of each rise by itself.
    """

    u_height_m: float = 0.0
    u_angle_rad: float = 0.0
    u_common_height_m: float = 0.0
    u_common_angle_rad: float = 0.0


@dataclass(frozen=True, kw_only=True)
class PitchSpread:
    """Standard uncertainties (k = 1) beside `PitchMeans`, m; of the whole also the two parts it is made of."""

    local_m: NDArray[np.float64]
    section_m: NDArray[np.float64]
    blade_m: NDArray[np.float64]
    propeller_m: float
    separate_m: float
    common_m: float


def pitch_spread(survey: BladeSurvey, errors: ReadingErrors) -> PitchSpread:
    """Uncertainty of local, section, blade and propeller pitch: separate errors average out, common ones do not.

    A section's pitch 2 pi h / t hangs on its first and last reading: by 2 pi / t on each height and by P / t on each
    angle, with opposite signs at the two ends. Separate errors add by squares over readings; of a common error the
    shares of all blades and radii are added first and squared then.

    Parameters
    ----------
    survey : BladeSurvey
        As `mean_pitch` takes it.
    errors : ReadingErrors
        How well heights and angles were read, k = 1, m and rad.

    Returns
    -------
    spread : PitchSpread
        Standard uncertainties, k = 1, of the shapes of `mean_pitch`'s figures, m; NaN where there is no figure.

    Raises
    ------
    OutsideRange
        As `mean_pitch` does; an uncertainty is below zero.

    Validity
    --------
    First order: errors small beside the rise and the swing that they are errors of.

    Source
    ------
    JCGM 100:2008 (GUM), 5.1.2, eq. 10, and 5.2.2, eq. 13, for what is common.

    Examples
    --------
    >>> survey = BladeSurvey(heights_m=[[[0, 0.0333]]], angles_rad=np.radians([[[0, 40]]]))
    >>> errors = ReadingErrors(u_height_m=0.0002 / 2**0.5, u_angle_rad=0.001745 / 2**0.5)
    >>> float(pitch_spread(survey, errors).propeller_m)
    0.00195
    """
    errors = _held(errors)
    means = mean_pitch(survey)
    on_height, on_angle = _slopes(survey, means)
    section_m = _both(on_height, on_angle, errors, (2,), ())
    blade_share = _equally(~np.isnan(means.section_m), axis=1)
    on_height, on_angle = (slope * blade_share[..., None] for slope in (on_height, on_angle))
    blade_m = _both(on_height, on_angle, errors, (1, 2), (1,))
    propeller_share = _equally(~np.isnan(means.blade_m), axis=0)
    on_height, on_angle = (slope * propeller_share[:, None, None] for slope in (on_height, on_angle))
    separate_m = float(_separate(on_height, on_angle, errors, (0, 1, 2)))
    common_m = float(_common(on_height, on_angle, errors, (0, 1)))
    known = not np.isnan(means.propeller_m)
    return PitchSpread(
        local_m=_local(survey, means, errors),
        section_m=np.where(np.isnan(means.section_m), np.nan, section_m),
        blade_m=np.where(np.isnan(means.blade_m), np.nan, blade_m),
        propeller_m=float(np.hypot(separate_m, common_m)) if known else np.nan,
        separate_m=separate_m if known else np.nan,
        common_m=common_m if known else np.nan,
    )


def _held(errors: ReadingErrors) -> ReadingErrors:
    said = "must be zero or more."
    return ReadingErrors(**{name: float(hold(name, u, said, at_least=0)) for name, u in vars(errors).items()})


def _slopes(survey: BladeSurvey, means: PitchMeans) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """How each section's pitch hangs on every height and every angle; zero for what it does not hang on."""
    heights_m, angles_rad = np.asarray(survey.heights_m, float), np.asarray(survey.angles_rad, float)
    known = ~np.isnan(heights_m + angles_rad)
    count = known.cumsum(axis=-1)
    is_first, is_last = known & (count == 1), known & (count == count[..., -1:])
    ends = np.where(is_last, 1.0, 0.0) - np.where(is_first, 1.0, 0.0)
    swing_rad = np.where(is_last, angles_rad, 0).sum(axis=-1) - np.where(is_first, angles_rad, 0).sum(axis=-1)
    is_read = ~np.isnan(means.section_m)
    per_rad = np.where(is_read, 1 / np.where(is_read, swing_rad, 1.0), 0.0)[..., None] * ends
    return 2 * np.pi * per_rad, -np.where(is_read, means.section_m, 0.0)[..., None] * per_rad


def _equally(is_known: NDArray[np.bool_], axis: int) -> NDArray[np.float64]:
    """The share of each known figure in the mean along an axis."""
    return np.asarray(is_known / np.maximum(is_known.sum(axis=axis, keepdims=True), 1))


def _both(
    on_height: NDArray[np.float64],
    on_angle: NDArray[np.float64],
    errors: ReadingErrors,
    over: tuple[int, ...],
    together: tuple[int, ...],
) -> NDArray[np.float64]:
    separate_m = _separate(on_height, on_angle, errors, over)
    return np.asarray(np.hypot(separate_m, _common(on_height, on_angle, errors, together)))


def _separate(
    on_height: NDArray[np.float64], on_angle: NDArray[np.float64], errors: ReadingErrors, over: tuple[int, ...]
) -> NDArray[np.float64]:
    squares = (on_height * errors.u_height_m) ** 2 + (on_angle * errors.u_angle_rad) ** 2
    return np.asarray(np.sqrt(squares.sum(axis=over)))


def _common(
    on_height: NDArray[np.float64], on_angle: NDArray[np.float64], errors: ReadingErrors, together: tuple[int, ...]
) -> NDArray[np.float64]:
    """Shares on one station are added over `together` first, then squared and added over the stations."""
    height, angle = (slope.sum(axis=together) if together else slope for slope in (on_height, on_angle))
    squares = (height * errors.u_common_height_m) ** 2 + (angle * errors.u_common_angle_rad) ** 2
    return np.asarray(np.sqrt(squares.sum(axis=-1)))


def _local(survey: BladeSurvey, means: PitchMeans, errors: ReadingErrors) -> NDArray[np.float64]:
    """Between two neighbouring stations both ends are free of each other, whether their errors are shared or not."""
    swing_rad = np.diff(np.asarray(survey.angles_rad, float), axis=-1)
    u_height_m = np.hypot(errors.u_height_m, errors.u_common_height_m)
    u_angle_rad = np.hypot(errors.u_angle_rad, errors.u_common_angle_rad)
    per_end_m = np.hypot(2 * np.pi * u_height_m, means.local_m * u_angle_rad)
    return np.asarray(np.sqrt(2) * per_end_m / swing_rad)
