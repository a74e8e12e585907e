"""Two people's edits of one table brought together, box by box and code by code, over the version both began from."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import count
from typing import Any, TypeVar

from yardapp.marks.shaping import Boxes, place_boxes, table_boxes
from yardapp.stamps.tables import Entry, Lookup, Place, Special, Table

Coded = TypeVar("Coded", Entry, Special)
Matches = Sequence[int | None]  # of each place of an edit, which place of the version before it is
Turn = tuple[str, int]  # a code, and how many of it stand before
UNJUDGED = ("places", "version")


@dataclass(frozen=True)
class Clash:
    """One box that both changed, each otherwise."""

    box: str
    place: int | None
    theirs: str | bool
    mine: str | bool


@dataclass(frozen=True)
class Merged:
    """The boxes with both edits in them, theirs where two clash; `is_order_open` where the places stand otherwise."""

    boxes: Boxes
    clashes: tuple[Clash, ...]
    is_order_open: bool = False


def merged(base: Table, theirs: Table, mine: Table, order: str = "") -> Merged:
    """Both edits; `order` is "theirs" or "mine" where somebody has said whose row of places holds."""
    head, clashes = _of_boxes(_head(base), _head(theirs), _head(mine), None)
    rows = (_matches(base.places, theirs.places), _matches(base.places, mine.places))
    whose = order or _whose_order(base, theirs, mine, rows)
    places, more = _places(base, theirs, mine, rows, is_mine=whose == "mine")
    return Merged(head | {"places": places}, (*clashes, *more), is_order_open=not whose)


def _head(table: Table) -> Boxes:
    return {name: value for name, value in table_boxes(table).items() if name not in UNJUDGED}


def _of_boxes(
    base: Mapping[str, Any], theirs: Mapping[str, Any], mine: Mapping[str, Any], at: int | None
) -> tuple[Boxes, list[Clash]]:
    """Each box as the one who changed it left it; both, where they changed it otherwise, as a clash."""
    boxes, clashes = dict(theirs), []
    for name in [*theirs, *(name for name in mine if name not in theirs)]:
        was, they, ours = (said.get(name, "") for said in (base, theirs, mine))
        boxes[name] = ours if they in (was, ours) else they
        if len({was, they, ours}) == 3:
            clashes.append(Clash(name, at, they, ours))
    return boxes, clashes


def _matches(before: Sequence[Place], after: Sequence[Place]) -> Matches:
    """Which place each is, the most alike first; one that is like none is new."""
    pairs = sorted(
        (-_likeness(old, new), abs(at - to), to, at)
        for at, old in enumerate(before)
        for to, new in enumerate(after)
        if old.tells == new.tells or _likeness(old, new) > 0.9
    )
    found: dict[int, int] = {}
    for *_how_well, to, at in pairs:
        if to not in found and at not in found.values():
            found[to] = at
    return [found.get(to) for to in range(len(after))]


def _likeness(one: Place, other: Place) -> float:
    first, second = place_boxes(one), place_boxes(other)
    names = first.keys() | second.keys()
    return len([name for name in names if first.get(name) == second.get(name)]) / len(names)


def _whose_order(base: Table, theirs: Table, mine: Table, rows: tuple[Matches, Matches]) -> str:
    """Whose row of places holds: of the one who changed it. Nobody's yet, where both did, or an edited one is gone."""
    as_before = list(range(len(base.places)))
    if rows[0] == as_before:
        return "" if _loses(base, theirs, rows[0], rows[1]) else "mine"
    if rows[1] == as_before:
        return "" if _loses(base, mine, rows[1], rows[0]) else "theirs"
    is_same = rows[0] == rows[1] and None not in rows[0]
    return "theirs" if is_same else ""


def _loses(base: Table, edit: Table, row: Matches, kept: Matches) -> bool:
    """Whether a place that was edited there is not in the row that would be kept."""
    return any(at is not None and at not in kept and edit.places[to] != base.places[at] for to, at in enumerate(row))


def _places(
    base: Table, theirs: Table, mine: Table, rows: tuple[Matches, Matches], *, is_mine: bool
) -> tuple[list[Boxes], list[Clash]]:
    """The places in one of the two orders, each with what the other changed in it."""
    (row, chosen), (other_row, other) = (rows[0], theirs), (rows[1], mine)
    if is_mine:
        (row, chosen), (other_row, other) = (other_row, other), (row, chosen)
    places, clashes = [], []
    for at, before in enumerate(row):
        own = beside = chosen.places[at]
        if before is not None and before in other_row:
            beside = other.places[other_row.index(before)]
        old = base.places[before] if before is not None else own
        sides = (beside, own) if is_mine else (own, beside)
        boxes, more = _of_place(old, *sides, at)
        places.append(boxes)
        clashes += more
    return places, clashes


def _of_place(base: Place, theirs: Place, mine: Place, at: int) -> tuple[Boxes, list[Clash]]:
    lists = [one.meaning.entries if isinstance(one.meaning, Lookup) else None for one in (base, theirs, mine)]
    if lists[1] is not None and lists[2] is not None:
        they, we = _of_codes(lists[0] or (), lists[1], lists[2])
        theirs, mine = _with_entries(theirs, they), _with_entries(mine, we)
    special = _of_codes(base.specials, theirs.specials, mine.specials)
    theirs, mine = replace(theirs, specials=special[0]), replace(mine, specials=special[1])
    return _of_boxes(place_boxes(base), place_boxes(theirs), place_boxes(mine), at)


def _with_entries(place: Place, entries: tuple[Entry, ...]) -> Place:
    assert isinstance(place.meaning, Lookup)
    return replace(place, meaning=replace(place.meaning, entries=entries))


def _of_codes(
    base: Sequence[Coded], theirs: Sequence[Coded], mine: Sequence[Coded]
) -> tuple[tuple[Coded, ...], tuple[Coded, ...]]:
    """The list with both edits in it, twice: where one code was changed by both, as they and as we have it."""
    was: dict[Turn, Coded] = dict(_numbered(base))
    by_them: dict[Turn, Coded] = dict(_numbered(theirs))
    by_us: dict[Turn, Coded] = dict(_numbered(mine))
    sides: tuple[list[Coded], list[Coded]] = ([], [])
    for key in [*by_them, *(one for one in by_us if one not in by_them)]:
        pair = _settled(was.get(key), by_them.get(key), by_us.get(key))
        for side, one in zip(sides, pair, strict=True):
            side.extend([] if one is None else [one])
    return tuple(sides[0]), tuple(sides[1])


def _settled(was: Coded | None, they: Coded | None, ours: Coded | None) -> tuple[Coded | None, Coded | None]:
    """One code as they and as we have it by now: the same, unless both changed it."""
    if they in (was, ours):
        return ours, ours
    return (they, they) if ours == was else (they, ours)


def _numbered(entries: Sequence[Coded]) -> Iterator[tuple[Turn, Coded]]:
    """Each by its code; one that stands twice, for other years, by its turn too."""
    turns: dict[str, count[int]] = {}
    for one in entries:
        code = one.code.upper()
        yield (code, next(turns.setdefault(code, count()))), one
