"""The timelines of a boat and of a drive, and what was on her on a day."""

from typing import Any

from flask import request, url_for
from flask.typing import ResponseReturnValue

from yardapp.db import now
from yardapp.gear import services as gear
from yardapp.gear.showing import moment_rows
from yardapp.timeline_forms import DayForm, TimelineForm, asked_of, end_of
from yardapp.timelines import Moment
from yardapp.vessels import services, story_showing
from yardapp.vessels.views import bp
from yardapp.vessels.views.boats import gear_row
from yardapp.web import current_who, filled, page, snapshot


def _form(what: str) -> TimelineForm:
    form = filled(TimelineForm)
    form.process(request.args or None)
    form.offer(what)
    return form


def _href(one: Moment) -> str | None:
    return url_for("gear.tag", tag=one.tag) if one.tag and current_who().may("see") else None


def _shown(form: TimelineForm, found: gear.Timeline, address: str, **number: Any) -> dict[str, Any]:
    return {
        "form": form,
        "rows": moment_rows(found.moments, current_who().units, _href),
        "further": found.further and url_for(address, **number, **form.onward(found.further)),
        "is_further": "after" in request.args,
        "start": url_for(address, **number),
    }


@bp.get("/boats/<int:vessel_id>/timeline")
def boat_timeline(vessel_id: int) -> ResponseReturnValue:
    """All that happened to a boat, and what went on and off her."""
    form = _form("vessel")
    with snapshot() as opened:
        asked = asked_of(form, request.args.get("after", ""))
        found = gear.boat_timeline(opened, current_who(), vessel_id, asked)
    return page(
        "gear/timeline.html",
        heading=f"{found.of.name}: timeline",
        back=url_for("vessels.vessel", vessel_id=vessel_id),
        back_to=found.of.name,
        day=url_for("vessels.aboard_on", vessel_id=vessel_id),
        **_shown(form, found, "vessels.boat_timeline", vessel_id=vessel_id),
    ), 422 if form.errors else 200


@bp.get("/drives/<int:drive_id>/timeline")
def drive_timeline(drive_id: int) -> ResponseReturnValue:
    """All that happened to a drive."""
    form = _form("drive")
    with snapshot() as opened:
        asked = asked_of(form, request.args.get("after", ""))
        found = gear.drive_timeline(opened, current_who(), drive_id, asked)
    drive, vessel = found.of
    name = services.label_of(vessel.name, drive.position)
    return page(
        "gear/timeline.html",
        heading=f"{name}: timeline",
        back=url_for("vessels.drive_page", drive_id=drive_id),
        back_to=name,
        **_shown(form, found, "vessels.drive_timeline", drive_id=drive_id),
    ), 422 if form.errors else 200


@bp.get("/boats/<int:vessel_id>/aboard")
def aboard_on(vessel_id: int) -> ResponseReturnValue:
    """What was on each of her lines at the end of a day."""
    who, form = current_who(), filled(DayForm)
    form.process(request.args or None)
    is_fine = form.validate()
    day = (form.day.data if is_fine else None) or now().astimezone().date()
    with snapshot() as opened:
        vessel, lines = gear.aboard_on(opened, who, vessel_id, end_of(day) or now())
    form.day.data = form.day.data or day
    return page(
        "vessels/aboard.html",
        vessel=vessel,
        form=form,
        day=day,
        before=story_showing.same_day_before(now().astimezone().date()),
        lines=[
            (stay, [{**gear_row(one.row), "where": story_showing.spell_said(one.since, one.until)} for one in things])
            for stay, things in lines
        ],
    ), 200 if is_fine else 422
