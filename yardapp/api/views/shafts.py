"""Shafts: list them, log one, look at one, change its record."""

from yardapp.api.bodies import items as bodies
from yardapp.api.door import Act, changes, creates, reads
from yardapp.api.views import items
from yardapp.gear import services


@reads("/shafts", query=bodies.ItemPage, reply=bodies.Items)
def shafts(act: Act, asked: bodies.ItemPage) -> bodies.Items:
    """Shafts, newest first."""
    return items.page_of(act, "shaft", asked)


@reads("/shafts/{tag}", reply=bodies.Item)
def shaft(act: Act, tag: str) -> bodies.Item:
    """One shaft, with all that the register says of it."""
    return items.shown(act, tag, "shaft")


def _logged(act: Act, key: str) -> bodies.Item:
    return items.shown(act, key, "shaft")


@creates("/shafts", body=bodies.NewShaft, reply=bodies.Item, at="/shafts/{key}", shows=_logged)
def log_shaft(act: Act, said: bodies.NewItem) -> str:
    """Give a shaft a tag; its figures are evidence."""
    statements = items.statements(said, bodies.SHAFT_SIZES, bodies.SHAFT_WORDS)
    items.must_be_there(act, said.came_off_id)
    item = services.log_item(
        act.session,
        act.who,
        *statements,
        kind="shaft",
        place=said.place,
        note=said.note,
        came_off_id=said.came_off_id,
        tag=items.bound(act, "shaft", said.tag),
    )
    return item.tag


@changes("/shafts/{tag}", body=bodies.ItemChange, reply=bodies.Item)
def change_shaft(act: Act, said: bodies.ItemChange, tag: str) -> bodies.Item:
    """Change a shaft's place or note."""
    return items.change(act, said, tag, "shaft")
