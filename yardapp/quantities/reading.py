"""Text that a person typed, to SI. Nothing typed reaches a parser that is not in this package."""

from collections.abc import Callable

from yardapp.quantities import units
from yardapp.quantities.asking import AT_LEAST, AT_MOST, WHAT, Asked, Read, article, ask
from yardapp.quantities.measures import read_count, read_measure, read_number
from yardapp.quantities.numerals import Unreadable
from yardapp.quantities.rounding import decimals
from yardapp.quantities.tapers import read_taper
from yardapp.quantities.units import Kind

FLIPS = {
    "in": "mm", "mm": "in", "cm": "in", "kW": "hp", "hp": "kW", "PS": "hp", "kg": "lb", "lb": "kg",
    "°C": "°F", "°F": "°C", "min": "h", "h": "min", "N m": "lbf ft", "lbf ft": "N m",
}  # fmt: skip
SLACK = 1e-9  # a bound that was itself converted must not refuse its own figure

READERS: dict[Kind, Callable[[Asked], Read]] = {"taper": read_taper, "number": read_number, "count": read_count}


def read(
    text: str,
    kind: Kind,
    assume: str | None = None,
    *,
    at_least: float | None = None,
    at_most: float | None = None,
    what: str | None = None,
) -> Read:
    """The figure in `text`, in SI.

    `assume` is our short name of the unit to read where none is typed. Bounds are SI; zero and below are refused unless
    `at_least` is given and allows them.

    Raises
    ------
    Unreadable
        It is no figure of this kind, may be read in two ways, or lies outside the bounds.
    """
    asked = ask(text, kind, assume, what or WHAT[kind])
    found = READERS.get(kind, read_measure)(asked)
    _hold_above(found, asked, AT_LEAST.get(kind) if at_least is None else at_least)
    _hold_below(found, asked, AT_MOST[kind] if at_most is None else at_most)
    return found


def flip(found: Read) -> Read | None:
    """The same text under the other assumption; None when nothing was assumed or nothing else makes sense."""
    other = FLIPS.get(found.unit)
    if not found.assumed or other is None:
        return None
    try:
        return read(found.typed, found.kind, assume=other, at_least=-AT_MOST[found.kind])
    except Unreadable:
        return None


def _hold_above(found: Read, asked: Asked, at_least: float | None) -> None:
    if at_least is None and found.value < 0:
        raise Unreadable(f"`{asked.typed}` is below zero, which no {asked.what} can be. Try {asked.examples}.")
    if at_least is None and found.value == 0:
        raise Unreadable(f"`{asked.typed}` is zero, which no {asked.what} can be. Leave it empty if it is not known.")
    if at_least is not None and found.value < at_least - SLACK * abs(at_least):
        raise Unreadable(f"`{asked.typed}` is too small for {article(asked.what)}: at least {_limit(found, at_least)}")


def _hold_below(found: Read, asked: Asked, at_most: float) -> None:
    if found.value > at_most + SLACK * abs(at_most):
        raise Unreadable(f"`{asked.typed}` is too large for {article(asked.what)}: at most {_limit(found, at_most)}")


def _limit(found: Read, bound: float) -> str:
    """A bound in the unit that was read, and why that unit where nobody typed it."""
    why = f" ({found.why})." if found.assumed else "."
    if found.kind == "taper":
        return (f"1:{decimals(1 / bound, 1)}" if bound else "0") + why
    number = float(units.from_si(bound, units.named(found.kind, found.unit)))
    return f"{decimals(number, 0 if abs(number) >= 1000 else 2 if abs(number) >= 1 else 4)} {found.unit}".strip() + why
