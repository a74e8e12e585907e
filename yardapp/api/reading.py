"""The document made readable: chapters by noun, and for each route what goes in, what comes out, what may go wrong."""

from collections.abc import Iterable
from dataclasses import dataclass, field
from http import HTTPStatus
from typing import Any

from yardapp.api.door import Route, bp

ORDER = (
    "propellers",
    "shafts",
    "happenings",
    "custody",
    "photos",
    "tags",
    "timelines",
    "vessels",
    "hulls",
    "drives",
    "bench",
    "survey",
    "measuring",
    "condition",
    "fit",
    "stock",
    "pairs",
    "kept",
    "search",
    "sizes",
    "marks",
    "makers",
    "coating",
    "coats",
    "relaunch",
    "faults",
)
Cell = str | tuple[str, str]
Row = tuple[str, Cell, str]


@dataclass(frozen=True, kw_only=True)
class Told:
    """One route as the page tells of it; rows are (name, what it takes, what it means)."""

    method: str
    address: str
    key: str
    says: str
    asks: list[Row] = field(default_factory=list)
    gives: list[Row] = field(default_factory=list)
    errors: str = ""


@dataclass(frozen=True, kw_only=True)
class Chapter:
    """All routes of one noun."""

    noun: str
    routes: list[Told]


def chapters(routes: Iterable[Route], document: dict[str, Any]) -> list[Chapter]:
    """The routes by noun, in the order of the yard."""
    by_noun: dict[str, list[Told]] = {}
    for route in routes:
        by_noun.setdefault(route.noun, []).append(_told(route, document))
    return [Chapter(noun=noun, routes=by_noun[noun]) for noun in sorted(by_noun, key=ORDER.index)]


def shapes(document: dict[str, Any]) -> list[tuple[str, str, list[Row]]]:
    """Every object that stands within another: its name, what it is, its rows."""
    schemas = document["components"]["schemas"]
    within = sorted({name for schema in schemas.values() for name in _named_in(schema)} | {"Problem", "Conflict"})
    objects = [(name, schemas[name]) for name in within if "properties" in schemas[name]]
    return [(name, schema.get("description", ""), _rows(schema, schemas)) for name, schema in objects]


def _named_in(said: Any) -> set[str]:
    """The names of all objects that a schema refers to."""
    if isinstance(said, list):
        return {name for one in said for name in _named_in(one)}
    if not isinstance(said, dict):
        return set()
    own = {_name(said)} if "$ref" in said else set()
    return own | {name for one in said.values() for name in _named_in(one)}


def _name(schema: dict[str, Any]) -> str:
    return str(schema.get("$ref", "")).rpartition("/")[2]


def _told(route: Route, document: dict[str, Any]) -> Told:
    operation = document["paths"][route.path][route.method.lower()]
    schemas = document["components"]["schemas"]
    content = operation["responses"][str(route.status)]["content"]
    return Told(
        method=route.method,
        address=f"{bp.url_prefix}{route.path}",
        key=f"{route.method.lower()}-{route.name}".replace("_", "-"),
        says=route.says,
        asks=[*_parameters(operation), *_body(operation, schemas)],
        gives=_rows(content["application/json"]["schema"], schemas),
        errors=", ".join(f"{status} {HTTPStatus(status).phrase}" for status in route.every_error),
    )


def _parameters(operation: dict[str, Any]) -> list[Row]:
    return [
        (one["name"], f"{_kind(one['schema'])}{_need(one['required'])}", one.get("description", ""))
        for one in operation["parameters"]
    ]


def _body(operation: dict[str, Any], schemas: dict[str, Any]) -> list[Row]:
    if "requestBody" not in operation:
        return []
    return _rows(operation["requestBody"]["content"]["application/json"]["schema"], schemas, is_asked=True)


def _rows(schema: dict[str, Any], schemas: dict[str, Any], *, is_asked: bool = False) -> list[Row]:
    """The names of an object; of one of several, those of each, once."""
    found = _opened(schema, schemas)
    rows: dict[str, Row] = {}
    for one in found.get("oneOf", [found]):
        opened = _opened(one, schemas)
        for name, said in opened.get("properties", {}).items():
            need = _need(is_asked and name in opened.get("required", []))
            rows.setdefault(name, (name, _linked(said, need), said.get("description", "")))
    return list(rows.values())


def _linked(said: dict[str, Any], need: str) -> Cell:
    """What a name takes, with the way to the object's own rows."""
    within = sorted(_named_in(said))
    return (f"{_kind(said)}{need}", f"#shape-{within[0]}") if within else f"{_kind(said)}{need}"


def _opened(schema: dict[str, Any], schemas: dict[str, Any]) -> dict[str, Any]:
    opened: dict[str, Any] = schemas[_name(schema)] if "$ref" in schema else schema
    return opened


def _need(is_needed: bool) -> str:
    return ", needed" if is_needed else ""


def _kind(schema: dict[str, Any]) -> str:
    """What a name takes, in a few words."""
    if "$ref" in schema:
        return _name(schema)
    if "const" in schema or "enum" in schema:
        return ", ".join(str(one) for one in schema.get("enum", [schema.get("const")]))
    several = schema.get("anyOf") or schema.get("oneOf")
    if several:
        return " or ".join(dict.fromkeys(_kind(one) for one in several))
    if schema.get("type") == "array":
        return f"list of {_kind(schema['items'])}"
    if isinstance(schema.get("additionalProperties"), dict):
        return f"{_kind(schema['additionalProperties'])} by name"
    return _WORDS.get(str(schema.get("type")), "anything")


_WORDS = {
    "string": "text",
    "integer": "whole number",
    "number": "number",
    "boolean": "true or false",
    "null": "null",
    "object": "object",
}
