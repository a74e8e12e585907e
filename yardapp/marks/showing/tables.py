"""Makers' tables put into the words of a page. No database, no request."""

from collections.abc import Sequence
from dataclasses import dataclass

from yardapp.filters import day
from yardapp.marks.services import TablePage, Tried
from yardapp.marks.showing.readings import reading
from yardapp.quantities import System
from yardapp.stamps.tables import Entry, Holds, Lookup, Number, Place, Readings, Run, Source, Table

WRITTEN = {
    "digits": "figures",
    "letters": "letters",
    "size": "a size",
    "any": "anything",
    "list": "one of a list",
}
MOST_CODES = 60


@dataclass(frozen=True)
class PlaceShown:
    """One place of a mark, in words."""

    name: str
    said: str
    codes: Sequence[tuple[str, str, str]]
    known: str
    has_list: bool
    more: str


def place(one: Place) -> PlaceShown:
    """How it is written, what it means, where that is known from."""
    codes = [
        *_codes(one),
        *((special.code, special.words, _known(special.source, special.holds)) for special in one.specials),
    ]
    left = len(codes) - MOST_CODES
    return PlaceShown(
        name=_upper(one.name),
        said=f"{_upper(_written(one))}. {_meaning(one)}".strip(),
        codes=codes[:MOST_CODES],
        known=_known(one.source, one.holds),
        has_list=isinstance(one.meaning, Lookup),
        more=f"and {left} more, in the CSV" if left > 0 else "",
    )


def _written(one: Place) -> str:
    if one.written == "literal":
        said = f"always `{one.literal}`"
    else:
        said = WRITTEN[one.written]
        if one.written in ("digits", "letters", "any"):
            said = f"{_length(one)} {said.removesuffix('s') if one.longest == 1 else said}"
    if one.separators:
        before = " or ".join({"": "nothing", " ": "a space"}.get(mark, f"`{mark}`") for mark in one.separators)
        said += f", after {before}"
    return f"{said}; may be missing" if one.optional else said


def _length(one: Place) -> str:
    return f"{one.shortest}" if one.shortest == one.longest else f"{one.shortest} to {one.longest}"


def _meaning(one: Place) -> str:
    meaning = one.meaning
    if isinstance(meaning, Number):
        times = f" times {meaning.scale:g}" if meaning.scale != 1 else ""
        plus = f" plus {meaning.offset:g}" if meaning.offset else ""
        return f"The number itself{times}{plus}, {meaning.unit}."
    if isinstance(meaning, Run):
        left_out = f", without {' and '.join(meaning.without)}" if meaning.without else ""
        first = f"{meaning.first} is {meaning.value:g} {meaning.unit}"
        return f"{first}, {meaning.step:g} more a letter, to {meaning.last}{left_out}."
    if isinstance(meaning, Lookup):
        count = len(meaning.entries)
        return f"A list of {count} {'code' if count == 1 else 'codes'}{', ' + meaning.unit if meaning.unit else ''}."
    return {"text": "Kept as it stands.", "special": "Only special words."}.get(meaning.kind, "")


def _codes(one: Place) -> list[tuple[str, str, str]]:
    if not isinstance(one.meaning, Lookup):
        return []
    unit = one.meaning.unit
    return [(entry.code, _entry(entry, unit), _known(entry.source, entry.holds)) for entry in one.meaning.entries]


def _entry(entry: Entry, unit: str) -> str:
    value = f"{entry.value:g} {unit}".strip() if isinstance(entry.value, int | float) else entry.value or ""
    also = [f"{one.tells} {one.value} {one.unit}".strip() for one in entry.also]
    return ", ".join(filter(None, (value, entry.words, *also)))


def _known(source: Source, holds: Holds) -> str:
    sure = "" if source.certainty is None else f"{source.certainty:.0%} sure"
    return "; ".join(filter(None, (source.said_by, source.said_on, source.document, sure, holds.words)))


def known(table: Table) -> str:
    """Where a table is known from, how sure, and what it holds for."""
    return _known(table.source, table.holds)


def places_in_words(table: Table) -> str:
    """The places in a row, as a list of tables shows them."""
    return " · ".join(one.name for one in table.places)


def rows(pages: Sequence[TablePage]) -> list[dict[str, str | int]]:
    """The list of tables."""
    return [
        {
            "id": one.id,
            "tag": one.name,
            "size": places_in_words(one.newest.table),
            "where": f"version {one.version}, {day(one.newest.at)}, {one.newest.said_by}",
            "flag": "" if one.is_in_use else "not in use",
        }
        for one in pages
    ]


def tried(samples: Sequence[Tried], system: System) -> list[dict[str, str | bool]]:
    """The bench: each sample before and after."""
    return [
        {
            "seen": one.seen,
            "before": _brief(one.before, system),
            "after": _brief(one.after, system),
            "is_changed": one.is_changed,
        }
        for one in samples
    ]


def _brief(found: Readings | None, system: System) -> str:
    if found is None:
        return ""
    best = found.best
    if best is None:
        return _upper(found.said)
    shown = reading(best, system)
    said = ", ".join(filter(None, (shown.figures, *shown.words))) or "tells nothing"
    more = f" (and {found.count - 1} more)" if found.count > 1 else ""
    return f"{said}{more}"


def _upper(said: str) -> str:
    return f"{said[:1].upper()}{said[1:]}"
