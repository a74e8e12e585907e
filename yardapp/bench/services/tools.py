"""The yard's list of tools: what each is good for, and how well it reads."""

from typing import cast

from sqlalchemy import select
from sqlalchemy.exc import IntegrityError
from sqlalchemy.orm import Session

from yardapp.bench.models import ToolRow
from yardapp.bench.tools import TOOLS, Tool, ToolKind
from yardapp.errors import NotFound, Refused, Superseded
from yardapp.people import services as people
from yardapp.people.services import Who
from yardapp.quantities import exact

LONGEST = {"length": 0.1, "angle": 0.5}  # a ± beyond this is a slip of the finger


def tools(session: Session) -> dict[str, Tool]:
    """Every tool by name: as the yard says, else as it usually is; those out of use too."""
    rows = session.scalars(select(ToolRow).order_by(ToolRow.kind.desc(), ToolRow.name))
    return TOOLS | {row.name: _tool(row) for row in rows}


def _tool(row: ToolRow) -> Tool:
    return Tool(
        name=row.name,
        plus_minus=row.plus_minus,
        kind=cast("ToolKind", row.kind),
        is_common=row.is_common,
        source=row.source,
        is_used=row.is_used,
        version=row.version,
    )


def tool_by_name(session: Session, name: str) -> Tool:
    """One tool.

    Raises
    ------
    NotFound
        The list has no tool of that name.
    """
    found = session.scalar(select(ToolRow).where(ToolRow.name == name))
    if found is None and name not in TOOLS:
        raise NotFound(f"The list has no tool called {name}.")
    return _tool(found) if found is not None else TOOLS[name]


def add_tool(
    session: Session,
    who: Who,
    *,
    name: str,
    kind: str,
    plus_minus: float,
    is_common: bool = False,
    source: str = "",
) -> Tool:
    """Put a tool on the list.

    Raises
    ------
    NotAllowed
        Only yard hands and the office change the list.
    Refused
        It has no name or no ±, or the list has one of that name.
    """
    who.must("change")
    name = " ".join(name.split()).lower()[:60]
    if not name:
        raise Refused("What is it called?", "name")
    _must_be_a_reach(plus_minus, kind)
    if name in tools(session):
        raise Refused(f"The list has a {name} already. Call this one by its own name: {name} 2.", "name")
    row = ToolRow(name=name, kind=kind, plus_minus=plus_minus, is_common=is_common, source=source.strip()[:120])
    session.add(row)
    try:
        session.flush()
    except IntegrityError:
        raise Refused(f"Somebody put a {name} on the list at the same moment.", "name") from None
    people.note(session, who, "added a tool", "tool", row.id, name=name, plus_minus=plus_minus)
    return _tool(row)


def _must_be_a_reach(plus_minus: float, kind: str) -> None:
    if kind not in LONGEST:
        raise Refused("Does it read a length or an angle?", "kind")
    if not 0 < plus_minus <= LONGEST[kind]:
        raise Refused("A ± is above zero, and no more than a tool can be off.", "plus_minus")


def change_tool(
    session: Session,
    who: Who,
    name: str,
    version: int,
    *,
    plus_minus: float,
    is_common: bool,
    source: str,
    is_used: bool,
) -> Tool:
    """Say anew how well a tool reads, or take it out of use. Sheets that were kept stay as they are.

    Raises
    ------
    NotAllowed
        Only yard hands and the office change the list.
    NotFound
        The list has no tool of that name.
    Refused
        The ± is none.
    Superseded
        Somebody changed it since `version`.
    """
    who.must("change")
    row = session.scalar(select(ToolRow).where(ToolRow.name == name).with_for_update()) or _first_row(session, name)
    _must_be_a_reach(plus_minus, row.kind)
    said = {"plus_minus": plus_minus, "is_common": is_common, "source": source.strip()[:120], "is_used": is_used}
    if row.version != version and any(getattr(row, field) != value for field, value in said.items()):
        raise Superseded(row.version, _theirs(row), _last_hand(session, row))
    before = row.plus_minus
    for field, value in said.items():
        setattr(row, field, value)
    row.version += 1
    people.note(session, who, "changed a tool", "tool", row.id, name=name, before=before, **said)
    return _tool(row)


def _first_row(session: Session, name: str) -> ToolRow:
    """A usual tool of which the yard says something for the first time."""
    usual = tool_by_name(session, name)
    row = ToolRow(
        name=usual.name,
        kind=usual.kind,
        plus_minus=usual.plus_minus,
        is_common=usual.is_common,
        source=usual.source,
        is_used=usual.is_used,
        version=usual.version,
    )
    session.add(row)
    session.flush()  # the audit names its number
    return row


def _theirs(row: ToolRow) -> dict[str, str]:
    """The record as somebody else saved it, as the boxes of the form write it."""
    return {
        "plus_minus": exact(row.plus_minus, cast("ToolKind", row.kind)),
        "is_common": "yes" if row.is_common else "",
        "source": row.source,
        "is_used": "yes" if row.is_used else "",
    }


def _last_hand(session: Session, row: ToolRow) -> str:
    trail = people.audit_of(session, "tool", row.id, limit=1)
    return trail[0].name if trail else "Somebody"
