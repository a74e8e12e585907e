"""How far the engine's speed may be out: first order, and the same by seeded chance."""

from math import sqrt
from typing import NamedTuple

import numpy as np

from yardapp.fit.loading.parts import Array, Premises, Unsure
from yardapp.fit.loading.reach import free_meet, propped
from yardapp.formulas.sizing import Meeting

OF_PROPELLER = ("diameter_m", "pitch_m", "area_ratio")


class Guises(NamedTuple):
    """Arrays of every figure, one entry a guise of the pair; the first is the pair as it was read."""

    figures: dict[str, Array]
    unsure: tuple[Unsure, ...]


class Spread(NamedTuple):
    """A result and its standard uncertainty, and what each unsure figure adds to it."""

    value: float
    u: float
    parts: dict[str, float]


def guises(premises: Premises, of_propeller: tuple[Unsure, ...], extra: dict[str, Array]) -> Guises:
    """The pair; each unsure figure one standard uncertainty up and down; then the `extra` propellers."""
    known = {one.name: one for one in (*of_propeller, *premises.unsure)}
    unsure = tuple(one for one in known.values() if one.u > 0)
    count = 1 + 2 * len(unsure)
    size = count + max((len(each) for each in extra.values()), default=0)
    figures = {name: np.full(size, one.value) for name, one in known.items()}
    for i, one in enumerate(unsure):
        figures[one.name][1 + 2 * i] += one.u
        figures[one.name][2 + 2 * i] -= one.u
    for name, each in extra.items():
        figures[name][count:] = each
    return Guises(figures, unsure)


def reached(premises: Premises, worn: Guises, blades: int) -> tuple[Meeting, Array]:
    """What every guise reaches without a governor, and its engine speed over the rated."""
    free = free_meet(premises, blades=blades, **worn.figures)
    return free, propped(premises, free, worn.figures["speed_factor"])


def spread(results: Array, unsure: tuple[Unsure, ...]) -> Spread:
    """First order, one standard uncertainty each way (GUM 5.1.2); NaN where the pair meets nowhere."""
    value = float(results[0])
    parts: dict[str, float] = {}
    for i, one in enumerate(unsure):
        up, down = float(results[1 + 2 * i]), float(results[2 + 2 * i])
        up, down = (value if np.isnan(up) else up), (value if np.isnan(down) else down)
        parts[one.path] = sqrt(parts.get(one.path, 0.0) ** 2 + ((up - down) / 2) ** 2)
    return Spread(value, sqrt(sum(part**2 for part in parts.values())), parts)


def scattered(
    premises: Premises, of_propeller: tuple[Unsure, ...], blades: int, *, count: int = 4000, seed: int = 1
) -> Array:
    """Engine speed over the rated for `count` pairs drawn by chance; those that meet nowhere are left out."""
    chance = np.random.default_rng(seed)
    drawn = {one.name: _draw(one, chance, count) for one in (*of_propeller, *premises.unsure)}
    found = propped(premises, free_meet(premises, blades=blades, **drawn), drawn["speed_factor"])
    return np.asarray(found[~np.isnan(found)])


def _draw(one: Unsure, chance: np.random.Generator, count: int) -> Array:
    if one.is_between:
        half = one.u * sqrt(3)
        return chance.uniform(one.value - half, one.value + half, count)
    return chance.normal(one.value, one.u, count)
