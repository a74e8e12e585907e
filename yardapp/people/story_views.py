"""The timeline of a person."""

from flask import Blueprint, request, url_for
from flask.typing import ResponseReturnValue

from yardapp.filters import day
from yardapp.people import services
from yardapp.timeline_forms import TimelineForm, asked_of
from yardapp.timelines import Moment
from yardapp.web import current_who, filled, page, snapshot

bp = Blueprint("story", __name__, url_prefix="/people")


@bp.get("/yard/<int:person_id>/timeline")
def person_timeline(person_id: int) -> ResponseReturnValue:
    """What one person did."""
    form = filled(TimelineForm)
    form.process(request.args or None)
    form.offer("person")
    asked = asked_of(form, request.args.get("after", ""))
    with snapshot() as opened:
        name, moments, further = services.person_timeline(opened, current_who(), person_id, asked)
    start = url_for("story.person_timeline", person_id=person_id)
    is_me = current_who().person_id == person_id
    return page(
        "gear/timeline.html",
        heading=f"{name}: timeline",
        form=form,
        rows=[
            {"when": day(one.at), "who": one.said_by, "what": _said(one), "href": _href(one), "note": ""}
            for one in moments
        ],
        further=further and url_for("story.person_timeline", person_id=person_id, **form.onward(further)),
        is_further=bool(asked.after),
        start=start,
        back=url_for("people.me") if is_me else url_for("people.role_page", person_id=person_id),
        back_to=name,
    ), 422 if form.errors else 200


def _said(one: Moment) -> str:
    """`Logged: P-0412`; what has no name of its own is called by its kind."""
    act = one.kind[:1].upper() + one.kind[1:]
    return f"{act}: {one.tag}" if one.tag else f"{act}, {one.word}"


def _href(one: Moment) -> str | None:
    if one.word == "item" and one.tag:
        return url_for("gear.tag", tag=one.tag)
    if one.word == "vessel" and one.place.isdigit():
        return url_for("vessels.vessel", vessel_id=int(one.place))
    return url_for("vessels.drive_page", drive_id=int(one.place)) if one.word == "drive" and one.place else None
