"""The map of sizes for one drive."""

from flask import request, url_for
from flask.typing import ResponseReturnValue

from yardapp.fit import services, showing
from yardapp.fit.forms import rule_choices
from yardapp.fit.views import bp
from yardapp.web import current_who, page, snapshot

HEADS = ("Propeller", "Size", "", "Full throttle", "Verdict", "Where")


@bp.get("/on/<int:drive_id>/map")
def size_map(drive_id: int) -> ResponseReturnValue:
    """Diameter across, pitch up: what the engine turns, what is out of reach, and who goes on."""
    who, blades = current_who(), request.args.get("blades", type=int)
    rule = request.args.get("rule", "15 %")
    rule = rule if rule in services.RULES else "15 %"
    tag = request.args.get("tag", "")[:20].strip()
    with snapshot() as opened:
        found = services.map_of(
            opened, who, drive_id, tag=tag, blades=blades if blades in range(2, 8) else None, rule=rule
        )

    def href(tag: str) -> str:
        return url_for("fit.verdict", tag=tag, drive_id=drive_id, rule=rule)

    return page(
        "fit/size_map.html",
        found=found,
        drawing=showing.map_drawing(found, who.units, href),
        rows=showing.map_rows(found, who.units),
        heads=HEADS,
        spots=showing.spot_rows(found, who.units, href),
        bands=rule_choices(),
        tag=tag,
    )
