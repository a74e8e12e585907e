"""An item's own page, its record, and an owner's proposal."""

from collections.abc import Callable

from flask import redirect, url_for
from flask.typing import ResponseReturnValue

from yardapp.db import now
from yardapp.errors import Refused
from yardapp.gear import forms, services, showing
from yardapp.gear.figures import KINDS
from yardapp.gear.views import bp
from yardapp.gear.views.finding import address_of
from yardapp.web import current_who, filled, kept, page, refused, saving, snapshot

SHOWN = 100  # lines of history on a thing's own page; the rest stands on its timeline


def _page_of(kind: str) -> Callable[[str], ResponseReturnValue]:
    """The page of one kind of thing: drawing, working figures, evidence, history."""
    return lambda tag: _item(tag, kind)


# Every kind has addresses of its own; a label that was printed must answer for ever.
for name, one in KINDS.items():
    bp.add_url_rule(f"/{one.plural.lower().replace(' ', '-')}/<tag>", name, _page_of(name), methods=["GET"])


def _item(tag: str, kind: str) -> ResponseReturnValue:
    who = current_who()
    with snapshot() as opened:
        found = services.item_page(opened, who, tag, kind, newest=SHOWN)
    if found.kept_tag:
        return redirect(address_of(found.kept_tag), code=302)

    def href(what: str) -> str:
        return url_for("gear.figure", tag=found.item.tag, what=what)

    def gap_href(what: str) -> str | None:
        sheet = showing.ON_SHEETS.get(kind, {}).get(what) if who.may("record") else None
        return url_for(f"bench.{sheet}_sheet", tag=found.item.tag) if sheet else None

    def undo(line: services.Line) -> str | None:
        return url_for("gear.undo_page", tag=found.item.tag, event_id=line.id) if who.may("record") else None

    return page(
        "gear/item.html",
        found=found,
        kind=KINDS[kind],
        glance=showing.part_glance(found.item, who.units) or "not measured yet",
        rows=showing.figure_rows(found, who.units, href, gap_href),
        drawing=showing.picture_of(found, who.units),
        drawing_rows=showing.picture_rows(found, who.units) if kind == "propeller" else [],
        history=showing.history_rows(found, undo),
        worked_out=showing.worked_out(found),
        doubtful={line.id: said for line in found.photos if (said := showing.possibly_of(found, line))},
        late=showing.late_said(found.item.due_on, now().date()),
        two_ways=showing.seen_two_ways(found),
        other_tags=sorted({line.tag for line in found.lines} - {found.item.tag, ""}),
        plain=filled(forms.PlainForm),
        photo=filled(forms.PhotoForm),
    )


@bp.get("/items/<tag>/change")
def change_page(tag: str) -> ResponseReturnValue:
    """The record itself."""
    with snapshot() as opened:
        item = services.item_by_tag(opened, current_who(), tag)
    return page("gear/change_page.html", form=filled(forms.ChangeForm, item), item=item, back=address_of(item.tag))


@bp.post("/items/<tag>/change")
def change_item(tag: str) -> ResponseReturnValue:
    """Save the record, unless somebody else did meanwhile."""
    form = filled(forms.ChangeForm)
    if form.validate():
        with saving(form) as act:
            said = form.readings()
            services.change_item(act.session, act.who, tag, form.version.data or 0, **said)
            act.goes_to(address_of(tag), "Saved.")
        if act.answer:
            return kept(act)
    with snapshot() as opened:
        item = services.item_by_tag(opened, current_who(), tag)
    return refused("gear/change_page.html", form, item=item, back=address_of(tag))


@bp.post("/items/<tag>/accept")
def accept_proposal(tag: str) -> ResponseReturnValue:
    """Take an owner's proposal into the register."""
    form = filled(forms.PlainForm)
    if not form.validate():
        form.tell(Refused("Open the page again, then accept."))
        return refused("yard/no.html", form, heading="Not accepted", said=form.overall[0], status=422)
    with saving(form) as act:
        services.accept_proposal(act.session, act.who, tag)
        act.goes_to(address_of(tag), "It is in the register now.")
    return kept(act)
