"""Two sheets side by side, in words."""

from typing import Any

from yardapp import quantities
from yardapp.bench.showing.words import figure, is_named, label_of
from yardapp.bench.tools import K
from yardapp.filters import kind_of
from yardapp.quantities import System


def verdict(found: Any, system: System) -> dict[str, str]:
    """The answer's difference, and whether it lies within what both allow."""
    one = found.differences[0]
    said = f"{label_of(one.what)}: {_apart(one, system)}"
    if one.agrees is None:
        return {"verdict": "ask", "label": said, "said": "Neither says how well it was read."}
    allowed = _allowed(one, system)
    if one.agrees:
        return {"verdict": "yes", "label": said, "said": f"Within what their ± allow together, {allowed}."}
    return {"verdict": "no", "label": said, "said": f"More than their ± allow together, {allowed}. Look at both again."}


def rows(found: Any, system: System) -> list[tuple[str, str, str, str, str]]:
    """Every figure that both came to: first, second, difference, and whether it is within."""
    words = {True: "within", False: "beyond", None: "can't tell"}
    return [
        (
            label_of(one.what),
            figure(one.what, one.first, system, one.u_first),
            figure(one.what, one.second, system, one.u_second),
            _apart(one, system),
            words[one.agrees],
        )
        for one in found.differences
        if is_named(one.what)
    ]


def _apart(one: Any, system: System) -> str:
    """How far the second lies from the first."""
    kind = kind_of(one.what)
    if kind == "taper":
        return "alike" if one.apart == 0 else "steeper" if one.apart > 0 else "slower"
    if one.apart == 0:
        return "no difference"
    return f"{quantities.show(abs(one.apart), kind, system)} {'more' if one.apart > 0 else 'less'}"


def _allowed(one: Any, system: System) -> str:
    kind = kind_of(one.what)
    if kind == "taper":
        return "as the readings of both ends do"
    return quantities.plus_minus(one.allowed, one.allowed / K, kind, system).partition("± ")[2]


def remarks(found: Any) -> list[str]:
    """What else bears on it: work in between, one person twice."""
    said = []
    if not found.is_one_age:
        said.append("Work was done between the two: they are of different ages, and may well differ.")
    if not found.is_one_place:
        said.append("They read different places: blades and marks differ, which says nothing of how readings repeat.")
    if found.is_one_person:
        said.append("One person read both: a second person's sheet tells more of how far readings repeat.")
    return said
