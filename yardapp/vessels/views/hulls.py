"""What is known of a hull, and of a shaft line: both feed the sums of engine, hull and propeller."""

from typing import Any

from flask import url_for
from flask.typing import ResponseReturnValue

from yardapp.vessels import hull_forms, line_showing, services
from yardapp.vessels.views import bp
from yardapp.vessels.views.entering import drive_and_boat
from yardapp.web import current_who, filled, kept, page, refused, saving, snapshot

HULL_BOXES = (*services.HULL_WORDS, *services.HULL_FIGURES, "speed_power")


def _boat(vessel_id: int) -> Any:
    current_who().must("change")
    with snapshot() as opened:
        return services.vessel_by_id(opened, current_who(), vessel_id)


@bp.get("/boats/<int:vessel_id>/hull")
def hull_page(vessel_id: int) -> ResponseReturnValue:
    """Her weight, lines, speed and power."""
    boat = _boat(vessel_id)
    form = filled(hull_forms.HullForm, version=boat.version, **line_showing.boxes_of(boat, HULL_BOXES))
    return page("vessels/hull_page.html", form=form, vessel=boat)


@bp.post("/boats/<int:vessel_id>/hull")
def set_hull(vessel_id: int) -> ResponseReturnValue:
    """Keep them, unless somebody else saved meanwhile."""
    form = filled(hull_forms.HullForm)
    if form.validate():
        with saving(form) as act:
            services.set_hull(act.session, act.who, vessel_id, form.version.data or 0, form.readings())
            said = "Saved. Verdicts from before this no longer hold: ask again."
            act.goes_to(url_for("vessels.vessel", vessel_id=vessel_id), said)
        if act.answer:
            return kept(act)
    return refused("vessels/hull_page.html", form, vessel=_boat(vessel_id))


@bp.get("/drives/<int:drive_id>/line")
def line_page(drive_id: int) -> ResponseReturnValue:
    """Metal, spans, thread, rudder, depth."""
    drive, boat = drive_and_boat(drive_id)
    boxes = line_showing.boxes_of(drive, services.LINE_BOXES)
    form = filled(hull_forms.ShaftLineForm, version=drive.version, **boxes)
    return page("vessels/line_page.html", form=form, drive=drive, vessel=boat)


@bp.post("/drives/<int:drive_id>/line")
def change_line(drive_id: int) -> ResponseReturnValue:
    """Keep them, unless somebody else saved meanwhile."""
    form = filled(hull_forms.ShaftLineForm)
    if form.validate():
        with saving(form) as act:
            services.change_drive(act.session, act.who, drive_id, form.version.data or 0, form.readings())
            act.goes_to(url_for("vessels.drive_page", drive_id=drive_id))
        if act.answer:
            return kept(act)
    drive, boat = drive_and_boat(drive_id)
    return refused("vessels/line_page.html", form, drive=drive, vessel=boat)
