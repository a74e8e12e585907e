"""Racks, bins and what is away, in the words of a page."""

from collections.abc import Callable, Sequence
from datetime import date
from typing import Any

from yardapp.filters import day
from yardapp.gear.services import Away, BinRow
from yardapp.gear.showing.lists import size_of
from yardapp.quantities import System


def rack_shown(name: str, bins: Sequence[BinRow], href: Callable[[BinRow], str]) -> dict[str, Any]:
    """One rack, shelf by shelf: its bins and what is in each."""
    shelves: dict[str, list[dict[str, str]]] = {}
    for one in bins:
        shelves.setdefault(one.shelf, []).append({"bin": one.bin, "said": _in(one), "href": href(one)})
    count = sum(one.count for one in bins)
    free = sum(one.count == 0 for one in bins)
    return {
        "name": name,
        "label": bins[0].label.split(",")[0],
        "shelves": [{"label": f"Shelf {shelf}" if shelf else "", "bins": row} for shelf, row in shelves.items()],
        "said": f"{count} thing{'' if count == 1 else 's'} in {len(bins)} bins, {free} empty",
    }


def _in(one: BinRow) -> str:
    more = f" +{one.count - 1}" if one.count > 1 else ""
    return f"{one.first_tag}{more}" if one.count else ""


def away_shown(one: Away, system: System, href: str) -> dict[str, Any]:
    """One thing that is to come back: where it is, since when, how late."""
    due = f"expected {day(one.due_on)}" if one.due_on else "nobody said when"
    chased = f"; asked after {day(one.chased)}" if one.chased else ""
    return {
        "tag": one.item.tag,
        "href": href,
        "size": size_of(one.item, system),
        "where": f"{one.item.where} since {day(one.since)}; {due}{chased}",
        "flag": days_late(one.days_late),
    }


def days_late(count: int) -> str:
    """`6 days late`; nothing for what is in time."""
    return f"{count} day{'' if count == 1 else 's'} late" if count > 0 else ""


def late_said(due_on: date | None, today: date) -> str:
    """What stands behind the day on which a thing is expected back."""
    late = days_late((today - due_on).days) if due_on else ""
    return f", {late}" if late else ""
