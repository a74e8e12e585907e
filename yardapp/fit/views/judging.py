"""The verdict's page."""

from flask import request, url_for
from flask.typing import ResponseReturnValue

from yardapp.fit import forms, services, showing
from yardapp.fit.views import bp
from yardapp.web import current_who, filled, page, snapshot


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
        keep=filled(forms.KeepForm, rule=rule),
        rule=rule,
        rules=services.RULES,
        rows=showing.check_rows(found, who.units, lambda name: url_for("front.formula", name=name)),
        shaft=showing.shaft_drawing(found, who.units),
        shaft_rows=showing.shaft_rows(found, who.units),
        room=showing.room_drawing(found, who.units),
        room_rows=showing.room_rows(found, who.units),
        parts=showing.parts(found),
        still_open=showing.still_open(found),
    )
