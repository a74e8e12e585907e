"""Tags that may have crossed, in the words of a page."""

from typing import Any

from yardapp import quantities
from yardapp.filters import day
from yardapp.gear.crossed import ASKED
from yardapp.gear.figures import FIGURES, KINDS
from yardapp.gear.services import Doubt, Item
from yardapp.quantities import System


def _label(what: str) -> str:
    return "Stamp" if what == "stamp" else FIGURES[what].label


def _said(what: str, value: Any, system: System) -> str:
    if value in (None, ""):
        return "not known"
    if what == "stamp" or FIGURES[what].is_word:
        return str(value)
    return quantities.show(float(value), FIGURES[what].kind, system)


def doubt_shown(doubt: Doubt, system: System) -> dict[str, Any]:
    """What differs, side by side, and since when the tags may have crossed."""
    return {
        "rows": [
            (_label(one.what), _said(one.what, one.seen, system), _said(one.what, one.has, system))
            for one in doubt.apart
        ],
        "agreed": [_label(what).lower() for what in doubt.agreed],
        "since": day(doubt.since),
    }


def side_shown(item: Item, system: System) -> dict[str, Any]:
    """What the register has under one tag."""
    where = "on a boat" if item.standing == "aboard" else item.place
    rows = [(_label(what), _said(what, getattr(item, what), system)) for what in ASKED]
    return {"tag": item.tag, "kind": KINDS[item.kind].label, "rows": [*rows, ("Where", where)]}
