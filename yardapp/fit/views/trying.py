"""Try a size: both sides as typed, for the phone in the scrapyard. Nothing is saved until somebody logs it."""

from typing import Any

from flask import redirect, request, url_for
from flask.typing import ResponseReturnValue

from yardapp.drawings.hand import hand_picture
from yardapp.errors import NotFound, Refused
from yardapp.fit import forms, services, showing
from yardapp.fit.views import bp
from yardapp.forms import options
from yardapp.gear import services as gear
from yardapp.web import current_who, filled, kept, page, refused, saving, snapshot

PICTURES = {hand: hand_picture(hand) for hand in ("right", "left")}
UNTRIED = ("tag", "stamp", "way", "shaft_way", "drive_id", "rule", "place")


def _form(opened: Any) -> forms.TryForm:
    form = filled(forms.TryForm)
    drives = gear.drive_choices(opened, current_who())
    form.drive_id.choices = options([("", "type its figures below"), *((str(one), label) for one, label in drives)])
    return form


def _tried(form: forms.TryForm) -> services.Tried:
    said = form.readings()
    chosen = {name: said.pop(name) for name in UNTRIED}
    chosen.pop("place")
    return services.Tried(
        said=said,
        **{name: value or "" for name, value in chosen.items() if name != "drive_id"},
        drive_id=chosen["drive_id"],
    )


@bp.get("/try")
def try_page() -> ResponseReturnValue:
    """Two sides to fill in."""
    with snapshot() as opened:
        form = _form(opened)
    form.drive_id.data = request.args.get("drive", type=forms.number_or_none)
    form.tag.data = request.args.get("tag", "")[:20]
    return page("fit/try_page.html", form=form, pictures=PICTURES, found=None)


@bp.post("/try")
def try_size() -> ResponseReturnValue:
    """What the two sides say to each other."""
    with snapshot() as opened:
        form = _form(opened)
        if not form.validate():
            return refused("fit/try_page.html", form, pictures=PICTURES, found=None)
        tried = _tried(form)
        if tried.tag.strip() and tried.drive_id:
            tag = tried.tag.strip().upper()
            return redirect(url_for("fit.verdict", tag=tag, drive_id=tried.drive_id, rule=tried.rule), code=303)
        try:
            found = services.try_size(opened, current_who(), tried, say=showing.say_in(current_who().units))
        except (NotFound, Refused) as refusal:
            form.tell(refusal if isinstance(refusal, Refused) else Refused(str(refusal), "tag"))
            return refused("fit/try_page.html", form, pictures=PICTURES, found=None)
    # The server has answered: the phone may let go of the draft it kept.
    return page("fit/try_page.html", form=form, pictures=PICTURES, saved=form.once.data, **_shown(found))


def _shown(found: services.Pairing) -> dict[str, Any]:
    units = current_who().units
    return {
        "found": found,
        "rows": showing.check_rows(found, units, lambda name: url_for("front.formula", name=name)),
        "shaft": showing.shaft_drawing(found, units),
        "shaft_rows": showing.shaft_rows(found, units),
        "room": showing.room_drawing(found, units),
        "room_rows": showing.room_rows(found, units),
        "parts": showing.parts(found),
        "still_open": showing.still_open(found),
    }


@bp.post("/try/log")
def log_tried() -> ResponseReturnValue:
    """It was worth the money: give it a tag, with all that was typed as evidence."""
    with snapshot() as opened:
        form = _form(opened)
    if form.validate():
        with saving(form) as act:
            item = services.log_tried(act.session, act.who, _tried(form), place=form.place.data or "")
            act.goes_to(url_for("gear.propeller", tag=item.tag), f"Saved. It is {item.tag} now: mark it so.")
        if act.answer:
            return kept(act)
    return refused("fit/try_page.html", form, pictures=PICTURES, found=None)
