"""Sums with their ±, kept so that they can be opened to inputs, formula and source."""

from collections.abc import Callable
from typing import Any, cast

from uncertainties import UFloat
from uncertainties.core import Variable

from yardapp.fit.checks.check import Compared, Sum
from yardapp.formulas.uncertainty import propagate


def measured(value: float, u: float) -> UFloat:
    """A figure with its standard uncertainty, which may be zero (`ufloat` warns of that)."""
    return cast(UFloat, Variable(float(value), float(u)))


def add_up(label: str, formula: Callable[..., Any], kind: str, **readings: UFloat | float) -> tuple[UFloat, Sum]:
    """Work a formula with its ±, and keep the workings."""
    result = propagate(formula, **readings)
    return result, workings(label, formula, kind, result, **readings)


def workings(label: str, formula: Callable[..., Any], kind: str, result: UFloat, **readings: UFloat | float) -> Sum:
    """A sum that can be opened: formula, figures, result."""
    return Sum(
        label=label,
        formula=f"{formula.__module__}.{formula.__name__}",
        inputs=tuple(_input(name, reading) for name, reading in readings.items()),
        value=float(result.n),
        u=float(result.s),
        kind=kind,
    )


def _input(name: str, reading: UFloat | float) -> Compared:
    value, u = (reading, 0.0) if isinstance(reading, int | float) else (reading.n, reading.s)
    return Compared(label=name, value=float(value), u=float(u), kind=_kind(name))


def _kind(argument: str) -> str:
    endings = {"_m": "length", "taper": "taper", "_ratio": "ratio", "_w": "power"}
    return next((kind for ending, kind in endings.items() if argument.endswith(ending)), "count")


def size(figure: UFloat) -> UFloat:
    """The figure without its sign."""
    return figure if figure.n >= 0 else -figure
