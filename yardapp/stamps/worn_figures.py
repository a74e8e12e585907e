"""A size with characters that can't be read: what it may be, in words, without choosing."""

from fractions import Fraction
from itertools import product

MOST_UNREAD = 3
MOST_LISTED = 6
USUAL_PITCH_RATIO = (Fraction(2, 5), Fraction(8, 5))  # a judgement: pitch over diameter


def what_it_may_be(name: str, text: str, unit: str, diameter: Fraction | None = None) -> str:
    """`?8` → pitch ends in 8: 18 to 98 in; 18 or 28 would be usual."""
    may_be = _every(text)
    if not may_be:
        return f"{name} can't be read"
    said = f"{name} {_seen(text)}: {_plain(may_be[0])} to {_plain(may_be[-1])} {unit}"
    if diameter is None:
        return said
    usual = [size for size in may_be if USUAL_PITCH_RATIO[0] <= size / diameter <= USUAL_PITCH_RATIO[1]]
    listed = "any of them" if usual == may_be else _listed(usual)
    return f"{said}; {listed} would be usual with a diameter of {_plain(diameter)}"


def _every(text: str) -> list[Fraction]:
    """Every number that fits, smallest first; none where nothing, or next to nothing, can be read."""
    unread = text.count("?")
    if unread > MOST_UNREAD or not any(mark.isdigit() for mark in text):
        return []
    plain = text.replace(",", ".")
    figures = product("0123456789", repeat=unread)
    fits = {_filled(plain, chosen) for chosen in figures if not (plain[0] == "?" and chosen[0] == "0")}
    return sorted(fits - {Fraction(0)})


def _filled(text: str, figures: tuple[str, ...]) -> Fraction:
    for figure in figures:
        text = text.replace("?", figure, 1)
    return Fraction(text)


def _seen(text: str) -> str:
    if text.startswith("?") and "?" not in text[1:]:
        return f"ends in {text[1:]}"
    if text.endswith("?") and "?" not in text[:-1]:
        return f"begins with {text[:-1]}"
    return f"reads {text}"


def _listed(sizes: list[Fraction]) -> str:
    shown = [_plain(size) for size in sizes]
    if not shown:
        return "none of them"
    if len(shown) > MOST_LISTED:
        return f"{shown[0]} to {shown[-1]}"
    return " or ".join([", ".join(shown[:-1]), shown[-1]] if len(shown) > 1 else shown)


def _plain(number: Fraction) -> str:
    return f"{float(number):g}"
