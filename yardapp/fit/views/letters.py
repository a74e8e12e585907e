"""Letters to print or to send as a file: to the propeller shop, and to the owner."""

from typing import Any

from flask import Response, current_app, request, url_for
from flask.typing import ResponseReturnValue

from yardapp import quantities
from yardapp.db import now
from yardapp.fit import letters, services, showing
from yardapp.fit.views import bp
from yardapp.pdf import Part, written
from yardapp.web import current_who, page, snapshot

BOXES = {"to": 80, "contact": 120, "note": 600, "pitch": 40}


def _pairing(tag: str, drive_id: int) -> services.Pairing:
    who, rule = current_who(), request.args.get("rule", "15 %")
    with snapshot() as opened:
        rule = rule if rule in services.RULES else "15 %"
        return services.pairing(opened, who, tag, drive_id, rule=rule, say=showing.say_in(who.units))


def _typed(name: str, most: int) -> str:
    return request.args.get(name, "")[:most].strip()


def _pitch(found: services.Pairing) -> tuple[str, str]:
    """The pitch wanted, typed or else worked out, in words; and what is wrong with what was typed."""
    typed, units = _typed("pitch", 40), current_who().units
    if not typed:
        worked = letters.pitch_wanted(found.propeller, found.verdict)
        return ("" if worked is None else showing.both(worked, "length", units)), ""
    try:
        value = quantities.read(typed, "length", at_least=0.05, at_most=12.0, what="pitch").value
    except quantities.Unreadable as refusal:
        return "", refusal.said
    return f"{quantities.show(value, 'length', 'mm')} ({quantities.show(value, 'length', 'in')})", ""


def _to_shop(found: services.Pairing) -> dict[str, Any]:
    """What stands in the letter to the shop, on paper as on the page."""
    (pitch, wrong), units, wanted = _pitch(found), current_who().units, request.args.get("class", "II")
    return {
        "tasks": letters.tasks(found.verdict),
        "at_the_yard": letters.at_the_yard(found.verdict),
        "why_not": "" if pitch or _typed("note", 600) else letters.why_no_letter(found.verdict),
        "pitch": pitch,
        "wrong": wrong,
        "wanted": wanted if wanted in letters.CLASSES else "II",
        "typed": {name: _typed(name, most) for name, most in BOXES.items()},
        "propeller": showing.propeller_rows(found, units),
        "shaft": showing.shaft_end_rows(found, units),
        "drawing": showing.shaft_drawing(found, units),
        "yard": current_app.config["YARD"],
        "today": now(),
    }


def _to_owner(found: services.Pairing) -> dict[str, Any]:
    """What stands in the letter to the owner, on paper as on the page."""
    return {
        "said": letters.plainly(found.verdict),
        "checks": letters.weighed(found.verdict),
        "still_open": showing.still_open(found),
        "rests_on": showing.rests_on(found, current_who().units),
        "yard": current_app.config["YARD"],
        "today": now(),
    }


def _file_at(endpoint: str, found: services.Pairing) -> str:
    """The address of the same letter as a file: what was typed goes along, and nothing else."""
    kept: dict[str, Any] = {name: request.args[name] for name in ("rule", "class", *BOXES) if name in request.args}
    return url_for(endpoint, tag=found.tag, drive_id=found.drive_id, **kept)


def _file(title: str, parts: list[Part], name: str) -> Response:
    paper = written(title, parts, foot=f"{current_app.config['YARD']} · {title}")
    return Response(
        paper, mimetype="application/pdf", headers={"Content-Disposition": f'inline; filename="{name}.pdf"'}
    )


@bp.get("/<tag>/on/<int:drive_id>/letter/shop")
def shop_letter(tag: str, drive_id: int) -> ResponseReturnValue:
    """To the propeller shop: what is to be done, to which shaft, to which class, and whom to ask."""
    found = _pairing(tag, drive_id)
    said = _to_shop(found)
    return page(
        "fit/shop_letter.html",
        found=found,
        classes=letters.CLASSES,
        blades=showing.class_and_pitch(said),
        file=_file_at("fit.shop_file", found),
        **said,
    )


@bp.get("/<tag>/on/<int:drive_id>/letter/shop.pdf")
def shop_file(tag: str, drive_id: int) -> ResponseReturnValue:
    """The same as a file."""
    found = _pairing(tag, drive_id)
    parts = showing.shop_paper(found, _to_shop(found), current_who().name)
    return _file(f"To the propeller shop: {found.tag}", parts, f"{found.tag} to the shop")


@bp.get("/<tag>/on/<int:drive_id>/letter/owner")
def owner_letter(tag: str, drive_id: int) -> ResponseReturnValue:
    """To the owner: the verdict in plain words, and what it rests on."""
    found = _pairing(tag, drive_id)
    return page("fit/owner_letter.html", found=found, file=_file_at("fit.owner_file", found), **_to_owner(found))


@bp.get("/<tag>/on/<int:drive_id>/letter/owner.pdf")
def owner_file(tag: str, drive_id: int) -> ResponseReturnValue:
    """The same as a file."""
    found = _pairing(tag, drive_id)
    parts = showing.owner_paper(found, _to_owner(found), current_who().name)
    return _file(f"{found.tag} on {found.drive}", parts, f"{found.tag} to the owner")
