"""Stamps in plain sizes: 22 x 18 RH 4 1-3/4. What can't be read is said, never guessed."""

from dataclasses import dataclass, replace

from yardapp.stamps.pieces import Piece, pieces
from yardapp.stamps.sorting import Hand, Sorted, sort
from yardapp.stamps.spelling import AT_MOST_CHARACTERS, normalise, pattern
from yardapp.stamps.units import StampUnit, unit_of
from yardapp.stamps.worn_figures import USUAL_PITCH_RATIO, what_it_may_be

__all__ = ["AT_MOST_CHARACTERS", "PlainReading", "decode", "normalise", "pattern"]

LARGEST_M = 8.0
QUARTERS = 4  # a pitch is stamped in whole, half or quarter inches; finer ones are looked at twice


@dataclass(frozen=True)
class PlainReading:
    """What a stamp says when it is taken for plain sizes; None is what it does not say."""

    stamp: str
    why: str
    diameter_m: float | None = None
    pitch_m: float | None = None
    hand: Hand | None = None
    blades: int | None = None
    bore_m: float | None = None
    unit: str | None = None
    unit_assumed: bool = False
    possible_pitches: str = ""
    unread: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()


def decode(text: str) -> PlainReading:
    """The stamp as plain sizes; with nothing in it but the reason where it can't be read so."""
    stamp = " ".join(text.split())
    if not stamp:
        return PlainReading("", "nothing was read off the hub")
    if len(stamp) > AT_MOST_CHARACTERS:
        said = f"{len(stamp)} characters are too many; a stamp has at most {AT_MOST_CHARACTERS}"
        return PlainReading(stamp[:AT_MOST_CHARACTERS], said, unread=(stamp[:AT_MOST_CHARACTERS],))
    return _reading(stamp, sort(pieces(stamp)))


def _reading(stamp: str, found: Sorted) -> PlainReading:
    reading = PlainReading(
        stamp,
        _no_pair(found),
        hand=found.hand,
        blades=found.blades,
        unread=tuple(piece.text for piece in found.left),
        notes=found.notes,
    )
    if found.diameter is None or found.pitch is None:
        return reading
    return _with_sizes(reading, found, found.diameter, found.pitch)


def _no_pair(found: Sorted) -> str:
    sizes = [piece.text for piece in found.left if piece.what == "size"]
    if len(sizes) == 1:
        return f"only one size is there, {sizes[0]}: it may be the diameter, the pitch or neither"
    return "no diameter and pitch could be read from it"


def _with_sizes(reading: PlainReading, found: Sorted, diameter: Piece, pitch: Piece) -> PlainReading:
    if diameter.number is None and pitch.number is None:
        said = f"neither size can be read whole: {diameter.text} by {pitch.text}"
        return replace(reading, why=said, unread=(diameter.text, pitch.text, *reading.unread))
    unit = unit_of(diameter, pitch)
    diameter_m, pitch_m = unit.metres(diameter), unit.metres(pitch)
    if any(size_m is not None and not 0 < size_m <= LARGEST_M for size_m in (diameter_m, pitch_m)):
        said = f"{diameter.text} by {pitch.text} is no propeller's diameter and pitch"
        return replace(reading, why=said, unread=(diameter.text, pitch.text, *reading.unread))
    sized = replace(
        reading,
        diameter_m=diameter_m,
        pitch_m=pitch_m,
        bore_m=unit.metres(found.bore) if found.bore else None,
        unit=unit.name,
        unit_assumed=unit.assumed,
        why=unit.why,
    )
    return _with_doubts(sized, diameter, pitch, unit)


def _with_doubts(reading: PlainReading, diameter: Piece, pitch: Piece, unit: StampUnit) -> PlainReading:
    """What a careful reader would say beside the figures."""
    doubts = [*_worn_diameter(diameter, unit), *_order(diameter, pitch, unit), *_fine_pitch(pitch)]
    possible = ""
    if pitch.number is None:
        possible = what_it_may_be("pitch", pitch.text, unit.name, diameter.number)
    return replace(reading, possible_pitches=possible, notes=(*reading.notes, *doubts))


def _worn_diameter(diameter: Piece, unit: StampUnit) -> list[str]:
    return [] if diameter.number else [what_it_may_be("diameter", diameter.text, unit.name)]


def _order(diameter: Piece, pitch: Piece, unit: StampUnit) -> list[str]:
    """Diameter comes first by custom; said when the two look as if they did not."""
    ratio = unit.ratio(pitch, diameter)
    if not ratio or USUAL_PITCH_RATIO[0] <= ratio <= USUAL_PITCH_RATIO[1]:
        return []
    return [f"the order may be swapped: read diameter first, the pitch is {float(ratio):.2g} times the diameter"]


def _fine_pitch(pitch: Piece) -> list[str]:
    if not pitch.loose or pitch.number is None or pitch.number.denominator <= QUARTERS:
        return []
    whole, part = pitch.text.split()
    return [f"{pitch.text} was read as one pitch; it may be a pitch of {whole} and a bore of {part}"]
