"""Inches, centimetres or millimetres: what a stamp says, or what its figures make likely."""

from dataclasses import dataclass
from fractions import Fraction

from yardapp.stamps.pieces import Piece

METRES = {"in": Fraction(127, 5000), "cm": Fraction(1, 100), "mm": Fraction(1, 1000)}
SPOKEN = {"in": "inches", "cm": "cm", "mm": "mm"}
OTHERWISE = {"in": "cm", "cm": "in", "mm": "cm"}
# Judgements of what a yard sees: few propellers above 40 in, none below 160 mm.
INCHES_UP_TO, CENTIMETRES_UP_TO = 40, 160
USUAL_BORE_RATIO = (Fraction(3, 100), Fraction(1, 5))  # a judgement: bore over diameter


@dataclass(frozen=True)
class StampUnit:
    """The unit of a stamp, whether it was assumed, and the sentence that says why."""

    name: str
    assumed: bool
    why: str

    def metres(self, size: Piece) -> float | None:
        """A size of the stamp in metres; None while a character of it can't be read."""
        return None if size.number is None else float(size.number * METRES[size.unit or self.name])

    def ratio(self, size: Piece, diameter: Piece) -> Fraction:
        """One size over the diameter; both must be read."""
        if size.number is None or not diameter.number:
            return Fraction(0)
        return size.number * METRES[size.unit or self.name] / (diameter.number * METRES[diameter.unit or self.name])

    def as_bore(self, size: Piece, diameter: Piece) -> Piece | None:
        """The size with the unit in which it would be a bore for this diameter, or None."""
        units = [size.unit or ("in" if size.is_fraction else self.name)]
        if units == ["cm"] and size.unit is None:
            units.append("mm")  # 56 x 46 with a bore of 45
        for unit in units:
            bore = Piece("size", size.text, size.number, size.is_fraction, unit)
            if USUAL_BORE_RATIO[0] <= self.ratio(bore, diameter) <= USUAL_BORE_RATIO[1]:
                return bore
        return None


def unit_of(diameter: Piece, pitch: Piece) -> StampUnit:
    """What the stamp says; without a word, fractions are inches and the rest goes by magnitude."""
    said = diameter.unit or pitch.unit
    if said:
        return StampUnit(said, False, f"the stamp says {SPOKEN[said]}")
    if diameter.is_fraction or pitch.is_fraction:
        return StampUnit("in", True, "no unit stamped; a fraction is read as inches")
    likely, since = _by_magnitude(diameter.number or pitch.number or Fraction(0))
    other = OTHERWISE[likely]
    return StampUnit(
        likely,
        True,
        f"no unit stamped; read as {SPOKEN[likely]}, {_in_mm(diameter, pitch, likely)}, since {since}; "
        f"in {SPOKEN[other]} it would be {_in_mm(diameter, pitch, other)}",
    )


def _by_magnitude(about: Fraction) -> tuple[str, str]:
    if about <= INCHES_UP_TO:
        return "in", f"up to {INCHES_UP_TO} is usual in inches"
    if about <= CENTIMETRES_UP_TO:
        return "cm", f"more than {INCHES_UP_TO} is rare in inches, and less than {CENTIMETRES_UP_TO} in mm"
    return "mm", f"more than {CENTIMETRES_UP_TO} is too much for cm or inches"


def _in_mm(diameter: Piece, pitch: Piece, unit: str) -> str:
    sizes = ["?" if piece.number is None else round(piece.number * METRES[unit] * 1000) for piece in (diameter, pitch)]
    return f"{sizes[0]} x {sizes[1]} mm"
