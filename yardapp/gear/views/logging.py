"""The first minute with a propeller or shaft."""

from flask import request, url_for
from flask.typing import ResponseReturnValue

from yardapp.drawings.hand import hand_picture
from yardapp.forms import YardForm, options
from yardapp.gear import forms, services
from yardapp.gear.views import bp
from yardapp.gear.views.finding import address_of
from yardapp.pictures import bring_photo
from yardapp.web import current_who, filled, kept, page, refused, saving, snapshot

PICTURES = {hand: hand_picture(hand) for hand in ("right", "left")}


def boats_to_choose(form: YardForm) -> None:
    """Fill the list of boats that it may have come off."""
    with snapshot() as opened:
        drives = services.drive_choices(opened, current_who())
    form["came_off_id"].choices = options(
        [("", "no boat, or not known"), *((str(number), label) for number, label in drives)]
    )


@bp.get("/log")
def log_page() -> ResponseReturnValue:
    """A propeller in the hand."""
    form = filled(forms.LogForm)
    form.came_off_id.data, form.tag.data = request.args.get("off", ""), request.args.get("tag", "")[:20]
    boats_to_choose(form)
    return page("gear/log_page.html", form=form, pictures=PICTURES)


@bp.post("/log")
def log_propeller() -> ResponseReturnValue:
    """Give it a tag."""
    form = filled(forms.LogForm)
    boats_to_choose(form)
    is_fine, picture = form.validate(), bring_photo(form)
    if is_fine and not form.photo.errors:
        readings = form.readings()
        for unsaved in ("photo", "photo_kept", "blades_typed"):
            readings.pop(unsaved, None)
        with saving(form) as act:
            item = services.log_propeller(act.session, act.who, picture=picture, **readings)
            act.goes_to(url_for("gear.propeller", tag=item.tag), f"Saved. It is {item.tag} now: mark it so.")
        if act.answer:
            return kept(act)
    return refused("gear/log_page.html", form, pictures=PICTURES)


@bp.get("/log/shaft")
def log_shaft_page() -> ResponseReturnValue:
    """A shaft in the hand."""
    form = filled(forms.LogShaftForm)
    form.came_off_id.data, form.tag.data = request.args.get("off", ""), request.args.get("tag", "")[:20]
    boats_to_choose(form)
    return page("gear/log_shaft_page.html", form=form)


@bp.post("/log/shaft")
def log_shaft() -> ResponseReturnValue:
    """Give it a tag."""
    form = filled(forms.LogShaftForm)
    boats_to_choose(form)
    is_fine, picture = form.validate(), bring_photo(form)
    if is_fine and not form.photo.errors:
        readings = form.readings()
        for unsaved in ("photo", "photo_kept"):
            readings.pop(unsaved, None)
        with saving(form) as act:
            item = services.log_shaft(act.session, act.who, picture=picture, **readings)
            act.goes_to(address_of(item.tag), f"Saved. It is {item.tag} now: mark it so.")
        if act.answer:
            return kept(act)
    return refused("gear/log_shaft_page.html", form)
