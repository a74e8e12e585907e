"""A nut, a key, an anode in the hand: each kind has a page with its own few boxes."""

from typing import Any

from flask import request
from flask.typing import ResponseReturnValue

from yardapp.errors import NotFound
from yardapp.gear import services
from yardapp.gear.figures import KINDS, PARTS, figures_of
from yardapp.gear.part_forms import part_form
from yardapp.gear.views import bp
from yardapp.gear.views.finding import address_of
from yardapp.gear.views.logging import boats_to_choose
from yardapp.pictures import bring_photo
from yardapp.web import current_who, filled, kept, page, refused, saving


@bp.get("/log/part")
def choose_part() -> ResponseReturnValue:
    """Which kind of part is it?"""
    current_who().must("propose")
    return page("gear/log_part.html", kinds=[(kind, KINDS[kind]) for kind in PARTS])


def _form(kind: str) -> Any:
    if kind not in PARTS:
        raise NotFound(f"There is no kind of part called {kind}.")
    form = filled(part_form(kind))
    boats_to_choose(form)
    return form


def _shown(kind: str) -> dict[str, Any]:
    return {"kind": kind, "label": KINDS[kind].label, "names": [figure.name for figure in figures_of(kind)]}


@bp.get("/log/<kind>")
def log_part_page(kind: str) -> ResponseReturnValue:
    """A part in the hand."""
    form = _form(kind)
    form["came_off_id"].data = request.args.get("off", "")
    form["with_tag"].data, form["tag"].data = request.args.get("with", "")[:20], request.args.get("tag", "")[:20]
    return page("gear/log_part_page.html", form=form, **_shown(kind))


@bp.post("/log/<kind>")
def log_part(kind: str) -> ResponseReturnValue:
    """Give it a tag."""
    form = _form(kind)
    is_fine, picture = form.validate(), bring_photo(form)
    if is_fine and not form.photo.errors:
        readings = form.readings()
        for unsaved in ("photo", "photo_kept"):
            readings.pop(unsaved, None)
        with saving(form) as act:
            item = services.log_part(act.session, act.who, kind=kind, picture=picture, **readings)
            act.goes_to(address_of(item.tag), f"Saved. It is {item.tag} now: mark it so.")
        if act.answer:
            return kept(act)
    return refused("gear/log_part_page.html", form, **_shown(kind))
