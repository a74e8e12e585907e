"""When each product is to be stirred and mixed so that it is ready in time, and anew where its pot life is over."""

from collections.abc import Sequence
from dataclasses import dataclass

from yardapp.coating.ops import Op
from yardapp.coating.system import Product, System
from yardapp.coating.timing import pot_life_s


@dataclass(frozen=True, kw_only=True)
class Pot:
    """One mix (or one tin to be stirred): when to begin stirring so that it is ready in time."""

    product: str
    stir_s: float
    mixed_s: float
    ready_s: float
    good_until_s: float | None
    units: tuple[str, ...]
    first_s: float
    last_s: float
    stirring_s: float = 0.0


def pots_for(system: System, ops: Sequence[Op], metal_c: float) -> tuple[tuple[Pot, ...], tuple[str, ...]]:
    """Every mix that the coats need, the first first; and what no mix can do."""
    pots: list[Pot] = []
    troubles: list[str] = []
    for product in system.products:
        using = [op for op in ops if system.steps[op.step].product == product.name and system.steps[op.step].is_coat]
        life_s = pot_life_s(product, metal_c) if product.is_mixed else None
        while using:
            held = _held(using, product, life_s)
            if not held:
                troubles.append(f"{product.name} is past its pot life before one coat of {using[0].label} is done.")
                break
            pots.append(_pot(product, held, life_s))
            using = [op for op in using if op not in held]
    return tuple(sorted(pots, key=lambda pot: pot.stir_s)), tuple(troubles)


def _held(using: Sequence[Op], product: Product, life_s: float | None) -> list[Op]:
    """The coats that one mix, ready at the first of them, is good for to their last stroke."""
    if life_s is None:
        return list(using)
    until_s = using[0].start_s - product.induction_s + life_s
    return [op for op in using if op.end_s <= until_s + 1e-6]


def _pot(product: Product, held: Sequence[Op], life_s: float | None) -> Pot:
    first_s = held[0].start_s
    mixed_s = first_s - product.induction_s
    return Pot(
        product=product.name,
        stir_s=mixed_s - product.stirring_s,
        mixed_s=mixed_s,
        ready_s=first_s,
        good_until_s=None if life_s is None else mixed_s + life_s,
        units=tuple(dict.fromkeys(op.unit for op in held)),
        first_s=first_s,
        last_s=max(op.end_s for op in held),
        stirring_s=product.stirring_s,
    )
