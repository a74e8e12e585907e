"""Have we seen this one? One thing held beside another: what speaks for their being the same. No database here."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from yardapp.gear.working import K
from yardapp.stamps import normalise

# A size without a ± is looked for this far round it: a stamp is in whole units. Common practice, no source.
U_UNKNOWN = 0.01
SAME = ("hand", "blades")
# What work does not change, and what it may: a propeller is re-pitched and bored, its diameter is rarely cut.
SIZES = ("diameter_m", "pitch_m", "bore_large_m")
LIKELY = 3


@dataclass(frozen=True, kw_only=True)
class Likeness:
    """What speaks for two things being one, and what has changed if they are."""

    agreed: Sequence[str]
    changed: Sequence[str]
    is_serial: bool
    weight: int

    @property
    def is_likely(self) -> bool:
        """Whether somebody should look."""
        return self.is_serial or self.weight >= LIKELY


def reach_of(value: float, u: float | None) -> float:
    """How far from a size another may lie and still be the same, for one side's ± alone."""
    return K * (u if u is not None else U_UNKNOWN * value)


def agree(what: str, one: Any, other: Any) -> bool | None:
    """Whether two working figures agree within their ±; None where a side does not know it."""
    ours, theirs = getattr(one, what), getattr(other, what)
    if ours is None or theirs is None:
        return None
    if what in SAME:
        return bool(ours == theirs)
    reach = math.hypot(reach_of(ours, getattr(one, f"u_{what}")), reach_of(theirs, getattr(other, f"u_{what}")))
    return bool(abs(ours - theirs) <= reach)


def likeness(one: Any, other: Any, *, is_serial: bool = False) -> Likeness | None:
    """What speaks for it; None where something that work does not change speaks against it.

    A serial number outweighs every size: those are read wrongly more often than a row of stamped figures.
    """
    found = {what: agree(what, one, other) for what in (*SAME, *SIZES)}
    if not is_serial and any(found[what] is False for what in (*SAME, "diameter_m")):
        return None
    agreed = [what for what, does in found.items() if does]
    if one.stamp and normalise(one.stamp) == normalise(other.stamp):
        agreed.append("stamp")
    weight = sum(what in (*SIZES, "stamp") for what in agreed) + ("hand" in agreed and "blades" in agreed)
    changed = [what for what, does in found.items() if does is False]
    return Likeness(agreed=agreed, changed=changed, is_serial=is_serial, weight=weight)
