"""What is said of an item afterwards: one more statement, a move, work that changed it."""

from dataclasses import replace
from typing import Any

from yardapp.api.bodies import happenings as bodies
from yardapp.api.bodies import items as item_bodies
from yardapp.api.door import Act, creates, reads
from yardapp.api.views import items
from yardapp.errors import NotFound, Refused
from yardapp.gear import services


def _propeller(act: Act, key: str, tag: str) -> item_bodies.Item:
    return items.shown(act, key, "propeller")


def _shaft(act: Act, key: str, tag: str) -> item_bodies.Item:
    return items.shown(act, key, "shaft")


def _either(act: Act, key: str, tag: str) -> item_bodies.Item:
    found = services.item_by_tag(act.session, act.who, key)  # of a thing logged twice, the one that was kept
    return items.shown(act, found.tag, found.kind)


@creates(
    "/propellers/{tag}/evidence",
    body=bodies.PropellerStatements,
    reply=item_bodies.Item,
    at="/propellers/{key}",
    shows=_propeller,
)
def add_propeller_evidence(act: Act, said: bodies.PropellerStatementWords, tag: str) -> str:
    """Say one or more figures of a propeller; the working figures follow from all that is said."""
    found = services.item_by_tag(act.session, act.who, tag, kind="propeller")
    return _said(act, found, said, item_bodies.PROPELLER_SIZES, item_bodies.PROPELLER_WORDS)


@creates(
    "/shafts/{tag}/evidence", body=bodies.ShaftStatements, reply=item_bodies.Item, at="/shafts/{key}", shows=_shaft
)
def add_shaft_evidence(act: Act, said: bodies.StatementWords, tag: str) -> str:
    """Say one or more figures of a shaft; the working figures follow from all that is said."""
    found = services.item_by_tag(act.session, act.who, tag, kind="shaft")
    return _said(act, found, said, item_bodies.SHAFT_SIZES, item_bodies.SHAFT_WORDS)


def _said(act: Act, found: services.Item, said: Any, sizes: Any, words: Any) -> str:
    statements = items.statements(said, sizes, words)
    if not statements:
        raise Refused("Nothing was said. Send at least one figure.")
    services.note_evidence(act.session, act.who, found.tag, *(replace(one, note=said.note) for one in statements))
    return found.tag


@reads("/items/{tag}", reply=item_bodies.Item)
def item(act: Act, tag: str) -> item_bodies.Item:
    """Whatever carries this tag, a propeller or a shaft."""
    return _either(act, tag, tag)


@creates("/items/{tag}/moves", body=bodies.Move, reply=item_bodies.Item, at="/items/{key}", shows=_either)
def move_item(act: Act, said: bodies.Move, tag: str) -> str:
    """Put an item on a drive, take it off to a place, or write down that it is gone."""
    services.item_by_tag(act.session, act.who, tag)
    if said.drive_id is not None and said.kind != "went on":
        raise Refused("Only what went on a boat has one.", "drive_id")
    try:
        moved = services.move_item(
            act.session,
            act.who,
            tag,
            said.kind,
            place=said.place or "",
            drive_id=said.drive_id,
            at=said.at,
            due_on=said.due_on,
            note=said.note,
            is_alone=said.is_alone,
        )
    except NotFound as refusal:
        raise Refused(str(refusal), "drive_id") from None
    return moved.tag


@creates("/propellers/{tag}/work", body=bodies.Work, reply=item_bodies.Item, at="/propellers/{key}", shows=_propeller)
def record_work(act: Act, said: bodies.WorkWords, tag: str) -> str:
    """Write down work that changed a propeller; what was read before it no longer speaks."""
    found = services.item_by_tag(act.session, act.who, tag, kind="propeller")
    statements = items.statements(said, bodies.WORK_SIZES, ())
    bill = services.Bill(by_whom=said.by_whom, cost=said.cost)
    services.record_work(
        act.session,
        act.who,
        found.tag,
        said.kind,
        *statements,
        found=_as_found(said),
        at=said.at,
        note=said.note,
        bill=bill,
    )
    return found.tag


def _as_found(said: bodies.WorkWords) -> list[services.Said]:
    if said.found is None:
        return []
    told = items.figures_said(said.found, bodies.WORK_SIZES, "found.")
    return [
        services.Said(what=name, basis=said.basis, value=one.value, u_value=one.u, typed=one.typed)
        for name, one in told.items()
    ]
