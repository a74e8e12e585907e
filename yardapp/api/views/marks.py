"""A stamp, read."""

from yardapp.api.bodies.marks import MarkRead, MarkText
from yardapp.api.door import Act, works_out
from yardapp.marks import services


@works_out("/marks/read", body=MarkText, reply=MarkRead)
def read_mark(act: Act, said: MarkText) -> MarkRead:
    """Read a stamp taken for plain sizes; nothing is kept."""
    reading = services.decode(said.text)
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
    )
