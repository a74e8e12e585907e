"""A stamp, read; the marks of a propeller, and what is taken from them as evidence."""

from collections.abc import Mapping, Sequence

from yardapp.api.bodies import marks as bodies
from yardapp.api.door import Act, creates, reads, works_out
from yardapp.marks import services
from yardapp.stamps.tables import Reading, Together

Figures = dict[str, float | int | str]


@works_out("/marks/read", body=bodies.MarkText, reply=bodies.MarkRead)
def read_mark(act: Act, said: bodies.MarkText) -> bodies.MarkRead:
    """Read a stamp as plain sizes and by every table in use; nothing is kept."""
    reading = services.decode(said.text)
    asked = services.read_kindly(act.session, said.text, said.beside, said.newer)
    found = asked.readings
    return bodies.MarkRead(
        stamp=reading.stamp,
        why=reading.why,
        diameter_m=reading.diameter_m,
        pitch_m=reading.pitch_m,
        hand=reading.hand,
        blades=reading.blades,
        bore_m=reading.bore_m,
        unit=reading.unit,
        unit_assumed=reading.unit_assumed,
        possible_pitches=reading.possible_pitches,
        unread=list(reading.unread),
        notes=list(reading.notes),
        by_tables=found.said,
        reading_count=found.count,
        readings=[_by_table(one) for one in found.found],
        together=_hub(asked.together),
    )


def _by_table(one: Reading) -> bodies.TableReading:
    return bodies.TableReading(
        maker=one.table.maker,
        title=one.table.title,
        version=one.table.version,
        mark=one.mark,
        figures=_figures(one.figures),
        confused=list(one.confused),
        why=list(one.why),
        which=services.which(one),
        ruled_out=list(one.ruled_out),
    )


def _figures(said: Mapping[str, float | int | str | None]) -> Figures:
    return {name: value for name, value in said.items() if value is not None}


def _hub(together: Sequence[Together]) -> bodies.Hub | None:
    """The best way to read all marks together."""
    best = next(iter(together), None)
    if best is None:
        return None
    return bodies.Hub(
        readings=[_by_table(one) for one in best.readings],
        figures=_figures(best.figures),
        conflicts=[bodies.HubConflict.model_validate(one, from_attributes=True) for one in best.conflicts],
    )


@reads("/propellers/{tag}/marks", reply=bodies.PropellerMarks)
def propeller_marks(act: Act, tag: str) -> bodies.PropellerMarks:
    """The marks of one propeller, and how the newest reads with what is measured."""
    found = services.marks_page(act.session, act.who, tag)
    asked = found.asked
    return bodies.PropellerMarks(
        tag=found.tag,
        marks=[_kept(row) for row in found.marks],
        stamp=asked.readings.seen if asked else None,
        by_tables=asked.readings.said if asked else "",
        readings=[_by_table(one) for one in asked.readings.found] if asked else [],
        together=_hub(asked.together) if asked else None,
    )


def _kept(row: services.MarkRow) -> bodies.KeptMark:
    mark = row.mark
    return bodies.KeptMark(
        stamp=mark.seen,
        spot=mark.spot,
        struck=mark.struck,
        photo_sha256=mark.photo_sha256,
        at=mark.at,
        said_by=mark.said_by,
        taken=[bodies.TakenReading.model_validate(one, from_attributes=True) for one in row.taken],
    )


def _of_tag(act: Act, key: str, tag: str) -> bodies.PropellerMarks:
    return propeller_marks(act, tag)


MARKS = "/propellers/{tag}/marks"


@creates(MARKS, body=bodies.NewMark, reply=bodies.PropellerMarks, at=MARKS, shows=_of_tag)
def record_mark(act: Act, said: bodies.NewMark, tag: str) -> int:
    """Keep a mark as it was seen, with what it says as evidence."""
    return services.record_mark_of(act.session, act.who, tag, said.stamp, spot=said.spot, struck=said.struck).id


@creates(f"{MARKS}/taken", body=bodies.TakeReading, reply=bodies.PropellerMarks, at=MARKS, shows=_of_tag)
def take_reading(act: Act, said: bodies.TakeReading, tag: str) -> int:
    """Take one reading of a mark as evidence; what was taken from it before is replaced."""
    return services.take_reading(act.session, act.who, tag, said.stamp, said.which, spot=said.spot).id
