"""A stamp, read."""

from yardapp.api.bodies.marks import MarkRead, MarkText, TableReading
from yardapp.api.door import Act, works_out
from yardapp.marks import services
from yardapp.stamps.tables import Reading


@works_out("/marks/read", body=MarkText, reply=MarkRead)
def read_mark(act: Act, said: MarkText) -> MarkRead:
    """Read a stamp as plain sizes and by every table in use; nothing is kept."""
    reading = services.decode(said.text)
    found = services.readings_of(act.session, said.text)
    return MarkRead(
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
    )


def _by_table(one: Reading) -> TableReading:
    return TableReading(
        maker=one.table.maker,
        title=one.table.title,
        version=one.table.version,
        mark=one.mark,
        figures={name: value for name, value in one.figures.items() if value is not None},
        confused=list(one.confused),
        why=list(one.why),
    )
