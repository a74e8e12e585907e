"""The other blades of a propeller, as sheets of this age have them."""

from typing import Any

from sqlalchemy.orm import Session

from yardapp.bench.blades import BladePitch, beside
from yardapp.bench.models import Sheet
from yardapp.bench.services.sheets import standing
from yardapp.bench.sums import Outcome
from yardapp.gear import services as gear
from yardapp.people.services import Who


def with_other_blades(
    session: Session, who: Who, item: gear.Item, reading: Any, outcome: Outcome, corrects: int | None
) -> Outcome:
    """A quick pitch with what was read at the same mark of the other blades since it was last re-pitched."""
    if not reading.blade or outcome.value is None:
        return outcome
    here = BladePitch(
        blade=reading.blade,
        pitch_m=outcome.value,
        radius_m=reading.radius_m,
        u_m=outcome.u,
        u_common_m=outcome.more["u_same_m"],
    )
    sheets = standing(session, who, item.id, "pitch")
    others = [_of(sheet) for sheet in sheets if sheet.id != corrects and sheet.readings.get("blade")]
    return beside(outcome, here, others, item.diameter_m)


def _of(sheet: Sheet) -> BladePitch:
    return BladePitch(
        blade=sheet.readings["blade"],
        pitch_m=sheet.results["pitch_m"],
        radius_m=sheet.readings.get("radius_m"),
        u_m=sheet.results.get("u_pitch_m"),
        u_common_m=sheet.results.get("more", {}).get("u_same_m", 0.0),
        sheet_id=sheet.id,
    )
