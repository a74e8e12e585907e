"""What differs between two versions of a table, in words."""

from collections.abc import Iterator
from dataclasses import dataclass, fields
from difflib import SequenceMatcher

from yardapp.stamps.tables.meanings import Entry, Lookup, Meaning
from yardapp.stamps.tables.places import Place
from yardapp.stamps.tables.table import Table

CALLED = {"said_by": "who said it", "struck": "when it is struck"}


@dataclass(frozen=True)
class Change:
    """One thing that differs; `place` counts from 0 in the newer version, None is the table as a whole."""

    said: str
    place: int | None = None


def changes(before: Table, after: Table) -> tuple[Change, ...]:
    """Everything that differs, the table first, then place by place."""
    whole = [Change(said) for said in _fields(before, after, ("places", "version", "schema"))]
    return (*whole, *_places(before.places, after.places))


def _places(before: tuple[Place, ...], after: tuple[Place, ...]) -> Iterator[Change]:
    matched = SequenceMatcher(None, [_key(one) for one in before], [_key(one) for one in after], autojunk=False)
    for what, start, end, at, to in matched.get_opcodes():
        if what in ("delete", "replace"):
            yield from (Change(f"place {one + 1}, {before[one].name}, is gone") for one in range(start, end))
        if what in ("insert", "replace"):
            yield from (Change(f"place {one + 1}, {after[one].name}, is new", one) for one in range(at, to))
        if what == "equal":
            for old, new in zip(range(start, end), range(at, to), strict=True):
                yield from (Change(f"place {new + 1}: {said}", new) for said in _place(before[old], after[new]))


def _key(place: Place) -> tuple[str, str]:
    return place.tells, place.literal


def _place(before: Place, after: Place) -> Iterator[str]:
    yield from _fields(before, after, ("meaning", "specials"))
    yield from _meaning(before.meaning, after.meaning)
    yield from _codes(
        {one.code: one.words for one in before.specials},
        {one.code: one.words for one in after.specials},
        "special code",
    )


def _meaning(before: Meaning, after: Meaning) -> Iterator[str]:
    if type(before) is not type(after):
        yield f"its meaning was {before.kind}, is {after.kind}"
        return
    yield from _fields(before, after, ("entries",))
    if isinstance(before, Lookup) and isinstance(after, Lookup):
        yield from _codes(_entries(before), _entries(after), "code")


def _entries(meaning: Lookup) -> dict[str, str]:
    said: dict[str, str] = {}
    for entry in meaning.entries:
        one = _entry(entry, meaning.unit)
        said[entry.code] = f"{said[entry.code]}; {one}" if entry.code in said else one
    return said


def _entry(entry: Entry, unit: str) -> str:
    value = (
        ""
        if entry.value is None
        else f"{entry.value:g} {unit}"
        if isinstance(entry.value, int | float)
        else entry.value
    )
    also = [f"{one.tells} {one.value} {one.unit}".strip() for one in entry.also]
    sure = [f"{entry.source.certainty:.0%} sure"] if entry.source.certainty is not None else []
    return ", ".join(one for one in (value.strip(), entry.words, *also, entry.holds.words, *sure) if one) or "nothing"


def _codes(before: dict[str, str], after: dict[str, str], what: str) -> Iterator[str]:
    for code in dict.fromkeys([*before, *after]):
        if code not in after:
            yield f"{what} {code} is gone; it was {before[code]}"
        elif code not in before:
            yield f"{what} {code} is new: {after[code]}"
        elif before[code] != after[code]:
            yield f"{what} {code} was {before[code]}, is {after[code]}"


def _fields(before: object, after: object, leaving_out: tuple[str, ...]) -> Iterator[str]:
    for field in fields(before):  # type: ignore[arg-type]
        old, new = getattr(before, field.name), getattr(after, field.name)
        if field.name in leaving_out or old == new:
            continue
        if hasattr(old, "__dataclass_fields__"):
            yield from _fields(old, new, ())
        else:
            yield f"{CALLED.get(field.name, field.name.replace('_', ' '))} was {_shown(old)}, is {_shown(new)}"


def _shown(value: object) -> str:
    if isinstance(value, tuple):
        return " or ".join(f"`{one}`" for one in value) or "nothing"
    return f"{value:g}" if isinstance(value, float) else "nothing" if value in (None, "") else f"{value}"
