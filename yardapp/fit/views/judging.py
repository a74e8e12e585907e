"""Pages of the fit: which drive, which propeller, and the verdict."""

from flask import redirect, request, url_for
from flask.typing import ResponseReturnValue

from yardapp.fit import services, showing
from yardapp.fit.views import bp
from yardapp.gear import showing as gear_showing
from yardapp.web import current_who, page, snapshot


@bp.get("/<tag>")
def choose(tag: str) -> ResponseReturnValue:
    """On which boat and shaft?"""
    drive_id = request.args.get("drive", type=int)
    if drive_id:
        return redirect(url_for("fit.verdict", tag=tag, drive_id=drive_id), code=302)
    with snapshot() as opened:
        item, drives = services.drive_choices(opened, current_who(), tag)
    rows = [
        {"tag": label, "href": url_for("fit.verdict", tag=item.tag, drive_id=number), "size": size}
        for number, label, size in showing.drive_sizes(drives, current_who().units)
    ]
    return page("fit/choose.html", tag=item.tag, rows=rows, off=item.came_off_id)


@bp.get("/on/<int:drive_id>")
def choose_propeller(drive_id: int) -> ResponseReturnValue:
    """Which propeller?"""
    who = current_who()
    if request.args.get("tag", "").strip():
        tag = request.args["tag"].strip().upper()
        return redirect(url_for("fit.verdict", tag=tag, drive_id=drive_id), code=302)
    with snapshot() as opened:
        drive, found = services.propeller_choices(opened, who, drive_id)
    rows = [
        gear_showing.listed(row, who.units, url_for("fit.verdict", tag=row.tag, drive_id=drive_id)) for row in found
    ]
    return page("fit/choose_propeller.html", drive=drive, drive_id=drive_id, rows=rows)


@bp.get("/<tag>/on/<int:drive_id>")
def verdict(tag: str, drive_id: int) -> ResponseReturnValue:
    """Does it go on?"""
    who = current_who()
    rule = request.args.get("rule", "15 %")
    rule = rule if rule in services.RULES else "15 %"
    with snapshot() as opened:
        found = services.pairing(opened, who, tag, drive_id, rule=rule, say=showing.say_in(who.units))
    return page(
        "fit/verdict.html",
        found=found,
        rule=rule,
        rules=services.RULES,
        rows=showing.check_rows(found, who.units, lambda name: url_for("front.formula", name=name)),
        shaft=showing.shaft_drawing(found, who.units),
        shaft_rows=showing.shaft_rows(found, who.units),
        room=showing.room_drawing(found, who.units),
        room_rows=showing.room_rows(found, who.units),
    )
