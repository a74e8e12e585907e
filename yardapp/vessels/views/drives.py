"""A drive's own page."""

from typing import Any

from flask import url_for
from flask.typing import ResponseReturnValue

from yardapp.gear.services import on_and_off
from yardapp.vessels import line_showing, services, showing
from yardapp.vessels.views import bp
from yardapp.vessels.views.boats import gear_row
from yardapp.web import current_who, page, snapshot


@bp.get("/drives/<int:drive_id>")
def drive_page(drive_id: int) -> ResponseReturnValue:
    """A drive: the propeller it wants, engine, shaft end, room, what is on it, history."""
    who = current_who()
    with snapshot() as opened:
        found = services.drive_page(opened, who, drive_id)
        aboard, off = on_and_off(opened, who, [drive_id])

    def gap_href(name: str) -> str | None:
        return url_for("vessels.change_drive_page", drive_id=drive_id, _anchor=name) if who.may("change") else None

    return page(
        "vessels/drive_page.html",
        drive=found.drive,
        vessel=found.vessel,
        name=services.label_of(found.vessel.name, found.drive.position),
        hand=showing.hand_wanted(found.drive),
        engine=showing.engine_rows(found.drive, gap_href),
        shaft=showing.shaft_rows(found.drive, who.units, gap_href),
        line=line_showing.line_rows(found.drive),
        usual=showing.usual_in_words(who.units),
        room=_room(found.drive, aboard[drive_id]),
        aboard=[gear_row(row, is_aboard=True) for row in aboard[drive_id]],
        off=[gear_row(row) for row in off],
        history=showing.history_rows(found.happenings, {}, who.units),
    )


def _room(drive: Any, aboard: list[Any]) -> Any:
    """The drawing of the propeller that is on, under the hull."""
    diameter_m = next((row.diameter_m for row in aboard if row.kind == "propeller"), None)
    return showing.tip_room(drive, diameter_m, current_who().units)
