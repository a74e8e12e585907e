"""The marks of one hub read together: a maker's code and later shop stamps, where they agree and where not."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations

from yardapp.stamps.tables.rank import BROAD_U, DIFFERS, DOUBTED_BEYOND, LEAST_U, SILENT
from yardapp.stamps.tables.reading import Reading, Readings
from yardapp.stamps.tables.told import Value

MOST_EACH = {2: 40, 3: 20}  # readings of each mark, by how many marks there are
MOST_EACH_OF_MANY = 10
MOST_TOGETHER = 60
LATER_CHANGE = -1.0  # a conflict that a later stamp explains: re-pitched, cut down or bored since; a judgement
COMPARED = ("diameter_m", "pitch_m", "bore_m", "area_ratio", "hand", "blades")
NEVER_CHANGED = ("hand", "blades")  # no shop turns one hand into the other


@dataclass(frozen=True)
class OnHub:
    """One mark of a hub; `struck` is "first" or "later" where somebody saw which, else "" for not known."""

    readings: Readings
    struck: str = ""


@dataclass(frozen=True)
class Conflict:
    """One figure that two marks tell differently; `newer` is the newer mark, "" where that is not known."""

    figure: str
    first: str
    first_value: Value
    second: str
    second_value: Value
    newer: str
    since: str

    @property
    def said(self) -> str:
        """Both marks' words, and which is newer."""
        called = self.figure.removesuffix("_m").replace("_", " ")
        values = (_shown(self.figure, self.first_value), _shown(self.figure, self.second_value))
        said = f"{self.first} says the {called} is {values[0]}, {self.second} says {values[1]}; "
        return said + (f"{self.newer} is newer: {self.since}" if self.newer else "which is newer is not known")


@dataclass(frozen=True)
class Together:
    """One reading of each mark; `figures` are what holds now, the newer mark's word where two differ."""

    readings: tuple[Reading, ...]
    score: float
    figures: dict[str, Value]
    conflicts: tuple[Conflict, ...]


@dataclass(frozen=True)
class _Seen:
    """A mark among the others: as it was seen, and what somebody saw of its turn."""

    text: str
    struck: str


def combine(*marks: OnHub) -> tuple[Together, ...]:
    """One reading of each mark, in every way, best first; a mark that no table reads is left out."""
    read = [mark for mark in marks if mark.readings.found]
    if len(read) < 2:
        return ()
    each = MOST_EACH.get(len(read), MOST_EACH_OF_MANY)
    seen = [_Seen(mark.readings.seen, mark.struck) for mark in read]
    best: list[tuple[float, tuple[Reading, ...]]] = [(0.0, ())]
    for mark in read:
        more = [_with(score, chosen, one, seen) for score, chosen in best for one in mark.readings.found[:each]]
        best = sorted(more, key=lambda pair: -pair[0])[:MOST_TOGETHER]
    return tuple(_together(score, chosen, seen) for score, chosen in best)


def _with(
    score: float, chosen: tuple[Reading, ...], one: Reading, seen: Sequence[_Seen]
) -> tuple[float, tuple[Reading, ...]]:
    """The readings chosen so far with one more, and how well they agree."""
    here = seen[len(chosen)]
    agreement = sum(_agreement(other, one, there, here) for other, there in zip(chosen, seen, strict=False))
    return score + one.score + agreement, (*chosen, one)


def _agreement(one: Reading, other: Reading, there: _Seen, here: _Seen) -> float:
    is_known = _newer(one, other, there, here)[0] is not None
    alone = set(one.figures) ^ set(other.figures)
    silences = sum(_silence(one if name in one.figures else other, name) for name in COMPARED if name in alone)
    return silences + sum(_worth(one, other, name, is_known) for name in _both(one, other))


def _silence(teller: Reading, name: str) -> float:
    """What it costs that the other mark says nothing of a figure: else a confusion would hide every conflict."""
    if name not in BROAD_U:
        return SILENT[name]
    return -math.log(max(BROAD_U[name] / max(teller.u.get(name, 0.0), LEAST_U[name]), 1.0))


def _both(one: Reading, other: Reading) -> list[str]:
    said, also_said = one.figures, other.figures
    return [name for name in COMPARED if name in said and name in also_said]


def _together(score: float, chosen: tuple[Reading, ...], seen: Sequence[_Seen]) -> Together:
    conflicts = [
        (first, second, _conflict(name, chosen[first], chosen[second], seen[first], seen[second]))
        for first, second in combinations(range(len(chosen)), 2)
        for name in _both(chosen[first], chosen[second])
        if _apart(chosen[first], chosen[second], name)[0]
    ]
    figures = {}
    for name in dict.fromkeys(name for one in chosen for name in one.figures):
        among = [(first, second, one) for first, second, one in conflicts if one.figure == name]
        at = _teller([at for at, one in enumerate(chosen) if name in one.figures], among, seen)
        if at is not None:
            figures[name] = chosen[at].figures[name]
    return Together(chosen, score, figures, tuple(one for *_pair, one in conflicts))


def _teller(
    tellers: Sequence[int], conflicts: Sequence[tuple[int, int, Conflict]], seen: Sequence[_Seen]
) -> int | None:
    """The mark whose word holds: of those that differ, the one that is newer than every other; None if not known."""
    won = [at for *pair, one in conflicts for at in pair if seen[at].text == one.newer]
    lost = {at for *pair, one in conflicts for at in pair if seen[at].text != one.newer}
    standing = [at for at in (*won, *tellers) if at not in lost]
    return standing[0] if standing else None


def _newer(one: Reading, other: Reading, there: _Seen, here: _Seen) -> tuple[bool | None, str]:
    """Whether the other mark is the newer one, None if not known; and how that is known."""
    tables = (one.table.struck == "later", other.table.struck == "later")
    noted = (_is_later(there, tables[0]), _is_later(here, tables[1]))
    if noted[0] != noted[1]:
        by_table = noted == tables
        return noted[1], "a shop's stamp is later than the maker's" if by_table else "so it was seen on the hub"
    years = (one.figures.get("year"), other.figures.get("year"))
    if isinstance(years[0], int) and isinstance(years[1], int) and years[0] != years[1]:
        return years[1] > years[0], f"{max(years[0], years[1])} is on it"
    return None, ""


def _is_later(mark: _Seen, by_table: bool) -> bool:
    return mark.struck == "later" if mark.struck else by_table


def _apart(one: Reading, other: Reading, name: str) -> tuple[bool, float]:
    """Whether the two differ by more than their rounding allows, and the log-likelihood that both hold."""
    first, second = one.figures[name], other.figures[name]
    if name not in LEAST_U:
        return first != second, (0.0 if first == second else DIFFERS)
    u = max(math.hypot(one.u.get(name, 0.0), other.u.get(name, 0.0)), LEAST_U[name])
    z = abs(float(first or 0) - float(second or 0)) / u
    return z > DOUBTED_BEYOND, max(-z * z / 2, DIFFERS)


def _worth(one: Reading, other: Reading, name: str, is_known: bool) -> float:
    differs, agreement = _apart(one, other, name)
    if differs and is_known and name not in NEVER_CHANGED:
        return LATER_CHANGE
    return agreement


def _conflict(name: str, one: Reading, other: Reading, there: _Seen, here: _Seen) -> Conflict:
    is_other, since = _newer(one, other, there, here)
    newer = "" if is_other is None else here.text if is_other else there.text
    return Conflict(name, there.text, one.figures[name], here.text, other.figures[name], newer, since)


def _shown(name: str, value: Value) -> str:
    return f"{value * 1000:.6g} mm" if name.endswith("_m") and isinstance(value, float) else f"{value}"
