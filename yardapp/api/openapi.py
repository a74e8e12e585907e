"""The document of the API (OpenAPI 3.1), made from the recorded routes and their bodies."""

import re
from functools import lru_cache
from http import HTTPStatus
from typing import Any

from pydantic import BaseModel
from pydantic.json_schema import models_json_schema

from yardapp import __version__
from yardapp.api.door import ROUTES, Route, bp
from yardapp.api.problems import MEDIA_TYPE, Conflict, Problem
from yardapp.api.retry import KEY, LONGEST_KEY

ABOUT = (
    "The register of a yard's propellers and shafts: a second door to what its pages do. "
    'Figures come in as text under a plain name ("diameter": "22 in") or in SI under the full one '
    '("diameter_m": 0.5588). '
    "A size without a unit is read as inches up to 60 and for fractions, else as mm; the answer says what was assumed. "
    "Every ± that comes in or goes out is k = 2. Roles reach as far as they do on the pages."
)
OF_PATH: dict[str, dict[str, Any]] = {
    "tag": {"type": "string", "minLength": 1},
    "right": {"type": "string", "minLength": 1},
    "left": {"type": "string", "minLength": 1},
    "vessel_id": {"type": "integer", "minimum": 1, "maximum": 2**31 - 1},
    "drive_id": {"type": "integer", "minimum": 1, "maximum": 2**31 - 1},
    "sheet_id": {"type": "integer", "minimum": 1, "maximum": 2**31 - 1},
    "other_id": {"type": "integer", "minimum": 1, "maximum": 2**31 - 1},
    "fault_id": {"type": "integer", "minimum": 1, "maximum": 2**31 - 1},
    "table_id": {"type": "integer", "minimum": 1, "maximum": 2**31 - 1},
    "job_id": {"type": "integer", "minimum": 1, "maximum": 2**31 - 1},
    "piece_id": {"type": "integer", "minimum": 1, "maximum": 2**31 - 1},
    "rating_id": {"type": "integer", "minimum": 1, "maximum": 2**31 - 1},
    "kept_id": {"type": "integer", "minimum": 1, "maximum": 2**31 - 1},
    "launch_id": {"type": "integer", "minimum": 1, "maximum": 2**31 - 1},
    "set_id": {"type": "integer", "minimum": 1, "maximum": 2**31 - 1},
    "person_id": {"type": "integer", "minimum": 1, "maximum": 2**31 - 1},
    "photo_id": {"type": "integer", "minimum": 1, "maximum": 2**31 - 1},
    "fault_key": {"type": "string", "minLength": 1},
}
RETRY = {
    "name": KEY,
    "in": "header",
    "required": False,
    "description": "A retry with the same key gets the first answer again and saves nothing.",
    "schema": {"type": "string", "minLength": 1, "maxLength": LONGEST_KEY, "pattern": r"^[\x21-\x7e]+$"},
}


@lru_cache(maxsize=1)
def document() -> dict[str, Any]:
    """The whole document."""
    names, schemas = _schemas()
    paths: dict[str, dict[str, Any]] = {}
    for route in ROUTES:
        paths.setdefault(route.path, {})[route.method.lower()] = _operation(route, names)
    paths["/openapi.json"] = {"get": _own()}
    return {
        "openapi": "3.1.0",
        "info": {"title": "yardapp", "version": __version__, "description": ABOUT},
        "servers": [{"url": bp.url_prefix}],
        "security": [{"token": []}],
        "paths": paths,
        "components": {
            "schemas": schemas,
            "securitySchemes": {
                "token": {"type": "http", "scheme": "bearer", "description": "A token from your own page."}
            },
        },
    }


def _schemas() -> tuple[dict[Any, str], dict[str, Any]]:
    """Every body and reply: where each is found, and what it is."""
    asked: dict[tuple[type[BaseModel], Any], None] = {}
    asked |= {(kind, "serialization"): None for kind in (Problem, Conflict)}
    for route in ROUTES:
        asked[route.reply, "serialization"] = None
        asked |= {(kind, "validation"): None for kind in (route.body, route.query) if kind is not None}
    found, schemas = models_json_schema(list(asked), ref_template="#/components/schemas/{model}")
    return {key: schema["$ref"] for key, schema in found.items()}, schemas["$defs"]


def _operation(route: Route, names: dict[Any, str]) -> dict[str, Any]:
    said: dict[str, Any] = {
        "operationId": route.name,
        "tags": [route.noun],
        "summary": route.says,
        "parameters": [*_of_path(route), *_of_query(route)],
        "responses": _responses(route, names),
    }
    if route.body is not None:
        content = {"application/json": {"schema": {"$ref": names[route.body, "validation"]}}}
        said["requestBody"] = {"required": True, "content": content}
    if route.status == 201:
        said["parameters"].append(RETRY)
    return said


def _of_path(route: Route) -> list[dict[str, Any]]:
    found = re.findall(r"{(\w+)}", route.path)
    return [{"name": name, "in": "path", "required": True, "schema": OF_PATH[name]} for name in found]


def _of_query(route: Route) -> list[dict[str, Any]]:
    if route.query is None:
        return []
    schema = route.query.model_json_schema()
    needed = schema.get("required", [])
    return [
        {
            "name": name,
            "in": "query",
            "required": name in needed,
            "description": said.pop("description", ""),
            "schema": _without_null(said),
        }
        for name, said in schema["properties"].items()
    ]


def _without_null(schema: dict[str, Any]) -> dict[str, Any]:
    """An address has no null: what may be left out is left out."""
    either = [one for one in schema.get("anyOf", []) if one.get("type") != "null"]
    return either[0] if either else schema


def _responses(route: Route, names: dict[Any, str]) -> dict[str, Any]:
    good: dict[str, Any] = {
        "description": HTTPStatus(route.status).phrase,
        "content": {"application/json": {"schema": {"$ref": names[route.reply, "serialization"]}}},
    }
    if route.status == 201:
        good["headers"] = {"Location": {"description": "Its address.", "required": True, "schema": {"type": "string"}}}
    return {str(route.status): good} | {str(status): _no(status, names) for status in route.every_error}


def _no(status: int, names: dict[Any, str]) -> dict[str, Any]:
    kind = Conflict if status == 409 else Problem
    said: dict[str, Any] = {
        "description": HTTPStatus(status).phrase,
        "content": {MEDIA_TYPE: {"schema": {"$ref": names[kind, "serialization"]}}},
    }
    if status == 401:
        said["headers"] = {"WWW-Authenticate": {"required": True, "schema": {"type": "string"}}}
    return said


def _own() -> dict[str, Any]:
    """This document's own address; it needs no token."""
    content = {"application/json": {"schema": {"type": "object"}}}
    return {
        "operationId": "document",
        "tags": ["document"],
        "summary": "This document; it needs no token.",
        "security": [],
        "responses": {"200": {"description": "OK", "content": content}},
    }
