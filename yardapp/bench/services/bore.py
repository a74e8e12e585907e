"""Bore, keyway and hub of a propeller."""

from dataclasses import dataclass, replace
from math import hypot, nan
from typing import Any

from sqlalchemy.orm import Session

from yardapp.bench.models import Sheet
from yardapp.bench.repeating import Reading, repeatable
from yardapp.bench.services.keeping import Filled, Method, measure
from yardapp.bench.services.on_a_shaft import on_a_shaft
from yardapp.bench.standards import standards
from yardapp.bench.sums import Known, Near, Outcome, Sum, read, work_out
from yardapp.bench.tools import K
from yardapp.errors import NotFound, Refused
from yardapp.formulas.taper import nearest_end, nearest_taper, taper_angle, taper_from_ends
from yardapp.gear import services as gear
from yardapp.people.services import Who

FIGURES = (
    "bore_large_m",
    "bore_small_m",
    "bore_length_m",
    "keyway_width_m",
    "keyway_depth_m",
    "hub_length_m",
    "hub_diameter_m",
)
SWAPPED = "The small end is not below the large end. Swap the two: the large end is the forward one."


@dataclass(frozen=True, kw_only=True)
class BoreReading(Reading):
    """What was read of bore, keyway and hub, as far as it was. `u_` is k = 1."""

    bore_kind: str | None = None
    bore_large_m: float | None = None
    u_bore_large_m: float | None = None
    bore_small_m: float | None = None
    u_bore_small_m: float | None = None
    bore_length_m: float | None = None
    u_bore_length_m: float | None = None
    keyway_width_m: float | None = None
    u_keyway_width_m: float | None = None
    keyway_depth_m: float | None = None
    u_keyway_depth_m: float | None = None
    hub_length_m: float | None = None
    u_hub_length_m: float | None = None
    hub_diameter_m: float | None = None
    u_hub_diameter_m: float | None = None
    # The shaft that it is to go on: by its tag, or as typed.
    shaft_tag: str | None = None
    shaft_large_m: float | None = None
    u_shaft_large_m: float | None = None
    shaft_taper: float | None = None
    u_shaft_taper: float | None = None
    shaft_length_m: float | None = None
    u_shaft_length_m: float | None = None


@repeatable
def bore_of(reading: BoreReading, known: Known | None = None) -> Outcome:
    """Taper with its ± where both ends and the length were read, and the standards nearest to it. No register here.

    Raises
    ------
    OutsideRange
        A reading cannot be right.
    Refused
        Nothing was read, or the small end is not below the large end.
    """
    if not reading.bore_kind and all(getattr(reading, name) is None for name in FIGURES):
        raise Refused("Nothing was read yet. One box will do.", "bore_large_m")
    sums = _taper(reading) if reading.bore_kind in (None, "", "taper") else []
    on_shaft, said = on_a_shaft(reading, sums[0].figure if sums else None)
    return Outcome(
        answer="taper",
        sums=(*sums, *on_shaft),
        near=_near(reading, sums),
        remarks=(*_remarks(reading), *said),
        more={"standards": _standards(reading, sums)},
    )


def _standards(reading: BoreReading, sums: list[Sum]) -> list[dict[str, Any]]:
    """Of a taper, the standard ends that it comes nearest to."""
    if reading.bore_kind in ("parallel", "pilot"):
        return []
    large, small, length = (read(reading, name) for name in FIGURES[:3])
    return standards(large, small, length, sums[0].figure if sums else None)


def _taper(reading: BoreReading) -> list[Sum]:
    large, small, length = (read(reading, name) for name in FIGURES[:3])
    if large and small and small[0] >= large[0]:
        raise Refused(SWAPPED, "bore_small_m")
    if not (large and small and length):
        return []
    taper = work_out("taper", taper_from_ends, large_m=large, small_m=small, length_m=length)
    if taper.value >= 1:
        raise Refused("The ends differ by more than the length between them. Read all three again.", "bore_length_m")
    return [taper, work_out("taper_angle_rad", taper_angle, taper=taper.figure)]


def _near(reading: BoreReading, sums: list[Sum]) -> Near | None:
    """The standards that the readings come nearest to: of a taper, by ratio; of its ends, by size."""
    if reading.bore_kind in ("parallel", "pilot") or reading.bore_large_m is None or not (sums or reading.bore_small_m):
        return None
    taper = sums[0] if sums else None
    match = nearest_end(
        reading.bore_large_m,
        nan if reading.bore_small_m is None else reading.bore_small_m,
        nan if reading.bore_length_m is None else reading.bore_length_m,
        u_large_m=reading.u_bore_large_m or 0.0,
        u_small_m=reading.u_bore_small_m or 0.0,
        u_length_m=reading.u_bore_length_m or 0.0,
    )
    return Near(
        taper=nearest_taper(taper.value, taper.u or 0.0) if taper else None,
        end=match.end.name if match.end else "",
        nearest=match.nearest.name if match.nearest else "",
        source=match.nearest.source if match.nearest else "",
    )


def _remarks(reading: BoreReading) -> list[str]:
    remarks = []
    if reading.bore_kind in ("parallel", "pilot") and reading.bore_large_m and reading.bore_small_m:
        allowed = K * hypot(reading.u_bore_large_m or 0.0, reading.u_bore_small_m or 0.0)
        if abs(reading.bore_large_m - reading.bore_small_m) > allowed:
            remarks.append("The two ends differ by more than the readings allow: it may be a taper. Look again.")
    if reading.bore_length_m and reading.hub_length_m and reading.bore_length_m > reading.hub_length_m * (1 + 1e-9):
        remarks.append("The length between the two readings is more than the hub's own length. Read both again.")
    return remarks


def _statements(reading: BoreReading, outcome: Outcome, known: Known) -> tuple[gear.Said, ...]:
    """Each figure as read, the taper as worked out, and the kind of bore as seen."""
    figures = [(name, *figure) for name in FIGURES if (figure := read(reading, name)) is not None]
    if outcome.value is not None:
        figures.append(("taper", outcome.value, outcome.u))
    said = [gear.Said(what=name, basis="measured", value=value, u_value=u) for name, value, u in figures]
    if reading.bore_kind:
        said.append(gear.Said(what="bore_kind", basis="measured", word=reading.bore_kind))
    return tuple(said)


def _with_its_shaft(session: Session, who: Who, reading: BoreReading) -> BoreReading:
    """The figures of the shaft whose tag was given, where they were not typed."""
    if not reading.shaft_tag:
        return reading
    try:
        shaft = gear.item_by_tag(session, who, reading.shaft_tag, kind="shaft")
    except NotFound:
        raise Refused(f"No shaft here carries the tag {reading.shaft_tag}.", "shaft_tag") from None
    known = {"shaft_large_m": "diameter_m", "shaft_taper": "taper", "shaft_length_m": "taper_length_m"}
    figures: dict[str, Any] = {}
    for name, column in known.items():
        if getattr(reading, name) is None:
            figures |= {name: getattr(shaft, column), f"u_{name}": getattr(shaft, f"u_{column}")}
    return replace(reading, shaft_tag=shaft.tag, **figures)


BORE = Method(
    name="bore",
    reading=BoreReading,
    work_out=bore_of,
    statements=_statements,
    tools=("across_tool",),
    prepare=_with_its_shaft,
)


def measure_bore(session: Session, who: Who, tag: str, reading: BoreReading, filled: Filled | None = None) -> Sheet:
    """Keep the sheet; each figure that was read is evidence, and so is the taper worked out from them.

    Raises
    ------
    NotAllowed
        Only yard hands and the office measure.
    NotFound
        No propeller here carries the tag, or there is no such sheet to correct.
    OutsideRange
        A reading cannot be right.
    Refused
        A reading is missing or does not go with the others, or a correction can't stand.
    """
    return measure(session, who, tag, BORE, reading, filled)
