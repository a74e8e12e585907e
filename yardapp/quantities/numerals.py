"""Numbers as a yard writes them: 23 1/2, 23-1/2, 23½, 7/8, 23.5 and 0,597, each to an exact fraction."""

import re
from dataclasses import dataclass
from fractions import Fraction

AT_MOST_CHARACTERS = 60

_VULGAR = {
    "½": "1/2", "⅓": "1/3", "⅔": "2/3", "¼": "1/4", "¾": "3/4", "⅕": "1/5", "⅖": "2/5", "⅗": "3/5", "⅘": "4/5",
    "⅙": "1/6", "⅚": "5/6", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8",
}  # fmt: skip
_PLAIN = str.maketrans(
    {vulgar: f" {plain} " for vulgar, plain in _VULGAR.items()}
    | dict.fromkeys("“”„″˝＂", '"')
    | dict.fromkeys("‘’‚′´`ʹ", "'")
    | dict.fromkeys("‐‑‒–—−", "-")
    | dict.fromkeys("\u00a0\u2007\u2009\u202f\t\r\n", " ")
    | {"⁄": "/", "∶": ":", "º": "°", "˚": "°", "μ": "µ"}
)
_DIAMETER_SIGN = re.compile(r"^[⌀Øøφ]\s*")

_NUMERAL = re.compile(
    r"""(?P<sign>-\s*)?
        (?: (?:(?P<whole>\d+)(?:\s*-\s*|\s+))? (?P<top>\d+)\s*/\s*(?P<bottom>\d+)
          | (?P<decimal>\d+(?:[.,]\d+)? | [.,]\d+) )
        (?![\d.,])""",
    re.ASCII | re.VERBOSE,
)
_GROUPED = re.compile(r"[1-9]\d{0,2},\d{3}", re.ASCII)


class Unreadable(ValueError):
    """What was typed is no figure. `said` is one sentence or two: what was read, what would do."""

    def __init__(self, said: str) -> None:
        super().__init__(said)
        self.said = said


@dataclass(frozen=True)
class Numeral:
    """A number, and whether it was written as a fraction."""

    number: Fraction
    is_fraction: bool


def tidy(text: str) -> str:
    """The text with typographic marks made plain, single spaces, no diameter sign in front."""
    plain = _DIAMETER_SIGN.sub("", text.strip()).translate(_PLAIN).replace("''", '"')
    return " ".join(plain.split())


def take(text: str) -> tuple[Numeral, str] | None:
    """The number that `text` begins with, and what follows it; None when it begins with none.

    Raises
    ------
    Unreadable
        The number may be read in two ways.
    """
    match = _NUMERAL.match(text)
    if match is None:
        return None
    return _numeral(match), text[match.end() :].strip()


def whole(text: str) -> Numeral | None:
    """The number that `text` is from end to end, or None."""
    taken = take(text)
    return taken[0] if taken and not taken[1] else None


def plain(number: Fraction) -> str:
    """A fraction as a yard writes it: 3-1/4."""
    over, part = divmod(number, 1)
    return f"{over}-{part}" if over and part else str(number)


def _numeral(match: re.Match[str]) -> Numeral:
    sign = -1 if match["sign"] else 1
    if match["decimal"]:
        return Numeral(sign * _decimal(match["decimal"]), is_fraction=False)
    return Numeral(sign * (int(match["whole"] or 0) + _part(match)), is_fraction=True)


def _decimal(written: str) -> Fraction:
    if _GROUPED.fullmatch(written):
        raise Unreadable(
            f"`{written}` may be {written.replace(',', '.')} or {written.replace(',', '')}. Type it without the comma."
        )
    return Fraction(written.replace(",", "."))


def _part(match: re.Match[str]) -> Fraction:
    top, bottom = int(match["top"]), int(match["bottom"])
    if bottom == 0:
        raise Unreadable(f"`{match[0]}` divides by nothing. Type it as 23 1/2 or 23.5.")
    if top >= bottom:
        raise Unreadable(_either_way(match, top, bottom))
    return Fraction(top, bottom)


def _either_way(match: re.Match[str], top: int, bottom: int) -> str:
    """A fraction above one: the sum it makes, and the hyphen that may have been lost (13/4 for 1-3/4)."""
    ways = [plain(Fraction(top, bottom))] if not match["whole"] else []
    for at in range(1, len(match["top"])):
        over, part = match["top"][:at], int(match["top"][at:])
        if 0 < part < bottom and not match["whole"]:
            ways.append(f"{over}-{part}/{bottom}")
            break
    if len(ways) > 1:
        return f"`{match[0]}` may be {ways[0]} or {ways[1]}. Type the one you mean."
    return f"`{match[0]}` has a fraction that is not below one. Type it as {ways[0] if ways else '23 1/2'}."
