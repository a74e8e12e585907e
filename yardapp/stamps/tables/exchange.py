"""One table as one JSON file, out and in; what can't be taken is refused by line, and nothing of it is taken."""

import json
from dataclasses import MISSING, Field, fields, is_dataclass
from typing import Any, NoReturn

from yardapp.stamps.tables.check import check
from yardapp.stamps.tables.json_lines import lines_of
from yardapp.stamps.tables.meanings import (
    Also,
    Entry,
    FreeText,
    Lookup,
    Meaning,
    Nothing,
    Number,
    Run,
    Special,
    Words,
)
from yardapp.stamps.tables.places import Place
from yardapp.stamps.tables.refusals import ExchangeRefused, Fault
from yardapp.stamps.tables.schema import SCHEMA, SCHEMA_VERSION, faults
from yardapp.stamps.tables.sources import Holds, Source
from yardapp.stamps.tables.table import Table

MOST_BYTES = 1 << 20
MOST_FAULTS = 50
KINDS: dict[str, Any] = {one.kind: one for one in (Number, Lookup, Run, Words, FreeText, Nothing)}
ALWAYS_SAID = ("unit", "first", "value", "step", "last")  # in a file, even where it is as usual

Plain = dict[str, Any]


def to_json(table: Table) -> str:
    """The table as a JSON file; what is as usual is left out."""
    return json.dumps(as_plain(table), indent=2, ensure_ascii=False) + "\n"


def as_plain(table: Table) -> Plain:
    """The table as dicts and lists, as the schema has them."""
    return {"schema": SCHEMA_VERSION} | _plain(table)


def from_json(text: str | bytes) -> Table:
    """The table that a file holds.

    Raises
    ------
    ExchangeRefused
        It is too large, no JSON, of a newer schema, not as the schema says, or a table that contradicts itself.
    """
    read = _decoded(text)
    plain = _parsed(read)
    lines = lines_of(read)
    if lines.twice:
        raise ExchangeRefused(tuple(Fault("stands twice", path, line) for path, line in lines.twice[:MOST_FAULTS]))
    try:
        return from_plain(plain)
    except ExchangeRefused as refused:
        found = (Fault(one.said, one.path, lines.line(one.path)) for one in refused.problems)
        raise ExchangeRefused(tuple(found)) from None


def from_plain(plain: object) -> Table:
    """The table that dicts and lists hold.

    Raises
    ------
    ExchangeRefused
        They are not as the schema says, of a newer schema, or a table that contradicts itself.
    """
    found = _newer(plain) or [Fault(said, path) for said, path in faults(plain, SCHEMA)]
    if not found and isinstance(plain, dict):
        table = _table(plain)
        found = [Fault(problem.said, problem.path) for problem in check(table)]
        if not found:
            return table
    raise ExchangeRefused(tuple(found[:MOST_FAULTS]))


def _decoded(text: str | bytes) -> str:
    size = len(text) if isinstance(text, bytes) else len(text.encode("utf-8", "surrogatepass"))
    if size > MOST_BYTES:
        raise ExchangeRefused((Fault(f"the file has {size} bytes; a table has at most {MOST_BYTES}"),))
    try:
        return text.decode("utf-8-sig") if isinstance(text, bytes) else text.removeprefix("\ufeff")
    except UnicodeDecodeError as broken:
        line = text[: broken.start].count(b"\n") + 1 if isinstance(text, bytes) else 0
        raise ExchangeRefused((Fault("it is no UTF-8 text", "", line),)) from None


def _parsed(text: str) -> object:
    try:
        return json.loads(text, parse_constant=_no_number)
    except json.JSONDecodeError as broken:
        raise ExchangeRefused((Fault(f"it is no JSON: {broken.msg}", "", broken.lineno),)) from None
    except RecursionError:
        raise ExchangeRefused((Fault("it is nested too deep to be a table"),)) from None
    except ValueError as broken:
        raise ExchangeRefused((Fault(f"it is no JSON: {str(broken)[:80]}"),)) from None


def _no_number(name: str) -> NoReturn:
    raise ExchangeRefused((Fault(f"{name} is no number"),))


def _newer(plain: object) -> list[Fault]:
    schema = plain.get("schema") if isinstance(plain, dict) else None
    if isinstance(schema, int) and schema > SCHEMA_VERSION:
        said = f"the file is of schema {str(schema)[:20]}, newer than the {SCHEMA_VERSION} that this yardapp knows"
        return [Fault(said, "schema")]
    return []


def _plain(one: Any) -> Plain:
    """A dataclass's fields by name, without what is as usual."""
    found: Plain = {"kind": one.kind} if hasattr(one, "kind") else {}
    for field in fields(one):
        value = getattr(one, field.name)
        is_usual = value is None or value == _usual(field) or field.name == "schema"
        if not is_usual or (field.name in ALWAYS_SAID and value):
            found[field.name] = _below(value)
    return found


def _usual(field: Field[Any]) -> Any:
    return field.default if field.default is not MISSING else MISSING


def _below(value: Any) -> Any:
    if isinstance(value, tuple):
        return [_below(one) for one in value]
    return _plain(value) if is_dataclass(value) else value


def _table(plain: Plain) -> Table:
    said: Plain = {"title": ""} | _sourced(plain)
    said["places"] = tuple(_place(place) for place in plain["places"])
    return Table(**said)


def _place(plain: Plain) -> Place:
    said = _sourced(plain) | {"meaning": _meaning(plain["meaning"])}
    said["separators"] = tuple(plain.get("separators", ()))
    said["specials"] = tuple(Special(**_sourced(special)) for special in plain.get("specials", ()))
    return Place(**said)


def _meaning(plain: Plain) -> Meaning:
    said = {name: value for name, value in plain.items() if name != "kind"}
    if plain["kind"] == "list":
        said["entries"] = tuple(_entry(entry) for entry in plain["entries"])
    meaning: Meaning = KINDS[plain["kind"]](**said)
    return meaning


def _entry(plain: Plain) -> Entry:
    return Entry(**_sourced(plain) | {"also": tuple(Also(**also) for also in plain.get("also", ()))})


def _sourced(plain: Plain) -> Plain:
    """The same with source and holds as what they are."""
    said = dict(plain)
    for name, kind in (("source", Source), ("holds", Holds)):
        if name in said:
            said[name] = kind(**said[name])
    return said
