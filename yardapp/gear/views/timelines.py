"""The timeline of an item."""

from flask import request, url_for
from flask.typing import ResponseReturnValue

from yardapp.gear import services, showing
from yardapp.gear.views import bp
from yardapp.gear.views.finding import address_of
from yardapp.timeline_forms import TimelineForm, asked_of
from yardapp.timelines import Moment
from yardapp.web import current_who, filled, page, snapshot


@bp.get("/items/<tag>/timeline")
def timeline(tag: str) -> ResponseReturnValue:
    """All that happened to a thing, a page at a time."""
    who, form = current_who(), filled(TimelineForm)
    form.process(request.args or None)
    form.offer("item")
    asked = asked_of(form, request.args.get("after", ""))
    with snapshot() as opened:
        found = services.item_timeline(opened, who, tag, asked)

    def href(one: Moment) -> str | None:
        if one.strand == "photo":
            return url_for("gear.photo", sha256=one.word)
        return url_for("gear.figure", tag=found.of.tag, what=one.kind) if one.strand == "read" else None

    further = found.further and url_for("gear.timeline", tag=found.of.tag, **form.onward(found.further))
    return page(
        "gear/timeline.html",
        heading=f"{found.of.tag}: timeline",
        form=form,
        rows=showing.moment_rows(found.moments, who.units, href, is_tagged=len({one.tag for one in found.moments}) > 2),
        further=further,
        is_further=bool(asked.after),
        start=url_for("gear.timeline", tag=found.of.tag),
        back=address_of(found.of.tag),
        back_to=found.of.tag,
    ), 422 if form.errors else 200
