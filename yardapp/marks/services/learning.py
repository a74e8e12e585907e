"""What the register teaches about a table: proposed with the evidence, taken over by a person alone."""

from __future__ import annotations  # gear and marks call each other: names of gear are looked up when used

from collections.abc import Sequence
from dataclasses import dataclass, replace

from sqlalchemy import select
from sqlalchemy.orm import Session

from yardapp.db import now
from yardapp.errors import NotFound
from yardapp.gear import services as gear
from yardapp.marks.models import Mark
from yardapp.marks.services.reading import measured_of
from yardapp.marks.services.tables import TablePage, table_page
from yardapp.people.services import Who
from yardapp.stamps.tables import (
    Entry,
    Lookup,
    Meaning,
    Observation,
    Proposal,
    Run,
    Source,
    Table,
    compile_table,
    learn,
)


@dataclass(frozen=True, kw_only=True)
class Learned:
    """One table, and what the measured propellers of the register propose for it."""

    table: TablePage
    proposals: Sequence[Proposal]

    def named(self, place: int, code: str) -> Proposal:
        """The proposal for that code at that place.

        Raises
        ------
        NotFound
            The register does not propose it any more.
        """
        found = next((one for one in self.proposals if (one.place, one.code) == (place, code)), None)
        if found is None:
            raise NotFound("The register proposes that no longer.")
        return found


def learned(session: Session, who: Who, table_id: int) -> Learned:
    """Proposals from every propeller of which something is measured and a mark is known. Nothing is changed.

    Raises
    ------
    NotFound
        There is no such table.
    """
    page = table_page(session, who, table_id)
    rows = session.execute(select(Mark.seen, gear.Item).join(gear.Item, gear.Item.id == Mark.item_id).order_by(Mark.id))
    seen = {(mark, item.tag): item for mark, item in rows}
    observations = [Observation(mark, measured_of(item), tag) for (mark, tag), item in seen.items()]
    compiled = compile_table(page.newest.table, is_checked=True)
    return Learned(table=page, proposals=learn([one for one in observations if one.measured], compiled))


def with_proposal(table: Table, proposal: Proposal) -> Table:
    """The table with one proposal in it, for a person to look over and keep."""
    place = table.places[proposal.place]
    changed = replace(place, meaning=_meaning(place.meaning, proposal))
    return replace(table, places=(*table.places[: proposal.place], changed, *table.places[proposal.place + 1 :]))


def _meaning(before: Meaning, proposal: Proposal) -> Meaning:
    if proposal.run is not None:
        run = proposal.run
        letters = Run(run.first, round(run.value, 4), round(run.step, 4), run.last, run.without, proposal.unit)
        return replace(letters, rounded_to=getattr(before, "rounded_to", None))
    listed = before if isinstance(before, Lookup) else Lookup(unit=proposal.unit)
    source = Source(f"{proposal.count} measured propellers", now().date().isoformat(), ", ".join(proposal.of)[:200])
    new = Entry(proposal.code, proposal.value, source=source)
    kept = [one for one in listed.entries if one.code.upper() != proposal.code]
    return replace(listed, entries=(*kept, new))
