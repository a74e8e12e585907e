"""Keyways, of every pair at once: one width, and room on top of the key."""

from functools import cache

import numpy as np

from yardapp.fit.checks.keyway import EASED_SHARE, IN_HUB_SHARE
from yardapp.fit.checks.readings import HUB_KEY_DEPTH, HUB_KEY_WIDTH, SHAFT, SHAFT_KEY_DEPTH, SHAFT_KEY_WIDTH
from yardapp.fit.ranking.case import (
    ABSENT,
    ASK,
    BITS,
    SURELY,
    SURELY_NOT,
    WORK,
    YES,
    Pairs,
    at_least,
    at_most,
    root,
    verdict_of,
)
from yardapp.fit.ranking.columns import Array
from yardapp.fit.ranking.seat import Seat
from yardapp.formulas.shaft_keys import key_for

STANDARDS = ("SAE J755", "ISO/R 773")
OPEN, MAKE = BITS["open the keyway"], BITS["fit a key"]


def width(pairs: Pairs) -> Seat:
    """Width against width."""
    hub, shaft = pairs.value(HUB_KEY_WIDTH), pairs.value(SHAFT_KEY_WIDTH)
    wider, u_wider = hub - shaft, root(pairs.u(HUB_KEY_WIDTH), pairs.u(SHAFT_KEY_WIDTH))
    is_one = at_most(np.abs(wider), u_wider, pairs.limits.key_fit_m)
    hub_has_none, shaft_has_none = pairs.has_none(HUB_KEY_WIDTH), pairs.has_none(SHAFT_KEY_WIDTH)
    kinds = [
        shaft_has_none | (hub_has_none & np.isnan(shaft)),
        hub_has_none & ~shaft_has_none,
        is_one == SURELY,
        is_one == SURELY_NOT,
    ]
    code = np.select(kinds, [ASK, WORK, YES, WORK], ASK).astype(np.int8)
    works = np.where(hub_has_none | (wider < 0), OPEN, MAKE)
    return Seat(code, works, pairs.doubt(HUB_KEY_WIDTH, SHAFT_KEY_WIDTH))


def depth(pairs: Pairs) -> Seat:
    """Room on top of a standard's key, or depth enough for one that is made; absent where there is no keyway."""
    hub, shaft = pairs.value(HUB_KEY_DEPTH), pairs.value(SHAFT_KEY_DEPTH)
    u_hub, u_shaft = pairs.u(HUB_KEY_DEPTH), pairs.u(SHAFT_KEY_DEPTH)
    height = standard_height(pairs)
    clear = at_least(hub + shaft - height + EASED_SHARE * height, root(u_hub, u_shaft))
    stands = at_least(hub - IN_HUB_SHARE * shaft, root(u_hub, IN_HUB_SHARE * u_shaft))
    code = verdict_of(np.where(np.isnan(height), stands, clear), yes=YES, no=WORK)
    code = np.where(np.isnan(hub + shaft), ASK, code)
    is_absent = pairs.has_none(HUB_KEY_WIDTH) | pairs.has_none(SHAFT_KEY_WIDTH)
    doubt = pairs.doubt(HUB_KEY_DEPTH, SHAFT_KEY_DEPTH, SHAFT, SHAFT_KEY_WIDTH)
    return Seat(np.where(is_absent, ABSENT, code).astype(np.int8), np.asarray(OPEN), doubt)


def standard_height(pairs: Pairs) -> Array:
    """Height of the key that a standard gives the shaft; NaN where none fits its keyway."""
    shaft, wide, u_wide = pairs.value(SHAFT), pairs.value(SHAFT_KEY_WIDTH), pairs.u(SHAFT_KEY_WIDTH)
    height = np.full(np.broadcast_shapes(shaft.shape, wide.shape), np.nan)
    for standard in reversed(STANDARDS):
        keys = np.array([_key(standard, size) for size in shaft.tolist()]).reshape(-1, 2)
        is_it = at_most(np.abs(wide - keys[:, 0]), u_wide, pairs.limits.key_fit_m) != SURELY_NOT
        height = np.where(is_it & (keys[:, 1] > 0) & ~np.isnan(wide), keys[:, 1], height)
    return height


@cache
def _key(standard: str, shaft_m: float) -> tuple[float, float]:
    """Width and height of a standard's key; NaN where it has none."""
    found = None if np.isnan(shaft_m) else key_for(shaft_m, standard)
    return (np.nan, np.nan) if found is None else (found.width_m, found.height_m)
