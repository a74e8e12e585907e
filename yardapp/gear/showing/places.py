"""Racks, bins and what is away, in the words of a page."""

from collections.abc import Callable, Sequence
from typing import Any

from yardapp.filters import day
from yardapp.gear.services import Away, BinRow
from yardapp.gear.showing.lists import size_of
from yardapp.quantities import System

Cell = str | tuple[str, str]


def rack_shown(name: str, bins: Sequence[BinRow], href: Callable[[BinRow], str]) -> dict[str, Any]:
    """One rack as a table: shelves down, bins across, what is in each."""
    numbers = list(dict.fromkeys(one.bin for one in bins))
    shelves = list(dict.fromkeys(one.shelf for one in bins))
    at = {(one.shelf, one.bin): one for one in bins}
    rows: list[list[Cell]] = [
        [f"Shelf {shelf}" if shelf else "Bins", *(_cell(at.get((shelf, number)), href) for number in numbers)]
        for shelf in shelves
    ]
    count = sum(one.count for one in bins)
    free = sum(one.count == 0 for one in bins)
    return {
        "name": name,
        "label": bins[0].label.split(",")[0],
        "heads": ["", *(f"Bin {number}" for number in numbers)],
        "rows": rows,
        "said": f"{count} thing{'' if count == 1 else 's'} in {len(bins)} bins, {free} empty",
    }


def _cell(one: BinRow | None, href: Callable[[BinRow], str]) -> Cell:
    if one is None:
        return ""
    more = f" +{one.count - 1}" if one.count > 1 else ""
    return (f"{one.first_tag}{more}" if one.count else "empty", href(one))


def away_shown(one: Away, system: System, href: str) -> dict[str, Any]:
    """One thing that is to come back: where it is, since when, how late."""
    due = f"expected {day(one.due_on)}" if one.due_on else "nobody said when"
    chased = f"; asked after {day(one.chased)}" if one.chased else ""
    days = f"{one.days_late} day{'' if one.days_late == 1 else 's'} late"
    return {
        "tag": one.item.tag,
        "href": href,
        "size": size_of(one.item, system),
        "where": f"{one.item.where} since {day(one.since)}; {due}{chased}",
        "flag": days if one.days_late else "",
    }
