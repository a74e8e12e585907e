"""A line of a relaunch sheet: what is asked, what settles it, who signs, for which release. No database here."""

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import asdict, dataclass, fields, replace
from typing import Any

TO_LAUNCH, AFLOAT, TO_OWNER, FOLLOW_UP = "to launch", "afloat", "to owner", "follow-up"
RELEASES = (TO_LAUNCH, AFLOAT, TO_OWNER)
PARTS = (*RELEASES, FOLLOW_UP)
SETTLED_BY = {
    "tick": "A signed tick",
    "scan": "The tag scanned at the shaft, and the hand seen",
    "pair": "The two propellers as the register knows them",
    "verdict": "A kept verdict: does it go on?",
    "sheet": "A bench sheet",
    "coating": "The coating job's own log",
    "faults": "The list of faults",
    "photo": "A photo",
    "figure": "A figure within its limit",
}
# What a figure may be read in: the kind of its box, and one of it in SI (ohms stay ohms).
UNITS = {
    "mm": ("length", 0.001),
    "N m": ("torque", 1.0),
    "%": ("number", 0.01),
    "ohm": ("number", 1.0),
    "rpm": ("rotation", 1 / 60),
}
SHEETS = {
    "bearing": "Bearing",
    "run_out": "Run-out",
    "wear": "Wear of the shaft",
    "shaft_end": "Shaft end",
    "bore": "Bore",
    "diameter": "Diameter",
    "pitch": "Pitch",
    "survey": "Pitch survey",
    "alike": "Blades alike",
    "area": "Blade area",
}
LOCK = "lock"  # whatever order of nuts the yard goes by, their lock is always asked
MOST_LINES = 60


@dataclass(frozen=True, kw_only=True)
class Line:
    """One line. `is_each`: asked of each drive. `signs`: how many people; limits are in `unit` as it is typed."""

    key: str
    words: str
    part: str = TO_LAUNCH
    by: str = "tick"
    signer: str = "fitter"
    signs: int = 1
    is_stop: bool = True
    is_each: bool = True
    sheet: str = ""
    unit: str = ""
    at_least: float | None = None
    at_most: float | None = None
    # Of a follow-up: counted from which release, due after so many hours, late after so many.
    after: str = ""
    after_h: int = 0
    by_h: int = 0
    plain: str = ""  # for the owner's copy

    @property
    def is_lock(self) -> bool:
        """Whether it is the one line that no yard can do without."""
        return self.key == LOCK

    @property
    def asks_owner(self) -> bool:
        """Whether the owner's person is among those who may sign it."""
        return "owner" in self.signer

    @property
    def owner_words(self) -> str:
        """The line as the owner's copy has it."""
        return self.plain or self.words


@dataclass(frozen=True, kw_only=True)
class Wrong:
    """What can't stand about a line, and the box it stands in."""

    said: str
    box: str = ""


def as_plain(lines: Iterable[Line]) -> list[dict[str, Any]]:
    """As a JSON column keeps them."""
    return [asdict(line) for line in lines]


def from_plain(kept: Iterable[Mapping[str, Any]]) -> tuple[Line, ...]:
    """The same again; what this edition of the app has no name for is left aside."""
    names = {one.name for one in fields(Line)}
    return tuple(Line(**{name: value for name, value in row.items() if name in names}) for row in kept)


def what_is_wrong(lines: Sequence[Line]) -> Wrong | None:
    """The first thing that can't stand about a list of lines."""
    keys = [line.key for line in lines]
    if len(set(keys)) < len(keys):
        return Wrong(said="Two lines have the same name.", box="key")
    if len(lines) > MOST_LINES:
        return Wrong(said=f"More than {MOST_LINES} lines: nobody reads so many.")
    lock = next((line for line in lines if line.is_lock), None)
    if lock is None:
        return Wrong(said="The nut's lock is always asked: that line can't be dropped.")
    if not lock.is_stop or lock.part != TO_LAUNCH or lock.signs < 2 or lock.by not in ("photo", "tick"):
        return Wrong(said="The nut's lock stays a stop before the slings, looked at by two people.", box="is_stop")
    return next((wrong for wrong in map(_wrong, lines) if wrong is not None), None)


def _wrong(line: Line) -> Wrong | None:
    return _wrong_words(line) or _wrong_settling(line) or _wrong_time(line)


def _wrong_words(line: Line) -> Wrong | None:
    if not line.words.strip():
        return Wrong(said="What is asked? One short sentence.", box="words")
    if line.part not in PARTS:
        return Wrong(said=f"One of: {', '.join(PARTS)}.", box="part")
    if line.signs not in (1, 2):
        return Wrong(said="One signs, or two.", box="signs")
    return None


def _wrong_settling(line: Line) -> Wrong | None:
    if line.by not in SETTLED_BY:
        return Wrong(said="What settles it? One of the list.", box="by")
    if line.by == "sheet" and line.sheet not in SHEETS:
        return Wrong(said="Which bench sheet?", box="bench_sheet")
    if line.by == "figure" and line.unit not in UNITS:
        return Wrong(said=f"In which unit? One of: {', '.join(UNITS)}.", box="unit")
    if line.at_least is not None and line.at_most is not None and line.at_least > line.at_most:
        return Wrong(said="The least is above the most.", box="at_least")
    return None


def _wrong_time(line: Line) -> Wrong | None:
    if line.part != FOLLOW_UP:
        return None
    if line.after not in RELEASES:
        return Wrong(said="Counted from which release?", box="after")
    if not 0 <= line.after_h <= line.by_h or line.by_h == 0:
        return Wrong(said="Due after how many hours, and late after how many?", box="by_h")
    return None


def limit_said(line: Line) -> str:
    """`at most 0.07 mm`; nothing where there is no limit."""
    least = f"at least {line.at_least:g}" if line.at_least is not None else ""
    most = f"at most {line.at_most:g}" if line.at_most is not None else ""
    said = ", ".join(part for part in (least, most) if part)
    return f"{said} {line.unit}" if said else ""


def is_within(line: Line, figure: float) -> bool:
    """Whether a figure in SI keeps the line's limit; a hair over by rounding is within."""
    value = figure / UNITS[line.unit][1]
    slack = 1e-9 * max(abs(value), 1.0)
    least = -math.inf if line.at_least is None else line.at_least
    most = math.inf if line.at_most is None else line.at_most
    return least - slack <= value <= most + slack


def put(lines: Sequence[Line], line: Line) -> tuple[Line, ...]:
    """The list with this line in the place of the one of its name, else at the end of its part."""
    if any(one.key == line.key for one in lines):
        return tuple(line if one.key == line.key else one for one in lines)
    return tuple(sorted((*lines, line), key=lambda one: PARTS.index(one.part)))


def without(lines: Sequence[Line], key: str) -> tuple[Line, ...]:
    """The list without that line."""
    return tuple(line for line in lines if line.key != key)


def moved(lines: Sequence[Line], key: str, by: int) -> tuple[Line, ...]:
    """The list with that line one place up (-1) or down (1) within its part."""
    found = list(lines)
    here = next((place for place, line in enumerate(found) if line.key == key), None)
    if here is None:
        return tuple(found)
    there = here + by
    if 0 <= there < len(found) and found[there].part == found[here].part:
        found[here], found[there] = found[there], found[here]
    return tuple(found)


def in_words(line: Line, policies: Mapping[str, str]) -> Line:
    """The line with the yard's own policies written into it."""
    return replace(line, words=line.words.replace("{nut order}", policies.get("nut order", "")))
