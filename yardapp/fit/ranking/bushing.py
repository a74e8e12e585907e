"""Bushing, of every pair at once: another propeller where the hub has no metal for a bush."""

import numpy as np

from yardapp.fit.checks.bushing import CLEAN_UP_M
from yardapp.fit.checks.readings import HUB_DIAMETER, LARGE, SHAFT
from yardapp.fit.ranking.boring import ANOTHER, BUSH, keyway_to_cut
from yardapp.fit.ranking.case import SURELY_NOT, Pairs, at_least, root
from yardapp.fit.ranking.columns import Bits, Marks


def settled(works: Bits, is_thin: Marks) -> Bits:
    """The works, a bush taken for another propeller where the hub has no metal for it."""
    return np.where((works == BUSH) & is_thin, ANOTHER, works)


def is_too_thin(pairs: Pairs) -> Marks:
    """Where a bush would surely leave too thin a wall round it."""
    depth, u_depth = keyway_to_cut(pairs)
    under, wall = pairs.limits.min_bush_wall_ratio, pairs.limits.min_wall_ratio
    hub, shaft, bore = (pairs.value(path) for path in (HUB_DIAMETER, SHAFT, LARGE))
    u_hub, u_shaft, u_bore = (pairs.u(path) for path in (HUB_DIAMETER, SHAFT, LARGE))
    by_key = shaft + 2 * (depth + under * shaft)
    by_bore = bore + CLEAN_UP_M > by_key
    outside = np.where(by_bore, bore + CLEAN_UP_M, by_key)
    u_by_key = root(u_hub / 2, (0.5 + under + wall) * u_shaft, u_depth)
    u_by_bore = root(u_hub / 2, u_bore / 2, wall * u_shaft)
    left = at_least((hub - outside) / 2 - wall * shaft, np.where(by_bore, u_by_bore, u_by_key))
    is_known = ~np.isnan(hub + shaft + depth)
    return np.asarray(is_known & (left == SURELY_NOT))
