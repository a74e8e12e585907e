"""What can be wrong with a meaning: units, values, lists with one code twice, runs that reach no end."""

import math
from collections.abc import Iterator

from yardapp.stamps.tables.meanings import Entry, FreeText, Lookup, Number, Run, Special
from yardapp.stamps.tables.places import Place
from yardapp.stamps.tables.seen import WILD, spell
from yardapp.stamps.tables.sources import Holds, Source
from yardapp.stamps.tables.things import IN_SI, METRES, THINGS, Thing, in_si

MOST_ENTRIES = 1000

Wrong = Iterator[tuple[str, str]]  # what is said, and the path below the place


def wrong_meaning(place: Place) -> Wrong:
    """Everything wrong with what the place means."""
    thing, meaning = THINGS[place.tells], place.meaning
    if isinstance(meaning, Number):
        yield from _number(place, meaning, thing)
    elif isinstance(meaning, Run):
        yield from _run(place, meaning, thing)
    elif isinstance(meaning, Lookup):
        yield from _lookup(meaning, thing)
    elif isinstance(meaning, FreeText) and (thing.is_number or thing.words):
        yield f"{place.name} can't be free text: it is a figure that is compared with what was measured", "meaning"
    yield from _specials(place)


def wrong_source(source: Source, holds: Holds) -> Wrong:
    """A certainty outside 0 to 1, and ranges that end before they begin."""
    if source.certainty is not None and not 0 <= source.certainty <= 1:
        yield f"a certainty lies from 0 to 1, not {source.certainty:g}", "source.certainty"
    for what, start, end in (
        ("years", holds.year_from, holds.year_to),
        ("serial numbers", holds.serial_from, holds.serial_to),
    ):
        if start is not None and end is not None and start > end:
            yield f"the {what} end before they begin: {start} to {end}", "holds"


def _unit(unit: str, thing: Thing) -> Wrong:
    if thing.is_number and unit not in thing.units:
        yield f"{_named(thing)} is told in {' or '.join(thing.units)}, not in `{unit}`", "meaning.unit"
    if not thing.is_number and unit:
        yield f"{_named(thing)} has no unit", "meaning.unit"


def _named(thing: Thing) -> str:
    odd = {"nothing": "what tells nothing", "blades": "a number of blades", "area_ratio": "an area ratio"}
    return odd.get(thing.tells, f"a {thing.tells}")


def _number(place: Place, meaning: Number, thing: Thing) -> Wrong:
    yield from _unit(meaning.unit, thing)
    if not thing.is_number:
        yield f"{_named(thing)} is no number; take a list or free text", "meaning"
    if place.written not in ("digits", "size"):
        yield "a number is written in digits", "written"
    yield from _rounding(meaning.rounded_to)
    if not math.isfinite(meaning.scale) or meaning.scale == 0 or not math.isfinite(meaning.offset):
        yield "the scale of a number can't be zero", "meaning.scale"
    elif place.written == "digits" and meaning.unit in thing.units:
        yield from _never(place, meaning, thing)


def _never(place: Place, meaning: Number, thing: Thing) -> Wrong:
    """A unit, scale or offset with which no number that can be written makes sense."""
    ends = (meaning.offset, meaning.offset + meaning.scale * (10.0 ** min(place.longest, 300) - 1))
    least, most = (bound / IN_SI[meaning.unit] for bound in (thing.least, thing.most))
    if max(ends) < least or min(ends) > most:
        said = f"no number of {place.longest} figures says {_named(thing)}: it would be {ends[0]:g} to {ends[1]:g}"
        yield f"{said} {meaning.unit}", "meaning.unit"


def _rounding(rounded_to: float | None) -> Wrong:
    if rounded_to is not None and not (math.isfinite(rounded_to) and rounded_to >= 0):
        yield "what it is rounded to can't be below zero", "meaning.rounded_to"


def _run(place: Place, meaning: Run, thing: Thing) -> Wrong:
    yield from _unit(meaning.unit, thing)
    yield from _rounding(meaning.rounded_to)
    if not thing.is_number:
        yield f"{_named(thing)} is no number, so letters can't count it; take a list", "meaning"
    if place.written != "letters" or (place.shortest, place.longest) != (1, 1):
        yield "a run of letters is written as one letter", "written"
    if not meaning.is_finite or meaning.step == 0:
        yield "a run needs a step: with none, every letter would mean the same", "meaning.step"
    elif not meaning.letters:
        yield _no_end(meaning), "meaning.last"
    elif meaning.unit in thing.units:
        yield from _run_values(meaning, thing)


def _no_end(run: Run) -> str:
    for letter in (run.first, run.last):
        if len(letter) != 1 or not letter.isascii() or not letter.isalpha():
            return f"`{letter}` is no letter, so the run from {run.first} to {run.last} reaches no end"
        if letter.upper() in run.without.upper():
            return f"the run reaches no end: {letter} is among the letters left out ({run.without})"
    return f"the run reaches no end: going on from {run.first}, {run.last} never comes"


def _run_values(run: Run, thing: Thing) -> Wrong:
    for letter, value in run.values.items():
        if said := _out_of_bounds(value, run.unit, thing):
            yield f"at letter {letter} the run {said}", "meaning.step"
            return


def _out_of_bounds(value: float, unit: str, thing: Thing) -> str:
    if not math.isfinite(value):
        return f"{value} is no figure"
    if thing.is_whole and value != int(value):
        return f"says {value:g}, and {_named(thing)} is a whole number"
    if not thing.least <= in_si(value, unit) <= thing.most:
        least, most = (bound / IN_SI[unit] for bound in (thing.least, thing.most))
        named = f" {unit}" if unit in METRES else ""
        return f"says {value:g}{named}, and {_named(thing)} lies from {least:g} to {most:g}{named}"
    return ""


def _lookup(meaning: Lookup, thing: Thing) -> Wrong:
    yield from _unit(meaning.unit, thing)
    yield from _rounding(meaning.rounded_to)
    if len(meaning.entries) > MOST_ENTRIES:
        yield f"a list has at most {MOST_ENTRIES} codes, this one has {len(meaning.entries)}", "meaning.entries"
        return
    for at, entry in enumerate(meaning.entries):
        path = f"meaning.entries[{at}]"
        for said, below in (*_entry(entry, meaning.unit, thing), *_code(entry.code)):
            yield said, f"{path}.{below}"
        for said, below in wrong_source(entry.source, entry.holds):
            yield f"code {entry.code}: {said}", f"{path}.{below}"
    yield from _twice(meaning.entries)


def _entry(entry: Entry, unit: str, thing: Thing) -> Wrong:
    if entry.value is not None and (said := _value(entry.value, unit, thing)):
        yield f"code {entry.code} {said}", "value"
    if entry.value is None and not entry.words and thing.figure and not entry.also:
        yield f"code {entry.code} has neither a value nor words", "value"
    told = [thing.tells]
    for at, also in enumerate(entry.also):
        if also.tells not in THINGS or also.tells == "nothing":
            yield f"code {entry.code} also tells `{also.tells}`, which is nothing a mark tells", f"also[{at}].tells"
        elif also.tells in told:
            yield f"code {entry.code} tells the {also.tells} twice", f"also[{at}].tells"
        elif said := _unit_or_value(also.value, also.unit, THINGS[also.tells]):
            yield f"code {entry.code} {said}", f"also[{at}].value"
        told.append(also.tells)


def _unit_or_value(value: float | str, unit: str, thing: Thing) -> str:
    return next((said for said, _ in _unit(unit, thing)), "") or _value(value, unit, thing)


def _value(value: float | str, unit: str, thing: Thing) -> str:
    if thing.is_number:
        if isinstance(value, str):
            return f"says `{value}`, and {_named(thing)} is a number"
        return _out_of_bounds(value, unit, thing) if unit in thing.units else ""
    if not isinstance(value, str):
        return f"says {value:g}, and {_named(thing)} is no number"
    if thing.words and value not in thing.words:
        return f"says `{value}`, and {_named(thing)} is {' or '.join(thing.words)}"
    return ""


def _code(code: str) -> Wrong:
    if not spell(code[:100]):
        yield "a code can't be empty", "code"
    elif WILD & set(code):
        yield f"code {code} holds one of ? * [ ], which stand for what can't be read", "code"


def _twice(entries: tuple[Entry, ...]) -> Wrong:
    """The same code again, unless the years or serial numbers of the two keep them apart."""
    seen: dict[str, list[Entry]] = {}
    for at, entry in enumerate(entries):
        for other in seen.setdefault(spell(entry.code[:100]), []):
            if entry.holds.overlaps(other.holds):
                said = f"code {entry.code} stands twice in the list, for the same years; which is it?"
                yield said, f"meaning.entries[{at}].code"
                break
        seen[spell(entry.code[:100])].append(entry)


def _specials(place: Place) -> Wrong:
    yield from _special_words(place.specials)
    seen: set[str] = set()
    listed = {spell(one.code) for one in place.meaning.entries} if isinstance(place.meaning, Lookup) else set()
    for at, special in enumerate(place.specials):
        spelled = spell(special.code[:100])
        if spelled in seen:
            yield f"special code {special.code} stands twice", f"specials[{at}].code"
        if spelled in listed:
            yield f"code {special.code} is in the list and among the special words", f"specials[{at}].code"
        seen.add(spelled)


def _special_words(specials: tuple[Special, ...]) -> Wrong:
    for at, special in enumerate(specials):
        for said, below in _code(special.code):
            yield said, f"specials[{at}].{below}"
        if not special.words.strip():
            yield f"special code {special.code} has no words", f"specials[{at}].words"
        for said, below in wrong_source(special.source, special.holds):
            yield f"special code {special.code}: {said}", f"specials[{at}].{below}"
