"""A system as plain values for a file or a column, and back."""

from collections.abc import Mapping
from dataclasses import fields, is_dataclass
from types import NoneType, UnionType
from typing import Any, Union, get_args, get_origin, get_type_hints

from yardapp.coating.checking import Problem, SystemRefused, must_be_right
from yardapp.coating.system import System

# A whole number of a JSON file may be too large for a float.
MOST = 1e12


def to_json(system: System) -> dict[str, Any]:
    """Say a system in plain values; what is as silent as a new one is left out."""
    written: dict[str, Any] = _written(system)
    return written


def from_json(written: Mapping[str, Any]) -> System:
    """Read a system; raise SystemRefused with every reason, in words, where it can't be right."""
    system: System = _read(System, written, "")
    must_be_right(system)
    return system


def _written(value: Any) -> Any:
    if is_dataclass(value):
        said = {one.name: _written(getattr(value, one.name)) for one in fields(value)}
        return {name: one for name, one in said.items() if one not in (None, "", [], {})}
    if isinstance(value, tuple):
        return [_written(one) for one in value]
    return value


def _read(kind: Any, value: Any, path: str) -> Any:
    if is_dataclass(kind):
        return _read_fields(kind, value, path)
    if get_origin(kind) is tuple:
        _expect(isinstance(value, list | tuple), "A list belongs here.", path)
        return tuple(_read(get_args(kind)[0], one, f"{path}[{number}]") for number, one in enumerate(value))
    if get_origin(kind) in (Union, UnionType):
        inner = next(one for one in get_args(kind) if one is not NoneType)
        return None if value is None else _read(inner, value, path)
    return _plain(kind, value, path)


def _plain(kind: type, value: Any, path: str) -> Any:
    if kind is float:
        _expect(isinstance(value, int | float) and not isinstance(value, bool), "A number belongs here.", path)
        _expect(-MOST < value < MOST, "No sheet gives such a number.", path)
        return float(value)
    _expect(isinstance(value, kind) and (kind is bool or not isinstance(value, bool)), _WANTED[kind], path)
    return value


_WANTED: dict[type, str] = {
    str: "Words belong here.",
    bool: "Yes or no (true or false) belongs here.",
    int: "A whole number belongs here.",
}


def _read_fields(kind: Any, value: Any, path: str) -> Any:
    _expect(isinstance(value, Mapping), "A set of named values belongs here.", path)
    types = get_type_hints(kind)
    unknown = sorted(set(value) - set(types))
    _expect(not unknown, f"Nothing is called {', '.join(map(repr, unknown))} here.", path)
    inner = {name: _read(types[name], one, f"{path}.{name}".lstrip(".")) for name, one in value.items()}
    try:
        return kind(**inner)
    except TypeError:
        raise SystemRefused((Problem(said="Something that must be said is missing here.", path=path),)) from None


def _expect(fine: bool, said: str, path: str) -> None:
    if not fine:
        raise SystemRefused((Problem(said=said, path=path),))
