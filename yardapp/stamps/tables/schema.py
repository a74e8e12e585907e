"""The published JSON schema of one maker table, and a strict reader of schemas that says where each fault lies."""

from collections.abc import Iterator
from typing import Any

from yardapp.stamps.tables.places import WRITTEN
from yardapp.stamps.tables.table import STRUCK
from yardapp.stamps.tables.things import IN_SI, THINGS

SCHEMA_VERSION = 1
LARGEST = 1e12  # beyond it no figure of a table lies

Schema = dict[str, Any]

_TEXT: Schema = {"type": "string", "maxLength": 400}
_CODE: Schema = {"type": "string", "minLength": 1, "maxLength": 24}
_CERTAINTY: Schema = {"type": "number", "minimum": 0, "maximum": 1}
_UNIT: Schema = {"enum": ["", *IN_SI]}
_ROUNDED: Schema = {"type": "number", "minimum": 0}


def _object(required: tuple[str, ...] = (), /, **properties: Schema) -> Schema:
    return {
        "type": "object",
        "properties": properties,
        "required": list(required),
        "additionalProperties": False,
    }


def _list(items: Schema, most: int) -> Schema:
    return {"type": "array", "items": items, "maxItems": most}


_SOURCE = _object(said_by=_TEXT, said_on=_TEXT, document=_TEXT, certainty=_CERTAINTY)
_YEAR, _SERIAL = {"type": "integer", "minimum": 1800, "maximum": 2200}, {"type": "integer", "minimum": 0}
_HOLDS = _object(year_from=_YEAR, year_to=_YEAR, serial_from=_SERIAL, serial_to=_SERIAL)
_VALUE: Schema = {"type": ["number", "string"], "maxLength": 400}
_ALSO = _object(("tells", "value"), tells={"enum": list(THINGS)}, value=_VALUE, unit=_UNIT)
_ENTRY = _object(("code",), code=_CODE, value=_VALUE, words=_TEXT, also=_list(_ALSO, 10), source=_SOURCE, holds=_HOLDS)
_SPECIAL = _object(("code", "words"), code=_CODE, words=_TEXT, source=_SOURCE, holds=_HOLDS)
_LETTER: Schema = {"type": "string", "minLength": 1, "maxLength": 1}

MEANINGS: dict[str, Schema] = {
    "number": _object(
        ("kind", "unit"),
        kind={"const": "number"},
        unit=_UNIT,
        scale={"type": "number"},
        offset={"type": "number"},
        rounded_to=_ROUNDED,
    ),
    "list": _object(
        ("kind", "entries"), kind={"const": "list"}, entries=_list(_ENTRY, 1000), unit=_UNIT, rounded_to=_ROUNDED
    ),
    "run": _object(
        ("kind", "first", "value", "step", "last", "unit"),
        kind={"const": "run"},
        first=_LETTER,
        value={"type": "number"},
        step={"type": "number"},
        last=_LETTER,
        without={"type": "string", "maxLength": 26},
        unit=_UNIT,
        rounded_to=_ROUNDED,
    ),
    "special": _object(("kind",), kind={"const": "special"}),
    "text": _object(("kind",), kind={"const": "text"}),
    "nothing": _object(("kind",), kind={"const": "nothing"}),
}
_PLACE = _object(
    ("tells", "written", "meaning"),
    tells={"enum": list(THINGS)},
    written={"enum": list(WRITTEN)},
    meaning={"oneOf": list(MEANINGS.values())},
    literal={"type": "string", "maxLength": 24},
    shortest={"type": "integer", "minimum": 1, "maximum": 24},
    longest={"type": "integer", "minimum": 1, "maximum": 24},
    separators=_list({"type": "string", "maxLength": 8}, 10),
    optional={"type": "boolean"},
    specials=_list(_SPECIAL, 200),
    title=_TEXT,
    source=_SOURCE,
    holds=_HOLDS,
)
SCHEMA: Schema = {
    "$schema": "https://json-schema.org/draft/2020-12/schema",
    "title": "Maker table",
    "description": "How one maker builds the marks on its hubs.",
    **_object(
        ("schema", "maker", "places"),
        schema={"const": SCHEMA_VERSION},
        maker={"type": "string", "minLength": 1, "maxLength": 120},
        title={"type": "string", "maxLength": 120},
        version={"type": "integer", "minimum": 1},
        struck={"enum": list(STRUCK)},
        notes={"type": "string", "maxLength": 4000},
        source=_SOURCE,
        holds=_HOLDS,
        places={**_list(_PLACE, 40), "minItems": 1},
    ),
}

NAMES = {"object": dict, "array": list, "string": str, "boolean": bool}
SAID = {
    "object": "an object", "array": "a list", "string": "a text", "boolean": "true or false",
    "number": "a number", "integer": "a whole number",
}  # fmt: skip

Faults = Iterator[tuple[str, str]]  # what is said, and the path


def faults(value: object, schema: Schema, path: str = "") -> Faults:
    """Everything by which the value breaks the schema, each with its path."""
    if "oneOf" in schema:
        yield from _one_of(value, schema["oneOf"], path)
    elif "const" in schema:
        if value != schema["const"] or isinstance(value, bool):
            yield f"must be {schema['const']!r}".replace("'", "`"), path
    elif "enum" in schema:
        if not isinstance(value, str) or value not in schema["enum"]:
            yield f"must be one of {', '.join(one or 'nothing' for one in schema['enum'])}", path
    else:
        yield from _typed(value, schema, path)


def _one_of(value: object, choices: list[Schema], path: str) -> Faults:
    """The meanings: told apart by their kind."""
    kinds = {choice["properties"]["kind"]["const"]: choice for choice in choices}
    kind = value.get("kind") if isinstance(value, dict) else None
    if not isinstance(kind, str) or kind not in kinds:
        yield f"must have a kind: one of {', '.join(kinds)}", path
        return
    yield from faults(value, kinds[kind], path)


def _typed(value: object, schema: Schema, path: str) -> Faults:
    names = schema["type"] if isinstance(schema["type"], list) else [schema["type"]]
    if not any(_is(value, name) for name in names):
        yield f"must be {' or '.join(SAID[name] for name in names)}", path
    elif isinstance(value, dict):
        yield from _members(value, schema, path)
    elif isinstance(value, list):
        yield from _items(value, schema, path)
    elif isinstance(value, str):
        yield from _bounds(len(value), schema.get("minLength"), schema.get("maxLength"), " characters", path)
    elif isinstance(value, int | float) and not isinstance(value, bool):
        yield from _bounds(value, schema.get("minimum"), schema.get("maximum"), "", path)


def _is(value: object, name: str) -> bool:
    if name in ("number", "integer"):
        kinds = (int, float) if name == "number" else (int,)
        return isinstance(value, kinds) and not isinstance(value, bool) and abs(value) <= LARGEST
    return isinstance(value, NAMES[name])


def _members(value: dict[str, Any], schema: Schema, path: str) -> Faults:
    for name in schema["required"]:
        if name not in value:
            yield f"`{name}` is missing", path
    for name, one in value.items():
        below = f"{path}.{name}" if path else name
        if name not in schema["properties"]:
            yield f"`{name[:40]}` is not known here", below[:200]
        else:
            yield from faults(one, schema["properties"][name], below)


def _items(value: list[Any], schema: Schema, path: str) -> Faults:
    yield from _bounds(len(value), schema.get("minItems"), schema.get("maxItems"), " of them", path)
    if len(value) <= schema.get("maxItems", len(value)):
        for at, one in enumerate(value):
            yield from faults(one, schema["items"], f"{path}[{at}]")


def _bounds(figure: float, least: float | None, most: float | None, what: str, path: str) -> Faults:
    if least is not None and figure < least:
        yield f"must be at least {least:g}{what}", path
    if most is not None and figure > most:
        yield f"must be at most {most:g}{what}", path
