"""How it is worked out: every formula's docstring as a page, with the published figures that it is checked against."""

import csv
import inspect
import json
import pkgutil
import re
from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass, field
from functools import lru_cache
from importlib import import_module
from typing import Any

import numpy as np

from yardapp import formulas
from yardapp.errors import NotFound
from yardapp.paths import ROOT

TOOLS = frozenset({"ranges", "tables", "roots"})  # tools of formulas, not formulas
HOME = "yardapp.formulas."
_HEADING = re.compile(r"^(?P<name>[A-Z][A-Za-z ]+)\n-{3,}\n", re.MULTILINE)
# Subjects in the order of a job: measure, judge, fit, drive, coat. A module belongs where its name, or what its name
# begins with up to an underscore, stands.
SUBJECTS = {
    "Pitch": ("pitch", "survey_spread", "repitch"),
    "Accuracy, ISO 484": ("tolerance", "iso484", "survey_class"),
    "Diameter and blades": ("diameter", "blades_alike", "blade_rubbing", "area", "propeller_materials"),
    "Hub and taper": ("taper", "shaft_ends", "end_candidates", "shaft_keys", "seat", "hub_room"),
    "Shaft and bearings": ("shafting", "shaft"),
    "Room round the propeller": ("clearance", "blade_room"),
    "Hull: speed and resistance": ("hull",),
    "Wake, thrust and slip": ("wake", "propulsion", "slip"),
    "B-series": ("b_series",),
    "Choosing a propeller": ("sizing",),
    "Engine": ("engine",),
    "Cavitation": ("cavitation",),
    "Coating": ("coating", "coated_area", "dew", "film", "lives"),
    "Readings and their ±": ("uncertainty", "repeats", "far_off"),
}
REST = "Besides"
SYMBOLS = {"kt": "Thrust coefficient KT", "kq": "Torque coefficient KQ"}


@dataclass(frozen=True)
class Published:
    """One figure that somebody else computed, which the tests hold a formula to; `pick` is what of the result."""

    inputs: dict[str, Any]
    pick: str
    expected: str
    tolerance: str
    accuracy: str
    source: str
    status: str

    @property
    def given(self) -> str:
        """The inputs in words: `rise_m 0.0333, swing_rad 0.698132`."""
        return ", ".join(f"{name} {_short(value)}" for name, value in self.inputs.items())

    @property
    def figure(self) -> str:
        """What was published and how near the formula must come: `set_up_m 0.0016 ± 0.00005`."""
        near = f" ± {_short(float(self.tolerance))}" if self.tolerance else ""
        return f"{self.pick} {self.expected}{near}".lstrip()


def _short(value: Any) -> str:
    """A number to six figures and without exponent, inside a list too; words as they are."""
    if isinstance(value, list):
        return f"[{', '.join(map(_short, value))}]"
    if isinstance(value, bool) or not isinstance(value, (int, float)):
        return str(value)
    return np.format_float_positional(value, precision=6, fractional=False, trim="-")


@dataclass(frozen=True)
class Entry:
    """One formula: its relation, then the sections of its docstring by name."""

    name: str
    title: str
    signature: str
    relation: str
    sections: dict[str, str] = field(default_factory=dict)
    checks: tuple[Published, ...] = ()


@dataclass(frozen=True)
class Line:
    """One formula in the contents: its address, its name in words, its relation, how many figures it is held to."""

    name: str
    title: str
    relation: str
    check_count: int


@lru_cache(maxsize=1)
def contents() -> dict[str, list[Line]]:
    """Every formula by its subject; what only refuses for others has a page, and no line."""
    found: dict[str, list[Line]] = {subject: [] for subject in (*SUBJECTS, REST)}
    held = Counter(_formula_of(reached) for reached, _ in _published())
    for name, formula in sorted(_formulas().items(), key=lambda one: one[0].partition(".")[2]):
        if not formula.__name__.startswith("hold_"):
            line = Line(name, _in_words(formula.__name__), _split(formula)[0].split("\n")[0], held[formula])
            found[_subject(name.partition(".")[0])].append(line)
    return {subject: lines for subject, lines in found.items() if lines}


def _subject(module: str) -> str:
    """The subject that names the module itself, or else its longest beginning."""
    fits = {
        beginning: subject
        for subject, beginnings in SUBJECTS.items()
        for beginning in beginnings
        if module == beginning or module.startswith(f"{beginning}_")
    }
    return fits[max(fits, key=len)] if fits else REST


def _in_words(name: str) -> str:
    return SYMBOLS.get(name) or name.replace("_", " ").capitalize().replace("reynolds", "Reynolds")


@lru_cache(maxsize=1)
def _formulas() -> dict[str, Callable[..., Any]]:
    found: dict[str, Callable[..., Any]] = {}
    for module in pkgutil.iter_modules(formulas.__path__):
        if module.name in TOOLS:
            continue
        loaded = import_module(f"{HOME}{module.name}")
        # What keeps its answer (`functools.cache`) is a formula too.
        for name, thing in inspect.getmembers(loaded, lambda one: inspect.isfunction(inspect.unwrap(one))):
            if thing.__module__ == loaded.__name__ and not name.startswith("_"):
                found[f"{module.name}.{name}"] = thing
    return found


def entry(name: str) -> Entry:
    """The page of one formula, by `module.function` as a screen or the API names it, with its package or without.

    Raises
    ------
    NotFound
        There is no such formula.
    """
    name = name.removeprefix(HOME)
    formula = _formulas().get(name) or _by_the_door_it_is_reached_through(name)
    relation, sections = _split(formula)
    home = f"{formula.__module__.removeprefix(HOME)}.{formula.__name__}"
    signature = f"{home}({', '.join(inspect.signature(formula).parameters)})"
    checks = tuple(one for reached, one in _published() if _formula_of(reached) is formula)
    return Entry(home, _in_words(formula.__name__), signature, relation, sections, checks)


def _by_the_door_it_is_reached_through(name: str) -> Callable[..., Any]:
    """A module may hand on what another one holds: `taper.contact_gap` lives in `taper_contact`."""
    found = _formula_of(name)
    if found is None or found not in _formulas().values():
        raise NotFound(f"There is no formula called {name}.")
    return found


@lru_cache(maxsize=1000)
def _formula_of(name: str) -> Callable[..., Any] | None:
    module, _, function = name.partition(".")
    if not any(one.name == module for one in pkgutil.iter_modules(formulas.__path__)):
        return None
    found: Callable[..., Any] | None = getattr(import_module(f"{HOME}{module}"), function, None)
    return found


def _split(formula: Callable[..., Any]) -> tuple[str, dict[str, str]]:
    """The docstring before its first heading, and each section under its heading."""
    said = inspect.getdoc(formula) or ""
    parts = _HEADING.split(said)
    sections = {name: text.strip("\n") for name, text in zip(parts[1::2], parts[2::2], strict=True)}
    return parts[0].strip(), sections


@lru_cache(maxsize=1)
def _published() -> tuple[tuple[str, Published], ...]:
    """The published figures that the tests hold each formula to: a built wheel carries them along."""
    rows = []
    for path in sorted((ROOT / "tests" / "published").rglob("*.csv")):
        for row in csv.DictReader(path.read_text(encoding="utf-8").splitlines()):
            said = {name: row[name] for name in ("pick", "expected", "tolerance", "accuracy", "source", "status")}
            rows.append((row["formula"], Published(inputs=json.loads(row["inputs"]), **said)))
    return tuple(rows)
