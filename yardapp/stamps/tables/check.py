"""What is wrong with a table, in words, with the place each concerns; an empty answer is a sound table."""

from collections.abc import Iterator

from yardapp.stamps.spelling import AT_MOST_CHARACTERS
from yardapp.stamps.tables.ambiguity import TooTangled, two_ways
from yardapp.stamps.tables.check_meanings import wrong_meaning, wrong_source
from yardapp.stamps.tables.grammar import CLASSES, Grammar, grammar
from yardapp.stamps.tables.meanings import Entry, Lookup
from yardapp.stamps.tables.places import WRITTEN, Place
from yardapp.stamps.tables.refusals import Problem
from yardapp.stamps.tables.seen import WILD, spell
from yardapp.stamps.tables.table import STRUCK, Table
from yardapp.stamps.tables.things import THINGS

MOST_PLACES = 40
MOST_CHARACTERS_A_PLACE = 24
MAY_REPEAT = ("nothing", "series", "serial")

Wrong = Iterator[tuple[str, str]]


def check(table: Table) -> tuple[Problem, ...]:
    """Every problem of the table; splitting is looked at once each place is sound by itself."""
    problems = [Problem(said, None, path) for said, path in _whole(table)]
    if len(table.places) <= MOST_PLACES:
        for at, place in enumerate(table.places):
            wrong = _place(place, at)
            problems.extend(Problem(_at(at, said), at, f"places[{at}].{path}") for said, path in wrong)
    if problems:
        return tuple(problems)
    return tuple(_split(table, grammar(table.places)))


def _at(at: int, said: str) -> str:
    return f"Place {at + 1}: {said}."


def _whole(table: Table) -> Wrong:
    if not table.maker.strip():
        yield "A table belongs to a maker. Who struck these marks?", "maker"
    if table.version < 1:
        yield "Versions count from 1.", "version"
    if table.struck not in STRUCK:
        yield f"A mark is struck {' or '.join(STRUCK)}, not `{table.struck}`.", "struck"
    for said, path in wrong_source(table.source, table.holds):
        yield f"The table: {said}.", path
    if len(table.places) > MOST_PLACES:
        yield f"A mark has at most {MOST_PLACES} places, this one has {len(table.places)}.", "places"
    elif all(place.optional for place in table.places):
        yield "A table needs at least one place that is always there.", "places"
    else:
        yield from _told_twice(table)


def _told_twice(table: Table) -> Wrong:
    seen: dict[str, int] = {}
    for at, place in enumerate(table.places):
        also = (one.tells for entry in _entries(place) for one in entry.also)
        for tells in dict.fromkeys((place.tells, *also)):
            if tells in seen and tells not in MAY_REPEAT:
                said = f"Places {seen[tells] + 1} and {at + 1} both tell the {tells}; which of them is right?"
                yield said, f"places[{at}].tells"
            seen.setdefault(tells, at)


def _entries(place: Place) -> tuple[Entry, ...]:
    return place.meaning.entries if isinstance(place.meaning, Lookup) else ()


def _place(place: Place, at: int) -> Wrong:
    if place.tells not in THINGS:
        yield f"a mark does not tell `{place.tells}`", "tells"
        return
    if place.written not in WRITTEN:
        yield f"it can't be written as `{place.written}`", "written"
        return
    yield from wrong_source(place.source, place.holds)
    yield from _separators(place, at)
    yield from {"literal": _literal, "list": _listed}.get(place.written, _counted)(place)
    yield from wrong_meaning(place)


def _separators(place: Place, at: int) -> Wrong:
    if at == 0 and any(place.separators):
        yield "nothing stands before the first place, so it has no separator", "separators"
    for separator in place.separators:
        if WILD & set(separator):
            yield f"`{separator}` can't separate: ? * [ ] stand for what can't be read", "separators"
        elif separator.strip() and not (spell(separator) or separator.strip() in (".", ",")):
            yield f"`{separator}` can't separate: it is left out where marks are spelled alike", "separators"


def _literal(place: Place) -> Wrong:
    if not spell(place.literal[:100]):
        yield "it is a literal, but says not which", "literal"
    elif WILD & set(place.literal):
        yield "a literal can't hold ? * [ ], which stand for what can't be read", "literal"
    elif len(place.literal) > MOST_CHARACTERS_A_PLACE:
        yield f"a place has at most {MOST_CHARACTERS_A_PLACE} characters", "literal"
    if place.tells != "nothing" and place.meaning.kind != "text":
        yield "a literal is always the same, so it tells nothing, or its own text", "tells"


def _listed(place: Place) -> Wrong:
    if not place.codes:
        yield "it is one of a list, but the list is empty", "meaning.entries"
    yield from _long_codes(place)


def _long_codes(place: Place) -> Wrong:
    for code in place.codes:
        if len(code) > MOST_CHARACTERS_A_PLACE:
            yield (
                f"code {code[:30]} has more than the {MOST_CHARACTERS_A_PLACE} characters of a place",
                "meaning.entries",
            )


def _counted(place: Place) -> Wrong:
    yield from _long_codes(place)
    if place.written == "size":
        return
    if place.shortest < 1:
        yield "it has at least one character; a place that may be missing is optional", "shortest"
    elif place.longest < place.shortest:
        yield f"its longest, {place.longest}, is shorter than its shortest, {place.shortest}", "longest"
    elif place.longest > MOST_CHARACTERS_A_PLACE:
        yield f"a place has at most {MOST_CHARACTERS_A_PLACE} characters", "longest"
    elif isinstance(place.meaning, Lookup):
        yield from _codes_that_fit(place, CLASSES[place.written])


def _codes_that_fit(place: Place, marks: str) -> Wrong:
    for at, entry in enumerate(_entries(place)):
        spelled = spell(entry.code)
        if not place.shortest <= len(spelled) <= place.longest:
            yield f"code {entry.code} has {len(spelled)} characters, {_how_many(place)}", f"meaning.entries[{at}].code"
        elif not set(spelled) <= set(marks):
            yield f"code {entry.code} is not written in {place.written}", f"meaning.entries[{at}].code"


def _how_many(place: Place) -> str:
    if place.shortest == place.longest:
        return f"the place has {place.shortest}"
    return f"the place has {place.shortest} to {place.longest}"


def _split(table: Table, built: Grammar) -> Iterator[Problem]:
    if built.shortest > AT_MOST_CHARACTERS:
        yield Problem(f"Every mark of it would be longer than {AT_MOST_CHARACTERS} characters.", None, "places")
        return
    try:
        found = two_ways(built)
    except TooTangled:
        yield Problem("Its places can follow one another in too many ways to tell whether a mark can be split.")
        return
    if found:
        first, second = sorted(found.places)
        names = f"{table.places[first].name} and {table.places[second].name}"
        alike = f"Places {first + 1} and {second + 1} ({names}) can take the same characters"
        one, other = found.splits
        said = f"{alike}: {found.mark} can be split as {one} or as {other}."
        if one == other:
            said = f"{alike}: in {found.mark} it can't be told which of them is there."
        yield Problem(said, second, f"places[{second}]")
