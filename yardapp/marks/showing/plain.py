"""A reading put into the words of a page. No database, no request."""

from dataclasses import dataclass

from yardapp import quantities
from yardapp.quantities import System
from yardapp.stamps import PlainReading


@dataclass(frozen=True)
class Shown:
    """A reading as a page shows it: what it says, why, and what can't be read."""

    rows: list[tuple[str, str]]
    why: str
    unread: list[str]
    notes: list[str]


def shown(reading: PlainReading, system: System) -> Shown:
    """What a mark says, in the person's units with the other beside them."""
    sizes = (("Diameter", reading.diameter_m), ("Pitch", reading.pitch_m), ("Bore", reading.bore_m))
    rows = [(label, quantities.both(size, "length", system)) for label, size in sizes if size is not None]
    if reading.hand:
        rows.append(("Hand", f"{reading.hand} hand"))
    if reading.blades:
        rows.append(("Blades", str(reading.blades)))
    notes = [note for note in (reading.possible_pitches, *reading.notes) if note]
    return Shown(rows, _sentence(reading.why), list(reading.unread), [_sentence(note) for note in notes])


def _sentence(text: str) -> str:
    return f"{text[:1].upper()}{text[1:]}{'' if text.endswith('.') else '.'}" if text else ""
