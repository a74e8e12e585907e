"""What is written of a drive: entered once, read again, re-engined."""

from typing import Any

from flask import url_for
from flask.typing import ResponseReturnValue

from yardapp.vessels import forms, services, showing
from yardapp.vessels.views import bp
from yardapp.web import current_who, filled, kept, page, refused, saving, snapshot


def drive_and_boat(drive_id: int) -> tuple[Any, Any]:
    """The drive and its boat, for somebody who may change them."""
    current_who().must("change")
    with snapshot() as opened:
        return services.drive_by_id(opened, current_who(), drive_id)


def _around() -> dict[str, Any]:
    """What the long form says beside its boxes."""
    units = current_who().units
    return {"usual": showing.placeholders(units), "usual_in_words": showing.usual_in_words(units)}


@bp.get("/boats/<int:vessel_id>/drives/new")
def new_drive_page(vessel_id: int) -> ResponseReturnValue:
    """One engine, gear and shaft line of hers."""
    current_who().must("record")
    with snapshot() as opened:
        boat = services.vessel_by_id(opened, current_who(), vessel_id)
    return page("vessels/new_drive_page.html", form=filled(forms.NewDriveForm), vessel=boat, **_around())


@bp.post("/boats/<int:vessel_id>/drives/new")
def set_drive(vessel_id: int) -> ResponseReturnValue:
    """Enter it."""
    form = filled(forms.NewDriveForm)
    if form.validate():
        with saving(form) as act:
            drive = services.set_drive(act.session, act.who, vessel_id, form.readings())
            act.goes_to(url_for("vessels.drive_page", drive_id=drive.id))
        if act.answer:
            return kept(act)
    with snapshot() as opened:
        boat = services.vessel_by_id(opened, current_who(), vessel_id)
    return refused("vessels/new_drive_page.html", form, vessel=boat, **_around())


@bp.get("/drives/<int:drive_id>/change")
def change_drive_page(drive_id: int) -> ResponseReturnValue:
    """All that is said of it."""
    drive, boat = drive_and_boat(drive_id)
    form = filled(forms.ChangeDriveForm, **showing.boxes_of(drive, services.DRIVE_BOXES))
    return page("vessels/change_drive_page.html", form=form, drive=drive, vessel=boat, **_around())


@bp.post("/drives/<int:drive_id>/change")
def change_drive(drive_id: int) -> ResponseReturnValue:
    """Save it, unless somebody else did meanwhile."""
    form = filled(forms.ChangeDriveForm)
    if form.validate():
        with saving(form) as act:
            services.change_drive(act.session, act.who, drive_id, form.version.data or 0, form.readings())
            act.goes_to(url_for("vessels.drive_page", drive_id=drive_id))
        if act.answer:
            return kept(act)
    drive, boat = drive_and_boat(drive_id)
    return refused("vessels/change_drive_page.html", form, drive=drive, vessel=boat, **_around())


@bp.get("/drives/<int:drive_id>/re-engine")
def re_engine_page(drive_id: int) -> ResponseReturnValue:
    """Another engine or gear in it."""
    drive, boat = drive_and_boat(drive_id)
    form = filled(forms.ReEngineForm, version=drive.version)
    return page("vessels/re_engine_page.html", form=form, drive=drive, vessel=boat, was=_was(drive))


@bp.post("/drives/<int:drive_id>/re-engine")
def re_engine(drive_id: int) -> ResponseReturnValue:
    """Write it down; the old engine stays in the history."""
    form = filled(forms.ReEngineForm)
    if form.validate():
        with saving(form) as act:
            services.re_engine(act.session, act.who, drive_id, form.version.data or 0, form.readings())
            said = "Saved. Verdicts from before this engine no longer hold: ask again."
            act.goes_to(url_for("vessels.drive_page", drive_id=drive_id), said)
        if act.answer:
            return kept(act)
    drive, boat = drive_and_boat(drive_id)
    return refused("vessels/re_engine_page.html", form, drive=drive, vessel=boat, was=_was(drive))


def _was(drive: Any) -> list[dict[str, Any]]:
    return showing.engine_rows(drive, lambda _name: None)
