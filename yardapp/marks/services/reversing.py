"""What a propeller would be stamped, so that one can look for the mark on a heap."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from sqlalchemy.orm import Session

from yardapp.marks.services.shelf import shelf_now
from yardapp.people.services import Who
from yardapp.stamps.tables import Table, WouldSay, reverse

MOST_EACH = 3


@dataclass(frozen=True, kw_only=True)
class Stamped:
    """What one table would strike, closest first."""

    table: Table
    version_id: int
    marks: Sequence[WouldSay]


def would_be_stamped(session: Session, who: Who, wanted: Mapping[str, float | int | str]) -> list[Stamped]:
    """What each table in use would strike on such a propeller; tables that can say none of it are left out.

    Raises
    ------
    NotAllowed
        Owners don't see the yard's tables.
    """
    who.must("see")
    found = []
    for compiled in shelf_now(session):
        marks = reverse(compiled, wanted, at_most=MOST_EACH)
        if marks and isinstance(compiled.key, int):
            found.append(Stamped(table=compiled.table, version_id=compiled.key, marks=marks))
    return sorted(found, key=lambda one: (len(one.marks[0].untold), sum(map(abs, one.marks[0].off.values()))))
