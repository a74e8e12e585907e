"""A stamp cut into its pieces: sizes, hand, blades, labels, and what is none of these."""

import re
from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction

from yardapp.quantities import numerals

# A fraction of an inch has one of these below the line; 22/18 has not, so it is two sizes.
PARTS_OF_AN_INCH = (2, 4, 8, 16, 32, 64)
UNITS = {'"': "in", "IN": "in", "INS": "in", "INCH": "in", "INCHES": "in", "MM": "mm", "CM": "cm", "CMS": "cm"}

_PIECE = re.compile(
    r"""(?P<blades>[2-9])[\s-]?(?:BLADES?|BLD|BL|B)(?![A-Z0-9])
      | (?P<hand>(?:RIGHT|LEFT)(?:[\s-]?HAND)? | [RL](?:[./\s]?H\.?)? ) (?![A-Z])
      | (?P<label>DIAMETER|DIAM|DIA|D|PITCH|P|BORE|Ø)\.?[:=]?(?![A-Z])
      | (?P<size>
            (?P<mixed>(?P<whole>\d{1,4})(?P<joint>\s|\s?-\s?)(?P<top>\d{1,2})/(?P<bottom>\d{1,2}))(?![\d?./])
          | (?P<part>(?P<over>\d{1,2})/(?P<under>\d{1,2}))(?![\d?./])
          | (?P<plain>[\d?]{1,4}(?:\.\d{1,4}|,\d{1,2})?)(?![\d?]|[.,]\d)(?P<tied>(?=[A-KM-QS-WYZ]))?
        ) (?:\s?(?P<unit>"|(?:INCHES|INCH|INS|IN|MM|CMS|CM)(?![A-WYZ])\.?))?
      | (?P<by>[X×*]|BY(?![A-Z])|[-/])
      | (?P<other>[A-Z]+[\d?]*|[\d?.,/]+|\S)
    """,
    re.ASCII | re.VERBOSE,
)


@dataclass(frozen=True)
class Piece:
    """One piece as it stands. `number` is None for a size with a character that can't be read."""

    what: str
    text: str
    number: Fraction | None = None
    is_fraction: bool = False
    unit: str | None = None
    loose: bool = False  # a whole and a fraction with only a space between them
    tied: bool = False  # a letter follows that belongs to no other piece

    @property
    def is_lone_figure(self) -> bool:
        """A plain whole number of one figure, as the number of blades is stamped."""
        return self.what == "size" and not (self.unit or self.tied) and self.text.isdigit() and len(self.text) == 1


def pieces(text: str) -> list[Piece]:
    """Every piece, in the order of the stamp; nothing is dropped but spaces."""
    return list(_pieces(numerals.tidy(text.replace("⌀", "D")).upper()))


def _pieces(stamp: str) -> Iterator[Piece]:
    at = 0
    while match := _PIECE.search(stamp, at):
        piece, at = _piece(match)
        yield piece


def _piece(match: re.Match[str]) -> tuple[Piece, int]:
    """The piece that was found, and where the next may begin."""
    what = next(name for name in ("blades", "hand", "label", "size", "by", "other") if match[name])
    piece = Piece(what, match[0].strip())
    if what == "hand":
        return replace(piece, text=match["hand"]), match.end()
    if what == "blades":
        return replace(piece, number=Fraction(match["blades"])), match.end()
    return _size(match) if what == "size" else (piece, match.end())


def _size(match: re.Match[str]) -> tuple[Piece, int]:
    unit = UNITS.get((match["unit"] or "").rstrip("."))
    if match["mixed"] and _is_part_of_an_inch(match["top"], match["bottom"]):
        number = int(match["whole"]) + Fraction(int(match["top"]), int(match["bottom"]))
        return Piece("size", match["mixed"], number, True, unit, loose=match["joint"].isspace()), match.end()
    if match["part"] and _is_part_of_an_inch(match["over"], match["under"]):
        return Piece("size", match["part"], Fraction(int(match["over"]), int(match["under"])), True, unit), match.end()
    if match["plain"]:
        tied = match["tied"] is not None and unit is None
        return Piece("size", match["plain"], _plain(match["plain"]), False, unit, tied=tied), match.end()
    first = "whole" if match["mixed"] else "over"
    return Piece("size", match[first], _plain(match[first])), match.end(first)


def _plain(written: str) -> Fraction | None:
    return None if "?" in written else Fraction(written.replace(",", "."))


def _is_part_of_an_inch(top: str, bottom: str) -> bool:
    return 0 < int(top) < int(bottom) and int(bottom) in PARTS_OF_AN_INCH
