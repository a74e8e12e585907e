"""How much to mix now: for the coats to come that this mix will still be good for, what stays in the tin included."""

import math
from collections.abc import Mapping, Sequence

from yardapp.coating.amounts import use_m3pm2
from yardapp.coating.ops import Op
from yardapp.coating.system import Product, System
from yardapp.coating.timing import pot_life_s
from yardapp.errors import OutsideRange

ROUND_M3 = 5e-6  # a yard's cup is read to five millilitres


def portion_m3(
    system: System,
    product: Product,
    ops: Sequence[Op],
    areas_m2: Mapping[str, float],
    *,
    now_s: float,
    metal_c: float | None,
    loss_ratio: float,
) -> float | None:
    """The amount to mix, rounded up; None where nothing is to come, or the sheet or an area is silent.

    `areas_m2`: of each blade or piece, by its key.
    """
    until_s = _good_until_s(product, now_s, metal_c)
    using = [op for op in ops if system.steps[op.step].product == product.name and system.steps[op.step].is_coat]
    held = [op for op in using if op.end_s <= until_s]
    uses = [use_m3pm2(product, system.steps[op.step].film) for op in held]
    areas = [areas_m2.get(op.unit) for op in held]
    if not held or None in uses or None in areas:
        return None
    wanted_m3 = sum((use or 0.0) * (area or 0.0) for use, area in zip(uses, areas, strict=True)) / (1 - loss_ratio)
    return math.ceil(wanted_m3 / ROUND_M3 - 1e-9) * ROUND_M3


def _good_until_s(product: Product, now_s: float, metal_c: float | None) -> float:
    """The end of its pot life if it is mixed now; without end where the sheet names none, or nobody can tell."""
    if not product.is_mixed or metal_c is None:
        return math.inf
    try:
        life_s = pot_life_s(product, metal_c)
    except OutsideRange:
        return math.inf
    return math.inf if life_s is None else now_s + life_s
