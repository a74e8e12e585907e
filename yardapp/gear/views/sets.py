"""Parts that come off and go on together."""

import re
from typing import Any

from flask import url_for
from flask.typing import ResponseReturnValue

from yardapp.filters import day
from yardapp.forms import options
from yardapp.gear import services, showing
from yardapp.gear.move_forms import LeaveForm, SetForm
from yardapp.gear.views import bp
from yardapp.gear.views.finding import address_of
from yardapp.web import current_who, filled, kept, page, refused, saving, snapshot

NAMED = {"joined set": "Came in", "left set": "Left"}


@bp.get("/items/<tag>/together")
def keep_page(tag: str) -> ResponseReturnValue:
    """What belongs to it?"""
    with snapshot() as opened:
        item = services.item_by_tag(opened, current_who(), tag)
    return page("gear/keep_page.html", form=filled(SetForm), item=item, back=address_of(item.tag))


@bp.post("/items/<tag>/together")
def keep_together(tag: str) -> ResponseReturnValue:
    """Keep them together."""
    form = filled(SetForm)
    with snapshot() as opened:
        item = services.item_by_tag(opened, current_who(), tag)
    if form.validate():
        with saving(form) as act:
            tags = re.split(r"[\s,;]+", form.tags.data or "")
            made = services.keep_together(act.session, act.who, tag, tags, name=form.name.data or "")
            act.goes_to(url_for("gear.set", set_id=made.id), "They move together from now on.")
        if act.answer:
            return kept(act)
    return refused("gear/keep_page.html", form, item=item, back=address_of(item.tag))


def _shown(set_id: int, form: LeaveForm) -> dict[str, Any]:
    who = current_who()
    with snapshot() as opened:
        found = services.set_page(opened, who, set_id)
    form.tag.choices = options((row.tag, f"{row.tag}, {showing.size_of(row, who.units)}") for row in found.items)
    history = [
        {"when": day(line.at), "who": line.said_by, "what": f"{NAMED[line.kind]}: {tag}", "note": line.note}
        for line, tag in found.lines
    ]
    rows = [showing.listed(row, who.units, address_of(row.tag)) for row in found.items]
    return {"found": found, "rows": rows, "history": history, "form": form}


@bp.get("/sets/<int:set_id>")
def set(set_id: int) -> ResponseReturnValue:  # noqa: A001 - a view is called as its page is
    """One set."""
    return page("gear/set.html", **_shown(set_id, filled(LeaveForm)))


@bp.post("/sets/<int:set_id>/leave")
def leave_set(set_id: int) -> ResponseReturnValue:
    """Take one out."""
    form = filled(LeaveForm)
    shown = _shown(set_id, form)
    if form.validate():
        with saving(form) as act:
            services.leave_set(act.session, act.who, form.tag.data, why=form.why.data or "")
            act.goes_to(url_for("gear.set", set_id=set_id), f"{form.tag.data} goes its own way now.")
        if act.answer:
            return kept(act)
    return refused("gear/set.html", **shown)
