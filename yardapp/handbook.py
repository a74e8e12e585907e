"""How it is worked out: every formula's docstring as a page, with the published figures that it is checked against."""

import csv
import inspect
import json
import pkgutil
import re
from collections.abc import Callable
from dataclasses import dataclass, field
from functools import lru_cache
from importlib import import_module
from typing import Any

from yardapp import formulas
from yardapp.errors import NotFound
from yardapp.paths import ROOT

TOOLS = frozenset({"ranges", "tables", "roots"})  # tools of formulas, not formulas
_HEADING = re.compile(r"^(?P<name>[A-Z][A-Za-z ]+)\n-{3,}\n", re.MULTILINE)


@dataclass(frozen=True)
class Published:
    """One figure that somebody else computed, which the tests hold a formula to."""

    inputs: dict[str, Any]
    expected: str
    tolerance: str
    accuracy: str
    source: str
    status: str


@dataclass(frozen=True)
class Entry:
    """One formula: its relation, then the sections of its docstring by name."""

    name: str
    signature: str
    relation: str
    sections: dict[str, str] = field(default_factory=dict)
    checks: tuple[Published, ...] = ()


@lru_cache(maxsize=1)
def contents() -> dict[str, list[tuple[str, str]]]:
    """Each module's subject, with name and relation of every formula in it."""
    found: dict[str, list[tuple[str, str]]] = {}
    for name, formula in sorted(_formulas().items()):
        module = inspect.getmodule(formula)
        subject = (module.__doc__ or name).strip().split("\n")[0] if module else name
        found.setdefault(subject, []).append((name, _split(formula)[0]))
    return found


@lru_cache(maxsize=1)
def _formulas() -> dict[str, Callable[..., Any]]:
    found: dict[str, Callable[..., Any]] = {}
    for module in pkgutil.iter_modules(formulas.__path__):
        if module.name in TOOLS:
            continue
        loaded = import_module(f"yardapp.formulas.{module.name}")
        for name, thing in inspect.getmembers(loaded, inspect.isfunction):
            if thing.__module__ == loaded.__name__ and not name.startswith("_"):
                found[f"{module.name}.{name}"] = thing
    return found


def entry(name: str) -> Entry:
    """The page of one formula, by `module.function` as a screen or the API names it.

    Raises
    ------
    NotFound
        There is no such formula.
    """
    formula = _formulas().get(name) or _by_the_door_it_is_reached_through(name)
    relation, sections = _split(formula)
    home = f"{formula.__module__.removeprefix('yardapp.formulas.')}.{formula.__name__}"
    signature = f"{formula.__name__}({', '.join(inspect.signature(formula).parameters)})"
    checks = tuple(one for reached, one in _published() if _formula_of(reached) is formula)
    return Entry(home, signature, relation, sections, checks)


def _by_the_door_it_is_reached_through(name: str) -> Callable[..., Any]:
    """A module may hand on what another one holds: `taper.contact_gap` lives in `taper_contact`."""
    found = _formula_of(name)
    if found is None or found not in _formulas().values():
        raise NotFound(f"There is no formula called {name}.")
    return found


def _formula_of(name: str) -> Callable[..., Any] | None:
    module, _, function = name.partition(".")
    if not any(one.name == module for one in pkgutil.iter_modules(formulas.__path__)):
        return None
    found: Callable[..., Any] | None = getattr(import_module(f"yardapp.formulas.{module}"), function, None)
    return found


def _split(formula: Callable[..., Any]) -> tuple[str, dict[str, str]]:
    """The docstring before its first heading, and each section under its heading."""
    said = inspect.getdoc(formula) or ""
    parts = _HEADING.split(said)
    sections = {name: text.strip("\n") for name, text in zip(parts[1::2], parts[2::2], strict=True)}
    return parts[0].strip(), sections


@lru_cache(maxsize=1)
def _published() -> tuple[tuple[str, Published], ...]:
    """The published figures, where the tests lie beside the package (a built wheel goes without)."""
    rows = []
    for path in sorted((ROOT / "tests" / "published").rglob("*.csv")):
        for row in csv.DictReader(path.read_text(encoding="utf-8").splitlines()):
            said = {name: row[name] for name in ("expected", "tolerance", "accuracy", "source", "status")}
            rows.append((row["formula"], Published(inputs=json.loads(row["inputs"]), **said)))
    return tuple(rows)
