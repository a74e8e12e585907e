"""The rack map, each bin, their labels, and what is away."""

from itertools import groupby
from typing import Any

from flask import redirect, url_for
from flask.typing import ResponseReturnValue

from yardapp.db import now
from yardapp.gear import forms, services, showing
from yardapp.gear.move_forms import ChaseForm, RackForm
from yardapp.gear.views import bp
from yardapp.gear.views.finding import address_of
from yardapp.web import current_who, filled, kept, page, refused, saving, snapshot


def _racks() -> list[dict[str, Any]]:
    with snapshot() as opened:
        found = services.rack_map(opened, current_who())
    return [
        showing.rack_shown(name, list(bins), lambda one: url_for("gear.bin", bin_id=one.id))
        for name, bins in groupby(sorted(found, key=lambda one: one.rack.casefold()), key=lambda one: one.rack)
    ]


@bp.get("/rack/map")
def map() -> ResponseReturnValue:  # noqa: A001 - a view is called as its page is
    """Every bin, rack by rack, with what is in it."""
    return page("gear/map.html", racks=_racks(), form=filled(RackForm))


@bp.post("/rack/map")
def add_bins() -> ResponseReturnValue:
    """Put a rack on the map."""
    form = filled(RackForm)
    if form.validate():
        with saving(form) as act:
            shelves, bins = form.shelves.data or 0, form.bins.data or 0
            made = services.add_bins(act.session, act.who, rack=form.rack.data or "", shelves=shelves, bins=bins)
            act.goes_to(url_for("gear.map"), f"{len(made)} bins are on the map.")
        if act.answer:
            return kept(act)
    return refused("gear/map.html", form, racks=_racks())


@bp.get("/b/<int:bin_id>")
def bin_label(bin_id: int) -> ResponseReturnValue:
    """The short address on a bin's label. What was printed once must answer for ever."""
    return redirect(url_for("gear.bin", bin_id=bin_id), code=302)


@bp.get("/rack/bins/<int:bin_id>")
def bin(bin_id: int) -> ResponseReturnValue:  # noqa: A001 - a view is called as its page is
    """What is in one bin."""
    who = current_who()
    with snapshot() as opened:
        found = services.bin_page(opened, who, bin_id)
    rows = [{**showing.listed(row, who.units, address_of(row.tag)), "where": ""} for row in found.items]
    return page("gear/bin.html", bin=found.bin, rows=rows, form=filled(forms.PlainForm))


@bp.post("/rack/bins/<int:bin_id>/retire")
def retire_bin(bin_id: int) -> ResponseReturnValue:
    """Take an empty bin off the map."""
    form = filled(forms.PlainForm)
    if form.validate():
        with saving(form) as act:
            gone = services.retire_bin(act.session, act.who, bin_id)
            act.goes_to(url_for("gear.map"), f"{gone.label} is off the map.")
        if act.answer:
            return kept(act)
    said = (form.overall or ["Open the page again, then try once more."])[0]
    return refused("yard/no.html", form, heading="The bin stays", said=said, status=422)


@bp.get("/rack/away")
def away() -> ResponseReturnValue:
    """What is at a shop or lent, late ones first."""
    who = current_who()
    with snapshot() as opened:
        found = services.away(opened, who, now().date())
    rows = [showing.away_shown(one, who.units, address_of(one.item.tag)) for one in found]
    return page("gear/away.html", rows=rows, late=sum(one.days_late > 0 for one in found))


def _chased(tag: str) -> services.Item:
    with snapshot() as opened:
        return services.item_by_tag(opened, current_who(), tag)


@bp.get("/items/<tag>/chase")
def chase_page(tag: str) -> ResponseReturnValue:
    """Ask after what is away."""
    item = _chased(tag)
    return page("gear/chase_page.html", form=filled(ChaseForm), item=item, back=address_of(item.tag))


@bp.post("/items/<tag>/chase")
def chase(tag: str) -> ResponseReturnValue:
    """Write down whom you asked, and what they promise now."""
    form, item = filled(ChaseForm), _chased(tag)
    if form.validate():
        with saving(form) as act:
            services.chase(act.session, act.who, tag, said=form.said.data or "", due_on=form.due_on.data)
            act.goes_to(url_for("gear.away"), "Written down.")
        if act.answer:
            return kept(act)
    return refused("gear/chase_page.html", form, item=item, back=address_of(item.tag))
