"""A drive leaves its boat, or goes out of use."""

from typing import Any

from flask import request, url_for
from flask.typing import ResponseReturnValue

from yardapp.forms import options
from yardapp.vessels import forms, services
from yardapp.vessels.views import bp
from yardapp.vessels.views.entering import drive_and_boat
from yardapp.web import current_who, filled, kept, page, refused, saving, snapshot

OFFERED = 200


def _offer_boats(form: Any, vessel_id: int) -> bool:
    """Fill the list of boats by name, narrowed down by `name`; whether there are more than the list holds."""
    text = request.args.get("name", "")[:80]
    with snapshot() as opened:
        found = services.boats(opened, current_who(), text=text, limit=OFFERED + 1)
    others = [row for row in found[:OFFERED] if row.id != vessel_id]
    labels = [(str(row.id), ", ".join(part for part in (row.name, row.kind, row.owner) if part)) for row in others]
    form.vessel_id.choices = options([("", "choose a boat"), *labels])
    return len(found) > OFFERED


@bp.get("/drives/<int:drive_id>/move")
def move_drive_page(drive_id: int) -> ResponseReturnValue:
    """Into which boat it goes."""
    drive, boat = drive_and_boat(drive_id)
    form = filled(forms.MoveDriveForm, version=drive.version, position=drive.position)
    is_long = _offer_boats(form, boat.id)
    return page("vessels/move_drive_page.html", form=form, drive=drive, vessel=boat, is_long=is_long)


@bp.post("/drives/<int:drive_id>/move")
def move_drive(drive_id: int) -> ResponseReturnValue:
    """Move it, and what is on it."""
    form = filled(forms.MoveDriveForm)
    drive, boat = drive_and_boat(drive_id)
    is_long = _offer_boats(form, 0)
    if form.validate():
        with saving(form) as act:
            said = form.readings()
            services.move_drive(act.session, act.who, drive_id, form.version.data or 0, **said)
            act.goes_to(url_for("vessels.drive_page", drive_id=drive_id), "Moved.")
        if act.answer:
            return kept(act)
    return refused("vessels/move_drive_page.html", form, drive=drive, vessel=boat, is_long=is_long)


@bp.get("/drives/<int:drive_id>/retire")
def retire_drive_page(drive_id: int) -> ResponseReturnValue:
    """Out of use."""
    drive, boat = drive_and_boat(drive_id)
    return page("vessels/retire_drive_page.html", form=filled(forms.UseDriveForm), drive=drive, vessel=boat)


@bp.post("/drives/<int:drive_id>/retire")
def retire_drive(drive_id: int) -> ResponseReturnValue:
    """Take it out of use."""
    form = filled(forms.UseDriveForm)
    if form.validate():
        with saving(form) as act:
            services.retire_drive(act.session, act.who, drive_id, **form.readings())
            act.goes_to(url_for("vessels.drive_page", drive_id=drive_id), "It is out of use.")
        if act.answer:
            return kept(act)
    drive, boat = drive_and_boat(drive_id)
    return refused("vessels/retire_drive_page.html", form, drive=drive, vessel=boat)


@bp.get("/drives/<int:drive_id>/return")
def return_drive_page(drive_id: int) -> ResponseReturnValue:
    """Into use again."""
    drive, boat = drive_and_boat(drive_id)
    return page("vessels/return_drive_page.html", form=filled(forms.UseDriveForm), drive=drive, vessel=boat)


@bp.post("/drives/<int:drive_id>/return")
def return_drive(drive_id: int) -> ResponseReturnValue:
    """Take it into use again."""
    form = filled(forms.UseDriveForm)
    if form.validate():
        with saving(form) as act:
            services.return_drive(act.session, act.who, drive_id, **form.readings())
            act.goes_to(url_for("vessels.drive_page", drive_id=drive_id), "It is in use again.")
        if act.answer:
            return kept(act)
    drive, boat = drive_and_boat(drive_id)
    return refused("vessels/return_drive_page.html", form, drive=drive, vessel=boat)
