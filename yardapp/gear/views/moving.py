"""Where a thing goes from here, and a wrong move undone."""

from collections.abc import Sequence
from typing import Any

from flask.typing import ResponseReturnValue

from yardapp.errors import NotFound
from yardapp.filters import day
from yardapp.forms import options
from yardapp.gear import services, showing
from yardapp.gear.move_forms import MOVE_WORDS, MoveForm, UndoForm
from yardapp.gear.views import bp
from yardapp.gear.views.finding import address_of
from yardapp.gear.whereabouts import moves_from
from yardapp.web import current_who, filled, kept, page, refused, saving, snapshot


def _move_form(tag: str) -> tuple[MoveForm, dict[str, Any]]:
    """The form with the moves that can be made from where it is; the thing, and what lies together with it."""
    form = filled(MoveForm)
    with snapshot() as opened:
        item, rest = services.set_mates(opened, current_who(), tag)
        has_boat = item.standing in ("here", "aboard")
        drives = services.drive_choices(opened, current_who()) if has_boat else []
    form.drive_id.choices = options([("", "choose a boat"), *((str(number), label) for number, label in drives)])
    form.kind.choices = _kinds(item)
    if not rest:
        del form["is_alone"]
    aboard = dict(drives).get(item.aboard_id or 0, "a boat")
    return form, {"item": item, "rest": rest, "aboard": aboard, "back": address_of(item.tag)}


def _kinds(item: services.Item, also: str | None = None) -> Sequence[Any]:
    """What may follow where it is, and what was chosen all the same."""
    may = moves_from(item.standing)
    return options((kind, said) for kind, said in MOVE_WORDS.items() if kind in may or kind == also)


@bp.get("/items/<tag>/move")
def move_page(tag: str) -> ResponseReturnValue:
    """Where it goes from here."""
    form, shown = _move_form(tag)
    return page("gear/move_page.html", form=form, **shown)


@bp.post("/items/<tag>/move")
def move_item(tag: str) -> ResponseReturnValue:
    """Move it, and what belongs to it."""
    form, shown = _move_form(tag)
    # A move that can't be is refused with the reason, not as a choice.
    form.kind.choices = _kinds(shown["item"], also=form.kind.data)
    if form.validate():
        with saving(form) as act:
            said = form.readings()
            at = services.noon_of(said.pop("done_on"))
            services.move_item(act.session, act.who, tag, at=at, **said)
            act.goes_to(shown["back"], "Moved.")
        if act.answer:
            return kept(act)
    return refused("gear/move_page.html", form, **shown)


def _wrong(tag: str, event_id: int) -> tuple[services.Item, str]:
    """The item, and the move in words."""
    with snapshot() as opened:
        found = services.item_page(opened, current_who(), tag)
    line = next((one for one in found.events if one.id == event_id), None)
    if line is None:
        raise NotFound("There is no such move on this page.")
    return found.item, f"{showing.event_said(found, line)}, {day(line.at)}, written by {line.said_by}"


@bp.get("/items/<tag>/moves/<int:event_id>/undo")
def undo_page(tag: str, event_id: int) -> ResponseReturnValue:
    """Undo a wrong move."""
    item, said = _wrong(tag, event_id)
    return page("gear/undo_page.html", form=filled(UndoForm), item=item, said=said, back=address_of(item.tag))


@bp.post("/items/<tag>/moves/<int:event_id>/undo")
def undo_move(tag: str, event_id: int) -> ResponseReturnValue:
    """Undo it; the line stays in the history, struck through."""
    form = filled(UndoForm)
    item, said = _wrong(tag, event_id)
    if form.validate():
        with saving(form) as act:
            moved = services.undo_move(act.session, act.who, event_id, why=form.why.data or "")
            where = "on a boat" if moved.standing == "aboard" else moved.place
            act.goes_to(address_of(item.tag), f"Undone. {moved.tag} is {where} again.")
        if act.answer:
            return kept(act)
    return refused("gear/undo_page.html", form, item=item, said=said, back=address_of(item.tag))
