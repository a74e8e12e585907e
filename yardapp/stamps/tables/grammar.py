"""A table as a row of parts, separators and places, each with its automaton, and which part may follow which."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import cached_property

from yardapp.stamps.tables.automaton import (
    ANYTHING,
    DIGITS,
    Automaton,
    Spelling,
    automaton,
    code,
    counted,
    lengths,
    sizes,
)
from yardapp.stamps.tables.meanings import LETTERS
from yardapp.stamps.tables.places import Place
from yardapp.stamps.tables.seen import SPACE, spell

CLASSES = {"digits": DIGITS, "letters": LETTERS, "any": ANYTHING}
BETWEEN_FIGURES = (SPACE, ".")  # a mark is spelled with these only where both neighbours are figures
START = -1


@dataclass(frozen=True)
class Part:
    """One part: a place, or the separator before it."""

    place: int
    is_separator: bool
    spellings: tuple[Spelling, ...]
    graph: Automaton

    def folded(self) -> "Part":
        """The same, with characters that may be confused as one."""
        spellings = tuple(one.folded() for one in self.spellings)
        return Part(self.place, self.is_separator, spellings, automaton(spellings))


@dataclass(frozen=True)
class Grammar:
    """Parts, and for each (and for the start) the parts that may come next; `last` are those that may be last.

    `before` says of each place, by the place before it, whether it may stand bare and whether behind a separator.
    """

    parts: tuple[Part, ...]
    follow: dict[int, tuple[int, ...]]
    last: frozenset[int]
    shortest: int
    longest: int
    before: dict[int, dict[int, tuple[bool, bool]]]

    @cached_property
    def is_spaced(self) -> bool:
        """Whether a space between figures matters to it."""
        return any(SPACE in marks for part in self.parts for way in part.spellings for marks in way.classes)

    def folded(self) -> "Grammar":
        """The same, with characters that may be confused as one."""
        return replace(self, parts=tuple(part.folded() for part in self.parts))


def spellings_of(place: Place) -> tuple[Spelling, ...]:
    """Every way in which the place may be written, its special words among them."""
    if place.written == "literal":
        return (code(spell(place.literal)),)
    ways: tuple[Spelling, ...] = ()
    if place.written == "size":
        ways = tuple(sizes())
    elif place.written in CLASSES:
        ways = (counted(CLASSES[place.written], place.shortest, place.longest),)
    listed = place.codes if place.written == "list" else tuple(special.code for special in place.specials)
    return ways + tuple(code(text) for text in dict.fromkeys(spell(one) for one in listed))


def grammar(places: tuple[Place, ...]) -> Grammar:
    """The parts of a table whose places are sound one by one."""
    written = [spellings_of(place) for place in places]
    before = {at: _before(places, written, at) for at in range(len(places))}
    parts: list[Part] = []
    separator: dict[int, int] = {}
    body: dict[int, int] = {}
    for at, place in enumerate(places):
        between = tuple(code(text) for text in _separators(place) if text)
        if between and any(behind for _, behind in before[at].values()):
            separator[at] = len(parts)
            parts.append(Part(at, True, between, automaton(between)))
        body[at] = len(parts)
        parts.append(Part(at, False, written[at], automaton(written[at])))
    follow: dict[int, tuple[int, ...]] = {separator[at]: (body[at],) for at in separator}
    for at in (START, *body):
        follow[body.get(at, START)] = tuple(_next(places, before, at, separator, body))
    last = frozenset(body[at] for at in body if all(after.optional for after in places[at + 1 :]))
    return Grammar(tuple(parts), follow, last, *_lengths(places, parts, before), before)


def _separators(place: Place) -> list[str]:
    """What may stand before a place, as marks are spelled."""
    plain = [one.strip().replace(",", ".") or one[:1] for one in place.separators]
    return list(dict.fromkeys(one if one in BETWEEN_FIGURES else spell(one) for one in plain))


def _before(places: tuple[Place, ...], written: list[tuple[Spelling, ...]], at: int) -> dict[int, tuple[bool, bool]]:
    """By the place before: whether this one may stand bare, and whether behind a separator."""
    separators = _separators(places[at])
    found = {}
    for before in range(at - 1, START - 1, -1):
        figures = _are_figures(written[before], written[at]) if before != START else {False}
        needs_figures = any(one in BETWEEN_FIGURES for one in separators)
        bare = not separators or "" in separators or (needs_figures and False in figures)
        behind = any(one and (one not in BETWEEN_FIGURES or True in figures) for one in separators)
        found[before] = (bare, behind)
        if before == START or not places[before].optional:
            break
    return found


def _are_figures(before: tuple[Spelling, ...], after: tuple[Spelling, ...]) -> set[bool]:
    """Whether the two touch with figures on both sides: always, never, or now and then."""
    firsts = {mark for way in after for mark in way.classes[0]}
    return {last in DIGITS and first in DIGITS for last in _last_marks(before) for first in firsts}


def _last_marks(ways: tuple[Spelling, ...]) -> set[str]:
    ends = (way.classes[(way.least or len(way.classes)) - 1 :] for way in ways)
    return {mark for classes in ends for marks in classes for mark in marks}


def _next(
    places: tuple[Place, ...],
    before: dict[int, dict[int, tuple[bool, bool]]],
    at: int,
    separator: dict[int, int],
    body: dict[int, int],
) -> Iterator[int]:
    """The parts that may come after a place: of the next one, and of those after it while it is optional."""
    for after in range(at + 1, len(places)):
        bare, behind = before[after][at]
        if bare:
            yield body[after]
        if behind:
            yield separator[after]
        if not places[after].optional:
            break


def _lengths(
    places: tuple[Place, ...], parts: list[Part], before: dict[int, dict[int, tuple[bool, bool]]]
) -> tuple[int, int]:
    shortest = longest = 0
    for part in parts:
        place = places[part.place]
        least, most = lengths(part.graph)
        may_miss = part.is_separator and any(bare for bare, _ in before[part.place].values())
        shortest += 0 if place.optional or may_miss else least
        longest += most
    return shortest, longest
