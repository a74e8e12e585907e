"""Moments of a timeline in words."""

from collections.abc import Callable, Sequence
from typing import Any

from yardapp.filters import day
from yardapp.gear.figures import FIGURES
from yardapp.gear.showing.figures import BASIS, said_in
from yardapp.gear.showing.history import line_said
from yardapp.quantities import System
from yardapp.timelines import Moment

HAPPENED = {
    "logged": "Entered in the register",
    "changed": "Record changed",
    "got a drive": "Got a drive",
    "moved": "Drive moved",
    "account": "Owner’s account changed",
    "out of use": "Taken out of use",
    "into use": "Taken into use again",
}


def moment_rows(
    moments: Sequence[Moment], system: System, href: Callable[[Moment], str | None], *, is_tagged: bool = True
) -> list[dict[str, Any]]:
    """Each moment as a line of history; `is_tagged` says which thing it happened to."""
    return [
        {
            "when": day(one.at),
            "who": one.said_by,
            "what": f"{one.tag}: {_said(one, system)}" if is_tagged and one.tag else _said(one, system),
            "note": "; ".join(filter(None, (one.note, one.why))),
            "replaced": one.is_replaced,
            "href": href(one),
        }
        for one in moments
    ]


def _said(one: Moment, system: System) -> str:
    if one.strand == "read":
        said = said_in(one.kind, one.value, one.u_value, one.word or None, system)
        label = FIGURES[one.kind].label if one.kind in FIGURES else one.kind.capitalize()
        return f"{label} {said}, {BASIS.get(one.basis, one.basis)}"
    if one.strand == "photo":
        return "Photo"
    if one.strand == "event":
        return line_said(one)
    said = HAPPENED.get(one.kind, one.kind[:1].upper() + one.kind[1:])
    return f"{said}, {one.drive}" if one.drive else said
