"""An item's own page, and what is done to it from there."""

from flask import url_for
from flask.typing import ResponseReturnValue

from yardapp.errors import Refused
from yardapp.forms import options
from yardapp.gear import forms, services, showing
from yardapp.gear.views import bp
from yardapp.gear.views.finding import address_of
from yardapp.web import current_who, filled, kept, page, refused, saving, snapshot


@bp.get("/propellers/<tag>")
def propeller(tag: str) -> ResponseReturnValue:
    """A propeller: drawing, working figures, evidence, history."""
    return _item(tag, "propeller")


@bp.get("/shafts/<tag>")
def shaft(tag: str) -> ResponseReturnValue:
    """A shaft: working figures, evidence, history."""
    return _item(tag, "shaft")


def _item(tag: str, kind: str) -> ResponseReturnValue:
    who = current_who()
    with snapshot() as opened:
        found = services.item_page(opened, who, tag, kind)

    def href(what: str) -> str:
        return url_for("gear.figure", tag=found.item.tag, what=what)

    def gap_href(what: str) -> str | None:
        sheet = showing.ON_SHEETS[kind].get(what) if who.may("record") else None
        return url_for(f"bench.{sheet}_sheet", tag=found.item.tag) if sheet else None

    return page(
        "gear/item.html",
        found=found,
        rows=showing.figure_rows(found, who.units, href, gap_href),
        drawing=showing.picture_of(found, who.units),
        drawing_rows=showing.picture_rows(found, who.units) if kind == "propeller" else [],
        history=showing.history_rows(found),
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


def _move_form(tag: str) -> tuple[forms.MoveForm, services.Item]:
    form = filled(forms.MoveForm)
    with snapshot() as opened:
        item = services.item_by_tag(opened, current_who(), tag)
        drives = services.drive_choices(opened, current_who())
    form.drive_id.choices = options([("", "choose a boat"), *((str(number), label) for number, label in drives)])
    if item.aboard_id is None:
        form.kind.choices = [choice for choice in form.kind.choices if choice.value != "came off"]
    else:
        form.kind.choices = [
            choice for choice in form.kind.choices if choice.value not in ("went on", "moved", "found")
        ]
    return form, item


@bp.get("/items/<tag>/move")
def move_page(tag: str) -> ResponseReturnValue:
    """Where it goes from here."""
    form, item = _move_form(tag)
    return page("gear/move_page.html", form=form, item=item, back=address_of(item.tag))


@bp.post("/items/<tag>/move")
def move_item(tag: str) -> ResponseReturnValue:
    """Move it."""
    form, item = _move_form(tag)
    if form.validate():
        with saving(form) as act:
            services.move_item(act.session, act.who, tag, **form.readings())
            act.goes_to(address_of(tag), "Moved.")
        if act.answer:
            return kept(act)
    return refused("gear/move_page.html", form, item=item, back=address_of(tag))


@bp.get("/items/<tag>/work")
def work_page(tag: str) -> ResponseReturnValue:
    """Work that changed it."""
    with snapshot() as opened:
        item = services.item_by_tag(opened, current_who(), tag)
    return page("gear/work_page.html", form=filled(forms.WorkForm), item=item, back=address_of(item.tag))


@bp.post("/items/<tag>/work")
def record_work(tag: str) -> ResponseReturnValue:
    """Write the work down."""
    form = filled(forms.WorkForm)
    with snapshot() as opened:
        item = services.item_by_tag(opened, current_who(), tag)
    if form.validate():
        with saving(form) as act:
            services.work_done(act.session, act.who, tag, **form.readings())
            act.goes_to(address_of(tag), "Written down. Figures from before it no longer speak.")
        if act.answer:
            return kept(act)
    return refused("gear/work_page.html", form, item=item, back=address_of(tag))


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
