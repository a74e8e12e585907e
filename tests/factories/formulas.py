"""One good call of every public formula: the one in its docstring, and what its optional arguments may be."""

import doctest
import inspect
import io
import pkgutil
import re
from collections.abc import Callable, Iterator
from contextlib import redirect_stdout
from dataclasses import dataclass, fields, is_dataclass, replace
from functools import cache
from importlib import import_module
from typing import Any

import numpy as np

from yardapp import formulas

TOOLS = ("ranges", "tables", "roots", "uncertainty")
# Steps inside other formulas, which take what has been held already.
INNER = {
    "hull_range.hold_proportion",
    "hull_savitsky_steps.at_trim",
    "sizing_load.advance_at_load",
    "sizing_load.at_advance",
}
# What a call has besides, or instead, of what the docstring's example says: optional figures, one in place of a row.
BESIDES: dict[str, dict[str, Any]] = {
    "b_series.efficiency": {"reynolds_number": 1e7},
    "b_series.kq": {"advance_ratio": 0.3, "reynolds_number": 1e7},
    "b_series.kt": {"advance_ratio": 0.3, "reynolds_number": 1e7},
    "b_series_curves.open_water": {"reynolds_number": 1e7},
    "clearance.class_rule": {"rudder_thickness_m": 0.1},
    "hull_choice.resistance": {"speed_mps": 3.0},
    "hull_savitsky.savitsky": {"thrust_arm_m": 0.15, "shaft_angle_rad": 0.07, "drag_density_kgpm3": 1025.0},
    "hull_savitsky.savitsky_at_trim": {"thrust_arm_m": 0.15, "shaft_angle_rad": 0.07, "drag_density_kgpm3": 1025.0},
    "shaft_ends.nearest_end": {"length_m": 0.0889, "taper": 0.0625},
    "sizing_best.best_diameter": {"blades": 3},
    "sizing_handbook.handbook_slip": {"speed_mps": 5.0},
}


@dataclass(frozen=True)
class Call:
    """A formula, and arguments that it takes; those inside a dataclass go by `argument.field`."""

    name: str
    formula: Callable[..., Any]
    arguments: dict[str, Any]

    @property
    def broadcast(self) -> list[str]:
        """Arguments that may be a number or an array of any shape, as the docstring has it."""
        said = inspect.getdoc(self.formula) or ""
        return [
            name
            for name, given in self.arguments.items()
            if is_number(given) and re.search(rf"^{name} : array_like, shape S(,|$)", said, re.MULTILINE)
        ]

    @property
    def figures(self) -> list[str]:
        """Arguments that are a known number, or rows of them."""
        return [name for name, given in self._flat().items() if is_number(given) or is_row(given)]

    def _flat(self) -> dict[str, Any]:
        flat = {}
        for name, given in self.arguments.items():
            if is_dataclass(given):
                flat |= {f"{name}.{each.name}": getattr(given, each.name) for each in fields(given)}
            else:
                flat[name] = given
        return flat

    def figure(self, name: str) -> Any:
        """The figure of a name out of `figures`."""
        return self._flat()[name]

    def given(self, **changed: Any) -> Any:
        """What the formula gives with some arguments changed."""
        said = dict(self.arguments)
        for name, figure in changed.items():
            argument, _, field = name.partition(".")
            said[argument] = replace(said[argument], **{field: figure}) if field else figure
        return self.formula(**said)


def is_number(given: Any) -> bool:
    """A single number; a truth value is none."""
    kinds = int | float | np.number | np.ndarray
    return isinstance(given, kinds) and not isinstance(given, bool) and np.ndim(given) == 0 and not np.isnan(given)


def is_row(given: Any) -> bool:
    """A row of numbers, or rows of them."""
    return isinstance(given, list | tuple | np.ndarray) and np.ndim(given) > 0 and np.asarray(given).dtype.kind in "if"


def leaves(result: Any) -> list[Any]:
    """All that a formula gave, out of whatever holds it."""
    if is_dataclass(result):
        return [one for each in fields(result) for one in leaves(getattr(result, each.name))]
    if isinstance(result, dict):
        return [one for each in result.values() for one in leaves(each)]
    return [one for each in result for one in leaves(each)] if isinstance(result, tuple) else [result]


def numbers_in(result: Any) -> list[np.ndarray]:
    """Every array and number that a formula gave, in the order of its fields; a word is 0, and NaN where not known."""
    found = (_number(one) for one in leaves(result))
    return [one for one in found if one is not None]


def _number(leaf: Any) -> np.ndarray | None:
    if isinstance(leaf, np.ndarray | np.generic) and leaf.dtype.kind == "U":
        return np.where(leaf == "", np.nan, 0.0)
    if isinstance(leaf, np.ndarray | np.generic | float | int):
        return np.asarray(leaf, float)
    return np.asarray(np.nan) if leaf is None else None


@cache
def calls() -> dict[str, Call]:
    """Every public formula's call."""
    return {
        name: Call(name, formula, recorded(formula) | BESIDES.get(name, {}))
        for name, formula in public()
        if name not in INNER
    }


def public() -> Iterator[tuple[str, Callable[..., Any]]]:
    """Every public formula, where it is at home."""
    for module in pkgutil.iter_modules(formulas.__path__, "yardapp.formulas."):
        short = module.name.rpartition(".")[2]
        if short not in TOOLS:
            loaded = import_module(module.name)
            for name, thing in inspect.getmembers(loaded, lambda one: inspect.isfunction(inspect.unwrap(one))):
                if thing.__module__ == module.name and not name.startswith("_"):
                    yield f"{short}.{name}", thing


def recorded(formula: Callable[..., Any]) -> dict[str, Any]:
    """The arguments of the first call in a formula's own example, with every optional number beside them."""
    home = import_module(formula.__module__)
    heard: list[dict[str, Any]] = []

    def listening(*args: Any, **kwargs: Any) -> Any:
        bound = inspect.signature(formula).bind(*args, **kwargs)
        bound.apply_defaults()
        heard.append(dict(bound.arguments))
        return formula(*args, **kwargs)

    names = vars(home) | {formula.__name__: listening}
    with redirect_stdout(io.StringIO()):
        for example in doctest.DocTestParser().get_examples(inspect.getdoc(formula) or ""):
            exec(compile(example.source, formula.__name__, "single"), names)
    return heard[0] if heard else {}
