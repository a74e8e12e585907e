"""Boring, of every pair at once: does the bore clean up, and is there wall left."""

import numpy as np

from yardapp.fit.checks.readings import (
    BORE_LENGTH,
    HUB_DIAMETER,
    HUB_KEY_DEPTH,
    HUB_LENGTH,
    KIND,
    LARGE,
    SHAFT,
    SHAFT_KEY_DEPTH,
    SHAFT_TAPER,
    SMALL,
    TAPER_LENGTH,
)
from yardapp.fit.ranking.case import ASK, BITS, REFUSED, UNTOLD, WORK, Pairs, at_least, root, told, verdict_of
from yardapp.fit.ranking.columns import Array, Bits, Codes, Marks

BUSH, ANOTHER, BORE = BITS["bush and re-bore"], BITS["another propeller"], BITS["bore and key"]


def cleans_up(pairs: Pairs, length: Array, u_length: Array) -> Codes:
    """Is the new bore nowhere smaller than the tapered bore there is, over the share that must bear?"""
    (hub, u_hub), by_ends = pairs.hub_taper, pairs.by_ends
    large, u_large, u_small = pairs.value(LARGE), pairs.u(LARGE), pairs.u(SMALL)
    shaft, u_shaft = pairs.value(SHAFT), pairs.u(SHAFT)
    slope, u_slope = pairs.value(SHAFT_TAPER), pairs.u(SHAFT_TAPER)
    must_bear = pairs.limits.min_contact_share_ratio
    share = np.where(hub > slope, 1 - must_bear, must_bear)
    metal = (shaft - slope * share * length) - (large - hub * share * length)
    both = root(u_shaft, share * length * u_slope)
    # A taper out of the bore's own ends shares their errors.
    apart = root(both, u_large, share * length * u_hub, (hub - slope) * share * u_length)
    shared = root(both, (1 - share) * u_large, share * u_small, slope * share * u_length)
    return at_least(metal, np.where(by_ends, shared, apart))


def pilot_cleans_up(pairs: Pairs, length: Array, u_length: Array) -> Codes:
    """The same of a bore without a taper."""
    share, slope = pairs.limits.min_contact_share_ratio, pairs.value(SHAFT_TAPER)
    metal = pairs.value(SHAFT) - slope * share * length - pairs.value(LARGE)
    along = root(share * length * pairs.u(SHAFT_TAPER), slope * share * u_length)
    return at_least(metal, root(pairs.u(SHAFT), pairs.u(LARGE), along))


def wall_after(pairs: Pairs) -> Codes:
    """Does the hub keep wall enough when it is bored to the shaft, over the keyway too?"""
    return pairs.once("wall after boring", _wall_after)


def _wall_after(pairs: Pairs) -> Codes:
    depth, u_depth = keyway_to_cut(pairs)
    hub, shaft = pairs.value(HUB_DIAMETER), pairs.value(SHAFT)
    u_hub, u_shaft = pairs.u(HUB_DIAMETER) / 2, pairs.u(SHAFT)
    least, least_over = pairs.limits.min_wall_ratio, pairs.limits.min_wall_over_key_ratio
    plain = at_least((hub - shaft) / 2 - least * shaft, root(u_hub, (0.5 + least) * u_shaft))
    over_u = root(u_hub, (0.5 + least_over) * u_shaft, u_depth)
    over = at_least((hub - shaft) / 2 - depth - least_over * shaft, over_u)
    return np.where(np.isnan(hub + shaft + depth), UNTOLD, told(plain, over)).astype(np.int8)


def keyway_to_cut(pairs: Pairs) -> tuple[Array, Array]:
    """Depth of the shaft's keyway, else of the hub's own, and its standard uncertainty."""
    has_shaft = pairs.known(SHAFT_KEY_DEPTH)
    depth = np.where(has_shaft, pairs.value(SHAFT_KEY_DEPTH), pairs.value(HUB_KEY_DEPTH))
    return depth, np.where(has_shaft, pairs.u(SHAFT_KEY_DEPTH), pairs.u(HUB_KEY_DEPTH))


def wall_doubt(pairs: Pairs) -> Marks:
    """Where the wall rests on a figure that settles nothing."""
    keyway = np.where(pairs.known(SHAFT_KEY_DEPTH), pairs.doubt(SHAFT_KEY_DEPTH), pairs.doubt(HUB_KEY_DEPTH))
    return np.asarray(pairs.doubt(SHAFT, HUB_DIAMETER) | keyway)


def last_work(cleans: Codes, wall: Codes) -> Bits:
    """What is left to do where boring is refused: by the last of the answers that refuses."""
    return np.where(wall < UNTOLD, ANOTHER, np.where(cleans < UNTOLD, BUSH, 0))


def pilot(pairs: Pairs) -> tuple[Codes, Bits, Marks]:
    """Can a pilot bore be bored and keyed to the shaft: verdict, works, doubts."""
    return pairs.once("pilot", _pilot)


def _pilot(pairs: Pairs) -> tuple[Codes, Bits, Marks]:
    length, u_length, along = _along(pairs)
    is_known = pairs.known(LARGE, SHAFT, SHAFT_TAPER) & ~np.isnan(length)
    cleans, wall = pilot_cleans_up(pairs, length, u_length), wall_after(pairs)
    answer = told(cleans, wall)
    code = np.where(is_known, verdict_of(answer, yes=WORK), ASK).astype(np.int8)
    works = np.where(code == REFUSED, last_work(cleans, wall), BORE)
    return code, works, pairs.doubt(KIND, LARGE, SHAFT, SHAFT_TAPER) | along | wall_doubt(pairs)


def _along(pairs: Pairs) -> tuple[Array, Array, Marks]:
    """The first length that is known to bore over, its uncertainty, and where it is doubted."""
    paths = (BORE_LENGTH, HUB_LENGTH, TAPER_LENGTH)
    known = np.broadcast_arrays(*(pairs.known(path) for path in paths))
    length = np.select(known, np.broadcast_arrays(*(pairs.value(path) for path in paths)), np.nan)
    u_length = np.select(known, np.broadcast_arrays(*(pairs.u(path) for path in paths)), np.nan)
    doubts = [np.broadcast_to(pairs.doubt(path), known[0].shape) for path in paths]
    return length, u_length, np.select(known, doubts, doubts[0])
