"""What a propeller would be stamped, and what the register proposes, in words. No database, no request."""

from collections.abc import Sequence
from dataclasses import dataclass

from yardapp import quantities
from yardapp.marks.services import Learned, Stamped
from yardapp.marks.showing.readings import LABELS
from yardapp.quantities import System
from yardapp.stamps.tables import WouldSay

EXACT_M = 0.0005  # closer than any stamp says


@dataclass(frozen=True)
class StampShown:
    """What one table would strike."""

    table: str
    marks: Sequence[tuple[str, str]]


def stamped(found: Sequence[Stamped], system: System) -> list[StampShown]:
    """Every table, the closest first; beside each mark how far off it is."""
    return [
        StampShown(
            table=f"{one.table.name}, version {one.table.version}",
            marks=[(mark.mark, _off(mark, system)) for mark in one.marks],
        )
        for one in found
    ]


def _off(mark: WouldSay, system: System) -> str:
    said = [
        f"{LABELS[name].lower()} {_length(abs(off), system)} {'more' if off > 0 else 'less'} than asked"
        for name, off in mark.off.items()
        if name.endswith("_m") and abs(off) > EXACT_M
    ]
    untold = [LABELS[name].lower() for name in mark.untold if name in LABELS]
    said += [f"says nothing of the {' and '.join(untold)}"] if untold else []
    return "; ".join([*said, *mark.words]) or "as asked"


def _length(value_m: float, system: System) -> str:
    return quantities.both(value_m, "length", system)


@dataclass(frozen=True)
class ProposalShown:
    """One proposal, with what it rests on; `may_take` where there is a value to take over."""

    place: int
    code: str
    said: str
    of: Sequence[str]
    may_take: bool


def proposals(found: Learned) -> list[ProposalShown]:
    """What the register proposes for a table."""
    return [
        ProposalShown(
            place=one.place,
            code=one.code,
            said=f"{one.said[:1].upper()}{one.said[1:]}.",
            of=tuple(dict.fromkeys(one.of))[:20],
            may_take=one.value is not None,
        )
        for one in found.proposals
    ]
