"""What became of coats: life so far, how they looked at haul-out, and how long they last, told honestly."""

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from yardapp.formulas.lives import median_life

RATINGS = ("clean", "slime", "weed", "shell few", "shell many", "coating gone")
GONE = RATINGS[-1]
FEW = 3
WINDOWS = {True: "windows met or put right", False: "a window missed", None: "windows not known"}


@dataclass(frozen=True, kw_only=True)
class Coated:
    """One coating of one thing. It lives from the water on; `ended_s`: gone, or coated anew."""

    item: str
    system: str
    version: int
    way: str
    finished_s: float
    immersed_s: float | None = None
    ended_s: float | None = None
    metal_low_c: float | None = None
    metal_high_c: float | None = None
    windows_met: bool | None = None
    foul_release: bool = False


@dataclass(frozen=True, kw_only=True)
class Rating:
    """How one blade (None: the whole thing) looked at haul-out, in a word of RATINGS."""

    blade: int | None
    word: str
    at_s: float
    who: str = ""


@dataclass(frozen=True, kw_only=True)
class Lives:
    """How long coats of one group last. `points`: each life and whether it has ended; the median counts both kinds.

    `median_s` None: too few have ended to tell.
    """

    group: tuple[str, ...]
    n_ended: int
    n_on: int
    median_s: float | None
    shortest_s: float | None
    longest_s: float | None
    said: str
    points: tuple[tuple[float, bool], ...]


@dataclass(frozen=True, kw_only=True)
class Due:
    """When the next coat is due, and what that rests on."""

    at_s: float | None
    rests_on: str


def life_so_far_s(coated: Coated, now_s: float) -> float | None:
    """From the water to its end, or to now; None while it has not been in the water."""
    if coated.immersed_s is None or now_s < coated.immersed_s:
        return None
    end_s = now_s if coated.ended_s is None else min(coated.ended_s, now_s)
    return max(0.0, end_s - coated.immersed_s)


def worst(ratings: Iterable[Rating]) -> str | None:
    """The worst word among the newest ratings of each blade; None where nobody looked."""
    newest: dict[int | None, Rating] = {}
    for rating in sorted(ratings, key=lambda one: one.at_s):
        newest[rating.blade] = rating
    return max((one.word for one in newest.values()), key=RATINGS.index, default=None)


def lives(coateds: Iterable[Coated], now_s: float, by: Sequence[str] = ("system", "way")) -> tuple[Lives, ...]:
    """Lives in groups: by system and way of application, or by whatever else is asked ("temperature", "windows")."""
    groups: dict[tuple[str, ...], list[tuple[float, bool]]] = {}
    for coated in coateds:
        life_s = life_so_far_s(coated, now_s)
        if life_s is not None:
            group = tuple(_named(coated, name) for name in by)
            groups.setdefault(group, []).append((life_s, coated.ended_s is not None and coated.ended_s <= now_s))
    return tuple(_lives(group, points) for group, points in sorted(groups.items()))


def next_due_s(coated: Coated, life: float | Lives | None) -> Due:
    """When the next coat is due: by the sheet's life, or by what the yard's own coats of its kind last."""
    life_s = life.median_s if isinstance(life, Lives) else life
    if life_s is None:
        said = life.said if isinstance(life, Lives) else "The sheet names no life, and the yard has none to go by."
        return Due(at_s=None, rests_on=said)
    if coated.immersed_s is None:
        return Due(at_s=None, rests_on="It has not been in the water yet.")
    rests_on = f"by the yard's own: {life.said}" if isinstance(life, Lives) else "by the life that the sheet gives"
    return Due(at_s=coated.immersed_s + life_s, rests_on=rests_on)


_TEMPERATURE = "temperature not read"


def _named(coated: Coated, name: str) -> str:
    if name == "windows":
        return WINDOWS[coated.windows_met]
    if name == "temperature":
        return _warmth(coated.metal_low_c)
    if name == "version":
        return f"version {coated.version}"
    return str(getattr(coated, name))


def _warmth(at_c: float | None) -> str:
    """The coldest metal in steps of five degrees."""
    if at_c is None:
        return _TEMPERATURE
    low = math.floor(at_c / 5) * 5
    return f"{low} to {low + 5} °C"


def _lives(group: tuple[str, ...], points: Sequence[tuple[float, bool]]) -> Lives:
    points = sorted(points)
    ended = [life_s for life_s, has_ended in points if has_ended]
    # NaN: more than half of them are still on.
    median_s = median_life(*zip(*points, strict=True)) if len(ended) >= FEW else math.nan
    return Lives(
        group=group,
        n_ended=len(ended),
        n_on=len(points) - len(ended),
        median_s=None if math.isnan(median_s) else median_s,
        shortest_s=min(ended, default=None),
        longest_s=max(ended, default=None),
        said=" ".join(_said(ended, len(points) - len(ended), median_s)),
        points=tuple(points),
    )


def _said(ended: Sequence[float], n_on: int, median_s: float) -> Iterator[str]:
    """Counts first; a middle only where there is one."""
    yield f"{len(ended)} ended, {n_on} still on."
    if len(ended) < FEW:
        yield f"Too few have ended to name a middle: {FEW} or more would."
    elif math.isnan(median_s):
        yield "More than half are still on: the middle is not known yet."
    else:
        yield f"Half last longer than {_age(median_s)}; those that ended lasted {_age(ended[0])} to {_age(ended[-1])}."


def _age(life_s: float) -> str:
    days = life_s / 86400
    return f"{days:.0f} days" if days < 61 else f"{days / 30.44:.0f} months"
