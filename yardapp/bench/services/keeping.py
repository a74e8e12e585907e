"""Keep a sheet: the readings as typed, what came of them, and the evidence, in the caller's one transaction."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from typing import Any, NamedTuple

from sqlalchemy import select
from sqlalchemy.orm import Session

from yardapp.bench.models import Sheet
from yardapp.bench.repeating import settled
from yardapp.bench.services.agreement import compared
from yardapp.bench.sums import Known, Outcome, figures_read
from yardapp.db import now
from yardapp.errors import NotFound, Refused
from yardapp.gear import services as gear
from yardapp.people import services as people
from yardapp.people.services import Who

WORKED_FROM = (
    "tip_radius_m",
    "across_m",
    "chord_m",
    "string_m",
    "rise_m",
    "leading_m",
    "trailing_m",
    "swing_rad",
    "angle_rad",
    "template_pitch_m",
    "gap_m",
    "width_m",
    "radius_m",
    "bore_large_m",
    "bore_small_m",
    "bore_length_m",
)
WITHDRAWN = "not read on the corrected sheet"
Statements = tuple[gear.Said, ...]


@dataclass(frozen=True, kw_only=True)
class Method:
    """One way of measuring: how its readings are worked out, and what they then say of the propeller."""

    name: str
    reading: Callable[..., Any]
    work_out: Callable[[Any, Known | None], Outcome]
    statements: Callable[[Any, Outcome, Known], Statements]
    tools: tuple[str, ...]  # the boxes that name the tool which the answer hangs on
    of: str = "propeller"
    # What other sheets of the same thing add to an outcome: the other blades.
    beside: Callable[[Session, Who, gear.Item, Any, Outcome, int | None], Outcome] | None = None
    # What the register adds to the readings before they are worked out: the shaft that a hub is meant for.
    prepare: Callable[[Session, Who, Any], Any] | None = None

    def prepared(self, session: Session, who: Who, reading: Any) -> Any:
        """The reading as it is worked out: repeats settled, and with what the register adds."""
        return settled(self.prepare(session, who, reading) if self.prepare else reading)


class Looked(NamedTuple):
    """What a sheet would say: of which thing, the outcome, and the reading with what the register added to it."""

    item: gear.Item
    outcome: Outcome
    reading: Any


@dataclass(frozen=True, kw_only=True)
class Filled:
    """What else stood on the sheet: every box as typed, a note, and for a correction which sheet and why."""

    boxes: Mapping[str, Any] = field(default_factory=dict)
    note: str = ""
    corrects: int | None = None
    why: str = ""


def measure(session: Session, who: Who, tag: str, method: Method, reading: Any, filled: Filled | None = None) -> Sheet:
    """Keep a sheet, and what it says about the thing; a correction takes the place of the old sheet's evidence.

    Raises
    ------
    NotAllowed
        Only yard hands and the office measure.
    NotFound
        Nothing of the method's kind here carries the tag, or there is no such sheet to correct.
    OutsideRange
        A reading cannot be right.
    Refused
        A reading is missing, a correction gives no reason, or its sheet was corrected before.
    """
    who.must("record")
    filled = filled or Filled()
    item = gear.item_by_tag(session, who, tag, kind=method.of, for_change=True)
    found = gear.item_page(session, who, item.tag, item.kind)
    old = None if filled.corrects is None else _to_correct(session, item, filled.corrects, filled.why)
    reading = method.prepared(session, who, reading)
    outcome, said = _worked(session, who, found, method, reading, filled.corrects)
    readings = {**filled.boxes, **figures_read(reading)}
    sheet = _added(session, who, item, filled, Sheet(method=method.name, readings=readings, results=outcome.kept()))
    statements = [_from_sheet(one, sheet, method, filled.boxes) for one in said]
    if old is None:
        gear.add_evidence(session, who, item, *statements)
    else:
        _correct(session, who, item, found, statements, old, filled.why)
    act = "corrected a sheet" if old else "measured"
    people.note(session, who, act, "sheet", sheet.id, tag=item.tag, method=method.name)
    return sheet


def look(session: Session, who: Who, tag: str, method: Method, reading: Any, corrects: int | None = None) -> Looked:
    """What a sheet would say if it were kept now; nothing is.

    Raises
    ------
    NotAllowed
        Only yard hands and the office measure.
    NotFound
        Nothing of the method's kind here carries the tag.
    OutsideRange
        A reading cannot be right.
    Refused
        A reading is missing, or does not go with the others.
    """
    who.must("record")
    found = gear.item_page(session, who, tag, method.of)
    reading = method.prepared(session, who, reading)
    return Looked(found.item, _worked(session, who, found, method, reading, corrects)[0], reading)


def _worked(
    session: Session, who: Who, found: gear.ItemPage, method: Method, reading: Any, corrects: int | None
) -> tuple[Outcome, Statements]:
    """The outcome, with what others said of each of its figures beside it."""
    known = known_of(found.item)
    outcome = method.work_out(reading, known)
    if method.beside:
        outcome = method.beside(session, who, found.item, reading, outcome, corrects)
    said = method.statements(reading, outcome, known)
    rows = [
        one
        for statement in said
        if statement.value is not None and statement.what != "blades"
        for one in compared(found, statement.what, statement.value, statement.u_value, corrects)
    ]
    return replace(outcome, compared=tuple(rows)), said


def _added(session: Session, who: Who, item: gear.Item, filled: Filled, sheet: Sheet) -> Sheet:
    sheet.item_id = item.id
    sheet.at = now()
    sheet.person_id, sheet.said_by = who.person_id, who.name
    sheet.note, sheet.why = filled.note.strip()[:300], filled.why.strip()[:300]
    sheet.replaces_id = filled.corrects
    session.add(sheet)
    session.flush()  # its evidence names the sheet's number
    return sheet


def known_of(item: gear.Item) -> Known:
    """What the register knows of a propeller, as far as a bench sheet asks."""
    return Known(
        diameter_m=item.diameter_m,
        u_diameter_m=item.u_diameter_m,
        hand=item.hand,
        blades=item.blades,
        pitch_m=item.pitch_m,
        u_pitch_m=item.u_pitch_m,
        hub_diameter_m=item.hub_diameter_m,
        u_hub_diameter_m=item.u_hub_diameter_m,
    )


def _to_correct(session: Session, item: gear.Item, sheet_id: int, why: str) -> Sheet:
    old = session.scalar(select(Sheet).where(Sheet.id == sheet_id, Sheet.item_id == item.id))
    if old is None:
        raise NotFound("There is no such sheet.")
    if not why.strip():
        raise Refused("Say why, in a few words: it is read years later.", "why")
    if session.scalar(select(Sheet.id).where(Sheet.replaces_id == sheet_id)) is not None:
        raise Refused("That sheet was corrected before. Correct the newest one.", "why")
    return old


def _from_sheet(said: gear.Said, sheet: Sheet, method: Method, boxes: Mapping[str, Any]) -> gear.Said:
    tool = next((str(boxes[box]) for box in method.tools if boxes.get(box)), "")
    typed = boxes.get(f"{said.what}_typed") or _typed(boxes)
    return replace(said, source="sheet", source_id=sheet.id, note=tool, typed=str(typed))


def _typed(boxes: Mapping[str, Any]) -> str:
    """What was typed for a figure that was worked out: `rise 110, swing 68`."""
    pairs = ((name.rsplit("_", 1)[0].replace("_", " "), boxes.get(f"{name}_typed")) for name in WORKED_FROM)
    return ", ".join(f"{word} {text}" for word, text in pairs if text)


def _correct(
    session: Session, who: Who, item: gear.Item, found: gear.ItemPage, said: list[gear.Said], old: Sheet, why: str
) -> None:
    """Each new statement takes the place of the old sheet's on the same figure; what is no longer said is withdrawn."""
    before = {line.kind: line for line in _newest_of(found, old.id)}
    read_on = min((line.true_from for line in before.values() if line.true_from), default=old.at)
    for one in (replace(one, true_from=read_on) for one in said):
        line = before.pop(one.what, None)
        if line is None:
            gear.add_evidence(session, who, item, one)
        else:
            gear.correct_evidence(session, who, line.id, one, why=why)
    for line in before.values():
        if line.value is not None or line.word is not None:
            gear.correct_evidence(session, who, line.id, None, why=f"{why}; {WITHDRAWN}")


def _newest_of(found: gear.ItemPage, sheet_id: int) -> list[gear.Line]:
    """The old sheet's statements; one that was replaced since, by the statement that stands for it now."""
    after = {line.replaces_id: line for line in found.evidence if line.replaces_id is not None}
    lines = [line for line in found.evidence if line.source == "sheet" and line.source_id == sheet_id]
    return [_last(line, after) for line in lines]


def _last(line: gear.Line, after: Mapping[int, gear.Line]) -> gear.Line:
    while line.id in after:
        line = after[line.id]
    return line
