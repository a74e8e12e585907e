"""What a propeller would be stamped by a maker, so that one can look for the mark on a heap."""

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from itertools import islice, product

from yardapp.stamps.tables.automaton import lengths, texts
from yardapp.stamps.tables.compile import CompiledTable
from yardapp.stamps.tables.grammar import Part
from yardapp.stamps.tables.meanings import Number
from yardapp.stamps.tables.seen import ANY, RUN, spell
from yardapp.stamps.tables.things import IN_SI, THINGS
from yardapp.stamps.tables.told import Option, Teller

CLOSEST = 3  # texts of a place that are looked at for a figure, closest first
MOST_WAYS = 5000
LARGEST = 100.0
# What one size off weighs against another: as much as a yard's tape can tell, and for an area ratio 0.02.
NEAR = {"diameter_m": 0.002, "pitch_m": 0.002, "bore_m": 0.002, "area_ratio": 0.02}
OFF_BY_WORD = 1e6  # the other hand is never close
FINEST = 8  # parts of an inch, where a size is struck as a fraction

Wanted = Mapping[str, float | int | str]


@dataclass(frozen=True)
class WouldSay:
    """A mark, ? or * for what was not asked; how far each size it says is off (said less wanted); what it can't say."""

    mark: str
    off: dict[str, float]
    untold: tuple[str, ...]
    words: tuple[str, ...] = ()


@dataclass(frozen=True)
class _Text:
    """One text for a place, what it tells, and how far that is from what is wanted."""

    text: str
    option: Option = ()
    distance: float = 0.0


def reverse(compiled: CompiledTable, wanted: Wanted, at_most: int = 10) -> tuple[WouldSay, ...]:
    """The marks that come closest to what is wanted, closest first; none where the table tells none of it."""
    told = {name for teller in compiled.tellers for name in _figures(teller)}
    untold = tuple(name for name in wanted if name not in told)
    wanted = {name: value for name, value in wanted.items() if name in told and _is_askable(name, value)}
    if not wanted:
        return ()
    bodies = [part for part in compiled.grammar.parts if not part.is_separator]
    places = [_texts(part, compiled.tellers[part.place], wanted) for part in bodies]
    ways = sorted(islice(product(*places), MOST_WAYS), key=lambda chosen: sum(one.distance for one in chosen))
    found: dict[str, WouldSay] = {}
    for chosen in ways:
        mark = _mark(compiled, chosen)
        if len(found) < at_most and sum(one.distance for one in chosen) < OFF_BY_WORD:
            found.setdefault(mark, _would_say(mark, chosen, wanted, untold))
    return tuple(found.values())


def _is_askable(name: str, value: float | int | str) -> bool:
    """A size must be one; what is not known is not asked."""
    if name in NEAR:
        return not isinstance(value, str) and 0 < value < LARGEST
    return isinstance(value, str | int)


def _figures(teller: Teller) -> Iterator[str]:
    yield teller.thing.figure
    for entries in teller.entries.values():
        yield from (THINGS[also.tells].figure for entry in entries for also in entry.also)


def _texts(part: Part, teller: Teller, wanted: Wanted) -> list[_Text]:
    """The closest texts for what is wanted of this place; else its only text, nothing, or wildcards."""
    if wanted.keys() & set(_figures(teller)):
        found = [
            _Text(text, option, _distance(option, wanted))
            for text in _candidates(part, teller, wanted)
            for option in teller.options(text)
            if any(one.figure in wanted and one.value is not None for one in option)
        ]
        return sorted(found, key=lambda one: one.distance)[:CLOSEST]
    if teller.place.optional:
        return [_Text("")]
    only = texts(part.graph, 1)
    shortest, longest = lengths(part.graph)
    return [_Text(only[0] if only else ANY * shortest if shortest == longest else RUN)]


def _candidates(part: Part, teller: Teller, wanted: Wanted) -> Iterator[str]:
    meaning = teller.place.meaning
    if not isinstance(meaning, Number):
        yield from [*teller.entries, *teller.run]
        return
    number = (float(wanted[teller.thing.figure]) / IN_SI[meaning.unit] - meaning.offset) / meaning.scale
    if not 0 <= number < 1e9:
        return
    steps = (1, 2, 4, FINEST) if teller.place.written == "size" else (1,)
    for step in steps:
        for count in (math.floor(number * step), math.ceil(number * step)):
            text = _struck(Fraction(count, step), teller.place.shortest)
            if _fits(part, text):
                yield text


def _struck(number: Fraction, shortest: int) -> str:
    over, part = divmod(number, 1)
    return f"{over} {part}" if part else f"{over}".zfill(shortest)


def _fits(part: Part, text: str) -> bool:
    number = 0
    for mark in text:
        point = part.graph[number]
        if mark not in point.onward:
            return False
        number = point.onward[mark]
    return part.graph[number].ends


def _distance(option: Option, wanted: Wanted) -> float:
    distance = 0.0
    for told in option:
        if told.figure in wanted and told.value is not None:
            asked = wanted[told.figure]
            if told.figure in NEAR and not isinstance(asked, str):
                distance += ((float(told.value) - asked) / NEAR[told.figure]) ** 2
            elif told.value != asked:
                distance += OFF_BY_WORD
    return distance


def _mark(compiled: CompiledTable, chosen: tuple[_Text, ...]) -> str:
    texts_of = zip(compiled.tellers, chosen, strict=True)
    return "".join(_separator(teller) + one.text if one.text else "" for teller, one in texts_of)


def _separator(teller: Teller) -> str:
    """The first that the table names."""
    first = next(iter(teller.place.separators), "")
    return spell(first) or first[:1]


def _would_say(mark: str, chosen: tuple[_Text, ...], wanted: Wanted, untold: tuple[str, ...]) -> WouldSay:
    told = [one for text in chosen for one in text.option]
    off = {
        one.figure: float(one.value) - float(wanted[one.figure])
        for one in told
        if one.figure in NEAR and one.figure in wanted and one.value is not None
    }
    return WouldSay(mark, off, untold, tuple(one.words for one in told if one.words))
