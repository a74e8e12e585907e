"""What the register teaches about a table: proposed with the evidence, taken over by a person alone."""

from __future__ import annotations  # gear and marks call each other: names of gear are looked up when used

from collections.abc import Generator, Iterator, Sequence
from contextlib import closing
from dataclasses import dataclass, replace
from itertools import islice

from sqlalchemy import Text, cast, select
from sqlalchemy.orm import Session

from yardapp.db import now
from yardapp.errors import NotFound
from yardapp.gear import services as gear
from yardapp.marks.models import Mark
from yardapp.marks.services.reading import FIGURE_OF, U_COLUMNS, measured_of
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

A_BATCH = 1000
MOST_LOOKED_AT = 20_000  # marks of measured propellers, the newest
MOST_TOLD = 5000  # of these, marks that the table reads


@dataclass(frozen=True, kw_only=True)
class Learned:
    """One table, and what the measured propellers of the register propose for it; `left_out` where it has more."""

    table: TablePage
    proposals: Sequence[Proposal]
    left_out: bool = False

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
    compiled = compile_table(page.newest.table, is_checked=True)
    with closing(_observations(session)) as every:  # the cursor behind it
        observations = _Counted(every)
        proposals = learn(observations, compiled, at_most=MOST_TOLD)
    return Learned(table=page, proposals=proposals, left_out=not observations.is_all)


class _Counted:
    """The newest marks one by one, so many at most; whether those were all is known when they have been looked at."""

    def __init__(self, observations: Iterator[Observation]) -> None:
        self.observations = observations
        self.is_all = False

    def __iter__(self) -> Iterator[Observation]:
        yield from islice(self.observations, MOST_LOOKED_AT)
        self.is_all = next(self.observations, None) is None


def _observations(session: Session) -> Generator[Observation, None, None]:
    """Each mark of a propeller of which something is measured, the newest first, read from the register in batches."""
    columns = [getattr(gear.Item, name) for name in (*FIGURE_OF.values(), *U_COLUMNS)]
    asked = (
        select(Mark.seen, gear.Item.tag, gear.Item.known, *columns)
        .join(gear.Item, gear.Item.id == Mark.item_id)
        .where(cast(gear.Item.known, Text).like('%"measured"%'))
        .order_by(Mark.id.desc())
        .execution_options(yield_per=A_BATCH)
    )
    before = set()
    with session.execute(asked) as rows:
        for row in rows:
            measured = measured_of(row)
            if measured and (row.seen, row.tag) not in before:
                before.add((row.seen, row.tag))
                yield Observation(row.seen, measured, row.tag)


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
