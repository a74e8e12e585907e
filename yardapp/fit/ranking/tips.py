"""What a rule asks for at the tips, of every pair at once: a share of the diameter, and how well that is known."""

import numpy as np

from yardapp.fit.checks.readings import BLADES, BLOCK, POWER, TWIN, VESSEL_LENGTH
from yardapp.fit.checks.tip_room import BANDS, CLASS_BLADES
from yardapp.fit.ranking.case import Pairs, root
from yardapp.fit.ranking.columns import TWIN_SCREW, UNKNOWN, Array, Marks
from yardapp.formulas.clearance import class_factor, class_rule

STEP = 1e-6
CLASS_READINGS = (VESSEL_LENGTH, BLOCK, POWER, BLADES)


def share_asked(pairs: Pairs, rule: str) -> tuple[Array, Array]:
    """Share of the diameter and its standard uncertainty; NaN where the class rule goes by what is not known."""
    if rule in BANDS:
        return np.asarray(BANDS[rule]), np.zeros(1)
    length, block, power = (pairs.value(path) for path in (VESSEL_LENGTH, BLOCK, POWER))
    k_factor = class_factor(length, block, power)
    grown = [
        class_factor(length * (1 + STEP), block, power),
        class_factor(length, block * (1 - STEP), power),
        class_factor(length, block, power * (1 + STEP)),
    ]
    known = zip(grown, (length, block, power), (VESSEL_LENGTH, BLOCK, POWER), strict=True)
    u_factor = root(*((more - k_factor) / (STEP * value) * pairs.u(path) for more, value, path in known))
    share = _share(pairs, k_factor)
    return share, np.abs(_share(pairs, k_factor * (1 + STEP)) - share) / (STEP * k_factor) * u_factor


def _share(pairs: Pairs, k_factor: Array) -> Array:
    blades = pairs.sides["propeller"].blades
    screws = pairs.sides["drive"].screws
    counted = np.where(np.isin(blades, CLASS_BLADES), blades, np.nan)
    counted, k_factor = np.broadcast_arrays(counted, k_factor)
    asked = class_rule(np.ones(counted.shape), counted, k_factor)
    return np.where(screws == UNKNOWN, np.nan, np.where(screws == TWIN_SCREW, asked.e_m, asked.a_m))


def rule_doubt(pairs: Pairs, rule: str) -> Marks:
    """Where the share rests on a figure that settles nothing."""
    return np.zeros(1, bool) if rule in BANDS else pairs.doubt(*CLASS_READINGS, TWIN)
