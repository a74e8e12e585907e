"""Tags on labels and in lists."""

from collections.abc import Callable, Sequence
from typing import Any

from yardapp.gear.figures import KINDS
from yardapp.gear.services import BinRow, Labelled


def label_lines(one: Labelled, yard: str, address: str) -> tuple[str, ...]:
    """What stands below the tag; a blank one leaves a line to write on."""
    about = KINDS[one.kind].label if one.is_blank or not one.stamp else one.stamp
    return (about, yard, address.partition("://")[2])


def bin_label(one: BinRow, yard: str, address: str) -> tuple[str, tuple[str, ...], str]:
    """A bin's label: `C 7`, or `S 1/7` with a shelf, to be read from afar; the same in words; the address."""
    at = f"{one.shelf}/{one.bin}" if one.shelf else one.bin
    return f"{one.rack} {at}", (one.label, yard, address.partition("://")[2]), address


def blank_rows(free: Sequence[Labelled], href: Callable[[str], str]) -> list[dict[str, Any]]:
    """Tags that wait to be hung on something, each row of numbers as one line that leads to printing it."""
    rows = []
    for run in _runs(free):
        kind, count = KINDS[run[0].kind], len(run)
        said = f"{run[0].tag} to {run[-1].tag}" if count > 1 else run[0].tag
        for_what = f"{count} for {kind.plural.lower()}" if count > 1 else f"for a {kind.label.lower()}"
        rows.append({"tag": said, "href": href(said), "size": for_what, "where": "print again", "count": count})
    return rows


def _runs(free: Sequence[Labelled]) -> list[list[Labelled]]:
    """Tags whose numbers follow each other, together."""
    runs: list[list[Labelled]] = []
    for one in free:
        if runs and _follows(runs[-1][-1].tag, one.tag):
            runs[-1].append(one)
        else:
            runs.append([one])
    return runs


def _follows(one: str, other: str) -> bool:
    (letter, number), (next_letter, next_number) = one.split("-"), other.split("-")
    return letter == next_letter and int(next_number) == int(number) + 1
