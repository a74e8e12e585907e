"""When what is seen is not what the register has under a tag: what differs, and since when it may. No database here."""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from yardapp.gear.working import K, Statement, still_said
from yardapp.stamps import normalise

# How well a thing is looked at on the spot: a tape across, a yard's scales (k = 1). Common practice, no source.
U_SEEN = {"diameter_m": 0.0025, "mass_kg": 0.05}
ASKED = ("hand", "blades", "diameter_m", "mass_kg", "stamp")


@dataclass(frozen=True, kw_only=True)
class Seen:
    """What somebody sees at the thing that bears a tag; what was not looked at is None."""

    hand: str | None = None
    blades: int | None = None
    diameter_m: float | None = None
    mass_kg: float | None = None
    stamp: str = ""

    @property
    def is_empty(self) -> bool:
        """Whether nothing was looked at."""
        return all(getattr(self, what) in (None, "") for what in ASKED)


@dataclass(frozen=True, kw_only=True)
class Difference:
    """One thing that is seen otherwise than the register has it."""

    what: str
    seen: Any
    has: Any


def differences(seen: Seen, item: Any) -> list[Difference]:
    """What is seen otherwise; what either side does not know is no difference."""
    pairs = [(what, getattr(seen, what), getattr(item, what)) for what in ASKED]
    return [
        Difference(what=what, seen=ours, has=theirs)
        for what, ours, theirs in pairs
        if ours not in (None, "") and theirs not in (None, "") and _differ(what, ours, theirs, item)
    ]


def agreements(seen: Seen, item: Any) -> list[str]:
    """What was looked at and is as the register has it."""
    apart = {one.what for one in differences(seen, item)}
    looked = [what for what in ASKED if getattr(seen, what) not in (None, "") and getattr(item, what) not in (None, "")]
    return [what for what in looked if what not in apart]


def _differ(what: str, ours: Any, theirs: Any, item: Any) -> bool:
    if what == "stamp":
        return bool(normalise(ours) != normalise(theirs))
    if what not in U_SEEN:
        return bool(ours != theirs)
    u = math.hypot(U_SEEN[what], getattr(item, f"u_{what}") or U_SEEN[what])
    return bool(abs(ours - theirs) > K * u)


def last_agreed(apart: Sequence[Difference], statements: Iterable[Statement], logged: datetime) -> datetime:
    """When one of the things that differ was last read as the register has it; else when the tag was given.

    Nothing is known of the time after: since then the tags may have crossed.
    """
    whats = {one.what for one in apart}
    read = [
        row.true_from or row.at
        for row in still_said(statements)
        if row.what in whats and row.basis in ("measured", "stamped")
    ]
    return max(read, default=logged)
