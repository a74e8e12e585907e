"""A pot beside the boat: when it was stirred and mixed, from when it is ready, until when it is good."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from yardapp.coating.system import Product
from yardapp.coating.timing import pot_life_s, span_said
from yardapp.errors import OutsideRange


@dataclass(frozen=True, kw_only=True)
class PotRun:
    """One mix of one product. `mixed_s` None: it is still being stirred. `why`: its life can't be told, and why not."""

    product: str
    stirring_s: float | None = None
    mixed_s: float | None = None
    ready_s: float | None = None
    good_until_s: float | None = None
    batch: str = ""
    volume_m3: float | None = None
    why: str = ""
    is_gone: bool = False
    left_m3: float | None = None
    where: str = ""


def pot_of(pots: Sequence[PotRun], product: str) -> PotRun | None:
    """The newest pot of a product that still stands."""
    return next((pot for pot in reversed(pots) if pot.product == product and not pot.is_gone), None)


def ready_from_s(pots: Sequence[PotRun], product: Product, now_s: float) -> float:
    """From when the product can be ready: its pot stands, is being stirred, or must be begun now."""
    pot = pot_of(pots, product.name)
    if pot is None or (pot.good_until_s is not None and now_s > pot.good_until_s):
        return now_s + product.stirring_s + product.induction_s
    if pot.mixed_s is None:
        begun_s = now_s if pot.stirring_s is None else pot.stirring_s
        return max(now_s, begun_s + product.stirring_s) + product.induction_s
    return now_s if pot.ready_s is None else pot.ready_s


UNREAD = "Nobody had read the weather when it was mixed: its pot life can't be told."


def begun(product: Product, at_s: float) -> PotRun:
    """A pot that somebody has begun to stir."""
    return PotRun(product=product.name, stirring_s=at_s, ready_s=None)


def mixed(pot: PotRun, product: Product, at_s: float, batch: str, volume_m3: float | None) -> PotRun:
    """The same, from the moment at which its parts met (or the stirring was over)."""
    why = UNREAD if product.pot_life else ""
    ready_s = at_s + product.induction_s
    return replace(pot, mixed_s=at_s, ready_s=ready_s, batch=batch or pot.batch, volume_m3=volume_m3, why=why)


def warmed(pot: PotRun, product: Product, at_c: float) -> PotRun:
    """The same after one more reading: the shortest life that any reading asks for holds."""
    if pot.mixed_s is None or not product.pot_life:
        return pot
    try:
        life_s = pot_life_s(product, at_c)
    except OutsideRange:
        said = f"It was at {at_c:.1f} °C; {span_said(product.pot_life)} for the pot. Ask the supplier."
        return replace(pot, why=said)
    if life_s is None:
        return pot
    until_s = pot.mixed_s + life_s
    why = "" if pot.why == UNREAD else pot.why
    return replace(pot, why=why, good_until_s=until_s if pot.good_until_s is None else min(until_s, pot.good_until_s))


@dataclass(frozen=True, kw_only=True)
class PotStanding:
    """One pot: "stirring", "standing" (induction), "ready", "past" its life, or "unknown"."""

    product: str
    state: str
    from_s: float | None
    good_until_s: float | None
    batch: str
    said: str


def pot_standing(pot: PotRun, now_s: float) -> PotStanding:
    """How a pot stands at a moment."""
    state, said = "ready", ""
    if pot.mixed_s is None:
        state = "stirring"
    elif pot.good_until_s is not None and now_s > pot.good_until_s:
        state, said = "past", "Past its pot life: throw it out and mix anew."
    elif pot.why:
        state, said = "unknown", pot.why
    elif pot.ready_s is not None and now_s < pot.ready_s:
        state = "standing"
    from_s = pot.stirring_s if pot.mixed_s is None else pot.ready_s
    return PotStanding(
        product=pot.product, state=state, from_s=from_s, good_until_s=pot.good_until_s, batch=pot.batch, said=said
    )
