"""The timeline of an item."""

from functools import partial

from flask import request, url_for
from flask.typing import ResponseReturnValue

from yardapp.gear import services, showing
from yardapp.gear.figures import FIGURES
from yardapp.gear.views import bp
from yardapp.gear.views.finding import address_of
from yardapp.timeline_forms import TimelineForm, asked_of
from yardapp.timelines import Moment
from yardapp.web import current_who, filled, page, snapshot


def _href(tag: str, one: Moment) -> str | None:
    """Where more is to be seen of a moment."""
    if one.strand == "photo":
        return url_for("gear.photo", sha256=one.word)
    if one.strand != "read":
        return None
    if one.kind == "stamp":  # read as marks are
        return url_for("marks.mark_for", tag=tag)
    return url_for("gear.figure", tag=tag, what=one.kind) if one.kind in FIGURES else None


@bp.get("/items/<tag>/timeline")
def timeline(tag: str) -> ResponseReturnValue:
    """All that happened to a thing, a page at a time."""
    who, form = current_who(), filled(TimelineForm)
    form.process(request.args or None)
    form.offer("item")
    asked = asked_of(form, request.args.get("after", ""))
    with snapshot() as opened:
        found = services.item_timeline(opened, who, tag, asked)

    is_tagged = len({one.tag for one in found.moments}) > 2
    further = found.further and url_for("gear.timeline", tag=found.of.tag, **form.onward(found.further))
    return page(
        "gear/timeline.html",
        heading=f"{found.of.tag}: timeline",
        form=form,
        rows=showing.moment_rows(found.moments, who.units, partial(_href, found.of.tag), is_tagged=is_tagged),
        further=further,
        is_further=bool(asked.after),
        start=url_for("gear.timeline", tag=found.of.tag),
        back=address_of(found.of.tag),
        back_to=found.of.tag,
    ), 422 if form.errors else 200
