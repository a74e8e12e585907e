"""Letters to print: to the propeller shop, and to the owner."""

from flask import current_app, request
from flask.typing import ResponseReturnValue

from yardapp import quantities
from yardapp.db import now
from yardapp.fit import letters, services, showing
from yardapp.fit.views import bp
from yardapp.web import current_who, page, snapshot


def _pairing(tag: str, drive_id: int) -> services.Pairing:
    who, rule = current_who(), request.args.get("rule", "15 %")
    with snapshot() as opened:
        rule = rule if rule in services.RULES else "15 %"
        return services.pairing(opened, who, tag, drive_id, rule=rule, say=showing.say_in(who.units))


def _typed(name: str, most: int = 80) -> str:
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


@bp.get("/<tag>/on/<int:drive_id>/letter/shop")
def shop_letter(tag: str, drive_id: int) -> ResponseReturnValue:
    """To the propeller shop: what is to be done, to which shaft, to which class, and whom to ask."""
    found = _pairing(tag, drive_id)
    pitch, wrong = _pitch(found)
    wanted = request.args.get("class", "II")
    tasks = letters.tasks(found.verdict)
    return page(
        "fit/shop_letter.html",
        found=found,
        tasks=tasks,
        at_the_yard=letters.at_the_yard(found.verdict),
        why_not="" if pitch or _typed("note", 600) else letters.why_no_letter(found.verdict),
        pitch=pitch,
        wrong=wrong,
        classes=letters.CLASSES,
        wanted=wanted if wanted in letters.CLASSES else "II",
        typed={name: _typed(name, most) for name, most in (("to", 80), ("contact", 120), ("note", 600), ("pitch", 40))},
        propeller=showing.propeller_rows(found, current_who().units),
        shaft=showing.shaft_end_rows(found, current_who().units),
        drawing=showing.shaft_drawing(found, current_who().units),
        yard=current_app.config["YARD"],
        today=now(),
    )


@bp.get("/<tag>/on/<int:drive_id>/letter/owner")
def owner_letter(tag: str, drive_id: int) -> ResponseReturnValue:
    """To the owner: the verdict in plain words, and what it rests on."""
    found = _pairing(tag, drive_id)
    return page(
        "fit/owner_letter.html",
        found=found,
        said=letters.plainly(found.verdict),
        checks=letters.weighed(found.verdict),
        still_open=showing.still_open(found),
        rests_on=showing.rests_on(found, current_who().units),
        yard=current_app.config["YARD"],
        today=now(),
    )
