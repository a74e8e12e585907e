"""The list of boats, each boat's own page, and her record."""

from typing import Any

from flask import request, url_for
from flask.typing import ResponseReturnValue

from yardapp.forms import options
from yardapp.gear.services import on_and_off
from yardapp.gear.showing import listed as gear_listed
from yardapp.people import services as people
from yardapp.vessels import forms, line_showing, services, showing
from yardapp.vessels.views import bp
from yardapp.web import current_who, filled, kept, page, refused, saving, snapshot


def gear_row(row: Any, *, is_aboard: bool = False) -> dict[str, str]:
    """One propeller or shaft of a list, with the way to its page; the page says itself where what is aboard is."""
    listed = gear_listed(row, current_who().units, url_for(f"gear.{row.kind}", tag=row.tag))
    return {**listed, "where": ""} if is_aboard else listed


@bp.get("/boats")
def boats() -> ResponseReturnValue:
    """Every boat by name, a page at a time, narrowed down by any name or owner."""
    text, after = request.args.get("name", "")[:80].strip(), request.args.get("after", "")[:80]
    after_id = request.args.get("after_id", 0, type=int)
    with snapshot() as opened:
        found = services.boats(
            opened, current_who(), text=text, after=after, after_id=after_id, limit=services.PAGE + 1
        )
    shown, further = found[: services.PAGE], None
    if len(found) > services.PAGE:
        further = url_for("vessels.boats", name=text or None, after=shown[-1].name, after_id=shown[-1].id)
    rows = [showing.listed(row, url_for("vessels.vessel", vessel_id=row.id)) for row in shown]
    return page("vessels/boats.html", rows=rows, further=further, text=text, after=after)


@bp.get("/boats/<int:vessel_id>")
def vessel(vessel_id: int) -> ResponseReturnValue:
    """A boat: names, owner, drives, what is on her and what came off, history."""
    who = current_who()
    with snapshot() as opened:
        found = services.vessel_page(opened, who, vessel_id)
        aboard, off = on_and_off(opened, who, [drive.id for drive in found.drives])
    return page(
        "vessels/vessel.html",
        vessel=found.vessel,
        former=showing.former_names(found),
        drives=[
            (drive, showing.drive_said(drive, who.units), [gear_row(row, is_aboard=True) for row in aboard[drive.id]])
            for drive in found.drives
        ],
        off=[gear_row(row) for row in off],
        hull=line_showing.hull_rows(found.vessel),
        history=showing.history_rows(found.happenings, found.positions, who.units),
    )


@bp.get("/boats/log")
def log_page() -> ResponseReturnValue:
    """A boat comes to the yard."""
    current_who().must("record")
    return page("vessels/log_page.html", form=_with_accounts(filled(forms.LogBoatForm)))


@bp.post("/boats/log")
def log_vessel() -> ResponseReturnValue:
    """Enter her."""
    form = _with_accounts(filled(forms.LogBoatForm))
    if form.validate():
        with saving(form) as act:
            boat = services.log_vessel(act.session, act.who, **_said(form))
            act.goes_to(url_for("vessels.vessel", vessel_id=boat.id), "She is in the register. Now her drive.")
        if act.answer:
            return kept(act)
    return refused("vessels/log_page.html", form)


def _said(form: Any) -> dict[str, Any]:
    said: dict[str, Any] = form.readings()
    said.pop("block_ratio_typed", None)
    return said


def _with_accounts(form: Any) -> Any:
    """The owners' accounts to choose from; only the office links one to a boat."""
    if not current_who().may("people"):
        del form.owner_id
        return form
    with snapshot() as opened:
        everybody = people.people(opened)
    owners = [(str(one.id), one.name) for one in everybody if one.role == "owner" and one.is_here]
    form.owner_id.choices = options([("0", "nobody's"), *owners])
    return form


@bp.get("/boats/<int:vessel_id>/change")
def change_page(vessel_id: int) -> ResponseReturnValue:
    """Her record."""
    current_who().must("change")
    with snapshot() as opened:
        boat = services.vessel_by_id(opened, current_who(), vessel_id)
    return page("vessels/change_page.html", form=_with_accounts(filled(forms.ChangeBoatForm, boat)), vessel=boat)


@bp.post("/boats/<int:vessel_id>/change")
def change_vessel(vessel_id: int) -> ResponseReturnValue:
    """Save her record, unless somebody else did meanwhile."""
    form = _with_accounts(filled(forms.ChangeBoatForm))
    if form.validate():
        with saving(form) as act:
            services.change_vessel(act.session, act.who, vessel_id, form.version.data or 0, **_said(form))
            act.goes_to(url_for("vessels.vessel", vessel_id=vessel_id))
        if act.answer:
            return kept(act)
    with snapshot() as opened:
        boat = services.vessel_by_id(opened, current_who(), vessel_id)
    return refused("vessels/change_page.html", form, vessel=boat)
