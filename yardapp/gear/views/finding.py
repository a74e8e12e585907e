"""The rack, page by page, and the search line."""

from flask import render_template, request, url_for
from flask.typing import ResponseReturnValue

from yardapp.db import now
from yardapp.gear import services, showing
from yardapp.gear.figures import KINDS, PARTS, kind_of_tag
from yardapp.gear.views import bp
from yardapp.web import current_who, page, snapshot


def address_of(tag: str) -> str:
    """Where an item's page lies; its tag says what it is."""
    return url_for(f"gear.{kind_of_tag(tag)}", tag=tag)


@bp.get("/rack")
def rack() -> ResponseReturnValue:
    """Everything with a tag, newest first, kind by kind."""
    who, asked = current_who(), request.args.get("kind", "")
    kind = asked if asked in (*KINDS, "parts") else "propeller"
    with snapshot() as opened:
        late = services.count_late(opened, who, now().date())
        found, further = services.rack(opened, who, kind=kind, before=request.args.get("before", type=int))
    rows = [showing.listed(row, who.units, address_of(row.tag)) for row in found]
    return page("gear/rack.html", rows=rows, further=further, kind=kind, kinds=KINDS, parts=PARTS, late=late)


@bp.get("/search")
def search() -> ResponseReturnValue:
    """What answers the search line; results alone when a page asks as people type."""
    line, who = request.args.get("q", "")[:80], current_who()
    with snapshot() as opened:
        items, boats = services.search_all(opened, who, line)
    rows = [showing.listed(row, who.units, address_of(row.tag)) for row in items]
    rows[:0] = [
        {"tag": boat.name, "href": url_for("vessels.vessel", vessel_id=boat.id), "size": boat.kind, "where": boat.owner}
        for boat in boats
    ]
    if request.headers.get("HX-Request"):
        return render_template("gear/found.html", rows=rows, line=line)
    return page("gear/search.html", rows=rows, line=line)
