"""Things held beside one another, in words."""

from typing import Any

from yardapp.filters import day
from yardapp.gear.figures import FIGURES
from yardapp.gear.services import Lookalike, Pictured
from yardapp.gear.showing.lists import listed
from yardapp.quantities import System

OVER = ("sold", "scrapped")  # on a day; lost and stolen since one
NAMES = {"stamp": "stamp", "hand": "hand", "blades": "blades"}


def pictured(one: Pictured, system: System, href: str) -> dict[str, Any]:
    """One of a grid of photos."""
    return {**listed(one.row, system, href), "photo": one.photo}


def lookalike_shown(one: Lookalike, system: System, href: str) -> dict[str, Any]:
    """One that may be the same: why, and where the register has it since when."""
    word = "on" if one.row.standing in OVER else "since"
    since = f" {word} {day(one.since)}" if one.since else ""
    like = one.like
    agreed = [*(["serial number"] if like.is_serial else []), *(_name(what) for what in like.agreed)]
    return {
        **pictured(one, system, href),
        "agreed": ", ".join(agreed),
        "changed": ", ".join(_name(what) for what in like.changed),
        "stands": f"{one.row.where or one.row.standing}{since}",
        "is_gone": one.is_gone,
        "is_likely": like.is_likely,
        "stamp": one.row.stamp,
    }


def _name(what: str) -> str:
    return NAMES.get(what) or FIGURES[what].label.lower()
