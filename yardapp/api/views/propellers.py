"""Propellers: list them, log one, look at one, change its record."""

from yardapp.api.bodies import items as bodies
from yardapp.api.door import Act, changes, creates, reads
from yardapp.api.views import items
from yardapp.gear import services
from yardapp.marks import services as marks


@reads("/propellers", query=bodies.ItemPage, reply=bodies.Items)
def propellers(act: Act, asked: bodies.ItemPage) -> bodies.Items:
    """Propellers, newest first."""
    return items.page_of(act, "propeller", asked)


@reads("/propellers/{tag}", reply=bodies.Item)
def propeller(act: Act, tag: str) -> bodies.Item:
    """One propeller, with all that the register says of it."""
    return items.shown(act, tag, "propeller")


def _logged(act: Act, key: str) -> bodies.Item:
    return items.shown(act, key, "propeller")


@creates("/propellers", body=bodies.NewPropeller, reply=bodies.Item, at="/propellers/{key}", shows=_logged)
def log_propeller(act: Act, said: bodies.PropellerWords) -> str:
    """Give a propeller a tag; its figures are evidence, its stamp is read on the spot."""
    statements = items.statements(said, bodies.PROPELLER_SIZES, bodies.PROPELLER_WORDS)
    items.must_be_there(act, said.came_off_id)
    item = services.log_item(
        act.session,
        act.who,
        *statements,
        kind="propeller",
        place=said.place,
        note=said.note,
        came_off_id=said.came_off_id,
        tag=items.bound(act, "propeller", said.tag),
    )
    if said.stamp.strip():
        marks.record_mark(act.session, act.who, item, said.stamp)
    return item.tag


@changes("/propellers/{tag}", body=bodies.ItemChange, reply=bodies.Item)
def change_propeller(act: Act, said: bodies.ItemChange, tag: str) -> bodies.Item:
    """Change a propeller's place or note."""
    return items.change(act, said, tag, "propeller")
