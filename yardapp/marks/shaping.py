"""A maker's table as the boxes of a form, out and in: texts here, the engine's tables there. No request."""

import re
from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from yardapp.quantities import numerals
from yardapp.stamps.tables import (
    Entry,
    ExchangeRefused,
    Fault,
    Holds,
    Lookup,
    Number,
    Place,
    Run,
    Source,
    Table,
    entries_from_csv,
    entries_to_csv,
    from_plain,
)

Boxes = dict[str, Any]
SPELLED = {"": "none", " ": "space"}  # separators that can't be seen
UNSPELLED = {name: mark for mark, name in SPELLED.items()}
MEANINGS = ("number", "list", "run", "special", "text", "nothing")
_PLACE = re.compile(r"places\[(\d+)\]\.?(.*)")


def table_boxes(table: Table) -> Boxes:
    """The boxes of a whole table."""
    boxes: Boxes = {name: getattr(table, name) for name in ("maker", "title", "struck", "notes", "version")}
    return boxes | _known_boxes(table.source, table.holds) | {"places": [place_boxes(one) for one in table.places]}


def place_boxes(place: Place) -> Boxes:
    """The boxes of one place."""
    names = ("tells", "written", "title", "literal", "optional")
    boxes: Boxes = {name: getattr(place, name) for name in names}
    boxes |= {"shortest": f"{place.shortest}", "longest": f"{place.longest}", "means": place.meaning.kind}
    boxes["separators"] = " ".join(SPELLED.get(one, one) for one in place.separators)
    boxes["specials"] = entries_text(
        Entry(one.code, None, one.words, (), one.source, one.holds) for one in place.specials
    )
    return boxes | _meaning_boxes(place) | _known_boxes(place.source, place.holds)


def _meaning_boxes(place: Place) -> Boxes:
    meaning = place.meaning
    boxes: Boxes = {"unit": getattr(meaning, "unit", ""), "rounded_to": _text(getattr(meaning, "rounded_to", None))}
    if isinstance(meaning, Number):
        boxes |= {"scale": _text(meaning.scale), "offset": _text(meaning.offset)}
    if isinstance(meaning, Run):
        boxes |= {name: getattr(meaning, name) for name in ("first", "last", "without")}
        boxes |= {"value": _text(meaning.value), "step": _text(meaning.step)}
    if isinstance(meaning, Lookup):
        boxes |= {"entries": entries_text(meaning.entries)}
    return boxes


def _known_boxes(source: Source, holds: Holds) -> Boxes:
    """Who said it, when, where, how sure; and for which years and serial numbers."""
    certainty = None if source.certainty is None else source.certainty * 100
    said = {"said_by": source.said_by, "said_on": source.said_on, "document": source.document}
    ranges = {name: _text(getattr(holds, name)) for name in ("year_from", "year_to", "serial_from", "serial_to")}
    return {**said, "certainty": _text(certainty), **ranges}


def _text(number: float | None) -> str:
    return "" if number is None else f"{number:.12g}"


def entries_text(entries: Iterable[Entry]) -> str:
    """Codes as the lines of a list: only the three columns that most have, unless some say more."""
    entries = list(entries)
    if not entries:
        return ""
    if any(one.source != Source() or one.holds != Holds() or one.also for one in entries):
        return entries_to_csv(entries, is_brief=True)
    return "\n".join(",".join(_cells(one)) for one in entries)


def _cells(entry: Entry) -> list[str]:
    value = _text(entry.value) if isinstance(entry.value, int | float) else entry.value or ""
    cells = [_quoted(entry.code), _quoted(value), _quoted(entry.words)]
    while not cells[-1]:
        cells.pop()
    return cells


def _quoted(cell: str) -> str:
    return f'"{cell}"' if any(mark in cell for mark in ",;\t") else cell


def table_of(boxes: Mapping[str, Any]) -> Table:
    """The table that the boxes say.

    Raises
    ------
    ExchangeRefused
        A box can't be read, or the table contradicts itself; each with where.
    """
    faults: list[Fault] = []
    places = [_place_plain(one, at, faults) for at, one in enumerate(boxes["places"])]
    plain = {"schema": 1, **_filled(boxes, ("maker", "title", "struck", "notes")), **_known_plain(boxes)}
    if faults:
        raise ExchangeRefused(tuple(faults))
    return from_plain({**plain, "places": places})


def _filled(boxes: Mapping[str, Any], names: Sequence[str]) -> Boxes:
    return {name: text.strip() for name in names if (text := boxes.get(name) or "").strip()}


def _place_plain(boxes: Mapping[str, Any], at: int, faults: list[Fault]) -> Boxes:
    plain = _filled(boxes, ("tells", "written", "title")) | _known_plain(boxes)
    written = plain.get("written")
    if written == "literal":
        plain |= _filled(boxes, ("literal",))
    elif written != "list":
        plain |= _numbers(boxes, ("shortest", "longest"))
    plain["separators"] = [UNSPELLED.get(one, one) for one in (boxes.get("separators") or "").split()]
    plain["optional"] = bool(boxes.get("optional"))
    plain["meaning"] = _meaning_plain(boxes, at, faults)
    specials = [_entry_plain(one) for one in _lines(boxes, "specials", at, faults)]
    # Pasted without a header, the second column of a special code is its words.
    plain["specials"] = [
        {name: value for name, value in one.items() if name != "value"}
        | {"words": one.get("words") or str(one.get("value", ""))}
        for one in specials
    ]
    return plain


def _meaning_plain(boxes: Mapping[str, Any], at: int, faults: list[Fault]) -> Boxes:
    kind = boxes.get("means") or "nothing"
    plain: Boxes = {"kind": kind}
    if kind in ("number", "list", "run"):
        plain |= {"unit": boxes.get("unit") or ""} | _numbers(boxes, ("rounded_to",))
    if kind == "number":
        plain |= _numbers(boxes, ("scale", "offset"))
    if kind == "run":
        plain |= _filled(boxes, ("first", "last", "without")) | _numbers(boxes, ("value", "step"))
    if kind == "list":
        plain["entries"] = [_entry_plain(one) for one in _lines(boxes, "entries", at, faults)]
    return plain


def _lines(boxes: Mapping[str, Any], name: str, at: int, faults: list[Fault]) -> tuple[Entry, ...]:
    try:
        return entries_from_csv(boxes.get(name) or "")
    except ExchangeRefused as refused:
        faults += [Fault(one.said, f"places[{at}].{name}", one.line) for one in refused.problems]
        return ()


def _entry_plain(entry: Entry) -> Boxes:
    source = {name: value for name, value in vars(entry.source).items() if value not in (None, "")}
    holds = {name: value for name, value in vars(entry.holds).items() if value is not None}
    also = [{name: said for name, said in vars(one).items() if said != ""} for one in entry.also]
    said = {"value": entry.value, "words": entry.words, "also": also, "source": source, "holds": holds}
    return {"code": entry.code} | {name: value for name, value in said.items() if value not in (None, "", [], {})}


def _known_plain(boxes: Mapping[str, Any]) -> Boxes:
    source = _filled(boxes, ("said_by", "said_on", "document")) | _numbers(boxes, ("certainty",))
    if isinstance(source.get("certainty"), float | int):
        source["certainty"] /= 100
    holds = _numbers(boxes, ("year_from", "year_to", "serial_from", "serial_to"))
    return {name: said for name, said in (("source", source), ("holds", holds)) if said}


def _numbers(boxes: Mapping[str, Any], names: Sequence[str]) -> Boxes:
    """Each figure that was typed; what is none stays as typed, and is refused as no number."""
    return {name: _number(text) for name, text in _filled(boxes, names).items()}


def _number(text: str) -> float | int | str:
    sign, bare = (-1, text[1:]) if text.startswith("-") else (1, text)
    read = numerals.whole(numerals.tidy(bare[: numerals.AT_MOST_CHARACTERS]))
    if read is None:
        return text
    number = sign * float(read.number)
    return int(number) if number.is_integer() and abs(number) < 1e12 else number


def faults_by_place(refused: ExchangeRefused) -> dict[int | None, list[str]]:
    """What is wrong, by the place that it concerns; None is the table as a whole."""
    found: dict[int | None, list[str]] = {}
    for one in refused.problems:
        match = _PLACE.match(one.path)
        tail = match[2] if match else one.path
        at = int(match[1]) if match else None
        line = f"line {one.line}: " if one.line else ""
        said = f"{_box(tail)} {one.said}" if one.said.startswith(("must", "`")) else one.said
        found.setdefault(at, []).append(f"{line}{said}.")
    return found


def _box(tail: str) -> str:
    """The box as its label calls it."""
    return tail.rpartition(".")[2].replace("_", " ")
