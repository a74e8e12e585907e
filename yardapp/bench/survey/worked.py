"""A survey put through the formulas."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from yardapp.bench.survey.cells import SurveyReading, Table
from yardapp.formulas.pitch_survey import BladeSurvey, PitchMeans, mean_pitch
from yardapp.formulas.survey_class import ClaimedClass, claimed_class
from yardapp.formulas.survey_spread import PitchSpread, ReadingErrors, pitch_spread


@dataclass(frozen=True, kw_only=True)
class Worked:
    """The figures of one survey, before they are put into words. `spread` None: nobody said how well it was read."""

    table: Table
    means: PitchMeans
    spread: PitchSpread | None
    claimed: ClaimedClass | None

    def u_of(self, name: str) -> NDArray[np.float64]:
        """The standard uncertainty beside a figure of `means`; zero where nobody said."""
        return np.asarray(getattr(self.spread, name) if self.spread else np.zeros_like(getattr(self.means, name)))


def worked(table: Table, reading: SurveyReading) -> Worked:
    """Put the readings through the formulas.

    Raises
    ------
    OutsideRange
        A reading cannot be right.
    """
    survey = BladeSurvey(heights_m=table.heights_m, angles_rad=table.angles_rad)
    spread = pitch_spread(survey, _errors(reading)) if reading.has_errors else None
    claimed = None
    if spread is not None and reading.design_pitch_m is not None:
        claimed = claimed_class(survey, spread, reading.design_pitch_m, reading.diameter_m or np.nan)
    return Worked(table=table, means=mean_pitch(survey), spread=spread, claimed=claimed)


def _errors(reading: SurveyReading) -> ReadingErrors:
    return ReadingErrors(
        u_height_m=reading.u_height_m or 0.0,
        u_angle_rad=reading.u_angle_rad or 0.0,
        u_common_height_m=reading.u_common_height_m or 0.0,
        u_common_angle_rad=reading.u_common_angle_rad or 0.0,
    )
