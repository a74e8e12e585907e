"""Sums with their ±, kept so that they can be opened to inputs, formula and source."""

from collections.abc import Callable
from typing import Any, cast

import numpy as np
from uncertainties import UFloat
from uncertainties.core import AffineScalarFunc, LinearCombination, Variable

from yardapp.fit.checks.check import Compared, Sum

# Step of the central differences, as a share of the figure: errors of rounding and of curvature are then alike.
STEP = 6e-6
ENDINGS = {
    "_m": "length",
    "taper": "taper",
    "_ratio": "ratio",
    "_w": "power",
    "_mps": "speed",
    "_rps": "rotation",
    "_kg": "mass",
    "_pa": "pressure",
    "_n": "force",
    "_nm": "torque",
}


def measured(value: float, u: float) -> UFloat:
    """A figure with its standard uncertainty, which may be zero (`ufloat` warns of that)."""
    return cast(UFloat, Variable(float(value), float(u)))


def add_up(label: str, formula: Callable[..., Any], kind: str, **readings: UFloat | float) -> tuple[UFloat, Sum]:
    """Work a formula with its ±, and keep the workings."""
    result = _propagated(formula, readings)
    return result, workings(label, formula, kind, result, **readings)


def _propagated(formula: Callable[..., Any], readings: dict[str, UFloat | float]) -> UFloat:
    """First order (GUM 5.1.2), all steps of all readings in one call; shared readings stay correlated."""
    nominal = {name: float(getattr(one, "n", one)) for name, one in readings.items()}
    steps = {name: STEP * abs(nominal[name]) or STEP for name, one in readings.items() if getattr(one, "s", 0.0)}
    given = {name: np.full(1 + 2 * len(steps), value) for name, value in nominal.items()}
    for i, (name, step) in enumerate(steps.items()):
        given[name][1 + 2 * i] += step
        given[name][2 + 2 * i] -= step
    found = np.broadcast_to(np.asarray(formula(**given), float), (1 + 2 * len(steps),))
    slopes = ((found[1::2] - found[2::2]) / (2 * np.array(list(steps.values())))).tolist()
    parts = [(slope, cast(Any, readings[name])._linear_part) for name, slope in zip(steps, slopes, strict=True)]
    if not parts:
        return measured(float(found[0]), 0.0)
    # What `uncertainties` itself makes of slope * reading + ..., made in one go.
    return cast(UFloat, AffineScalarFunc(float(found[0]), LinearCombination(parts)))


def workings(
    label: str, formula: Callable[..., Any], kind: str, result: UFloat, **readings: UFloat | float | str
) -> Sum:
    """A sum that can be opened: formula, figures, result."""
    return Sum(
        label=label,
        formula=f"{formula.__module__}.{formula.__name__}",
        inputs=tuple(_input(name, reading) for name, reading in readings.items()),
        value=float(result.n),
        u=float(result.s),
        kind=kind,
    )


def _input(name: str, reading: UFloat | float | str) -> Compared:
    if isinstance(reading, str):
        return Compared(label=name, value=reading)
    value, u = (reading, 0.0) if isinstance(reading, int | float) else (reading.n, reading.s)
    return Compared(label=name, value=float(value), u=float(u), kind=_kind(name))


def _kind(argument: str) -> str:
    return next((kind for ending, kind in ENDINGS.items() if argument.endswith(ending)), "count")


def size(figure: UFloat) -> UFloat:
    """The figure without its sign."""
    return figure if figure.n >= 0 else -figure
