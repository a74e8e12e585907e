"""Photos: served from the data folder to those who may see the item, and added."""

from flask import abort, current_app, send_file
from flask.typing import ResponseReturnValue

from yardapp.errors import Refused
from yardapp.gear import forms, services
from yardapp.gear.views import bp
from yardapp.gear.views.finding import address_of
from yardapp.web import current_who, filled, kept, page, saving, snapshot


@bp.get("/photos/<sha256>")
@bp.get("/photos/<sha256>/<size>")
def photo(sha256: str, size: str = "") -> ResponseReturnValue:
    """A picture under its own SHA-256: it can never change, so a phone may keep it."""
    with snapshot() as opened:
        services.must_see_photo(opened, current_who(), sha256)
    path = services.path_of(current_app.config["PHOTOS"], sha256, small=size == "small")
    if not path.exists():
        abort(404)
    answer = send_file(path, mimetype="image/jpeg")
    answer.headers["Cache-Control"] = "private, max-age=31536000, immutable"
    return answer


@bp.post("/items/<tag>/photos")
def attach_photo(tag: str) -> ResponseReturnValue:
    """One more photo of an item."""
    form = filled(forms.PhotoForm)
    if form.validate():
        try:
            picture = services.keep_picture(current_app.config["PHOTOS"], form.photo.data.stream)
        except (Refused, AttributeError) as refusal:
            form.tell(refusal if isinstance(refusal, Refused) else Refused("Choose a photo first.", "photo"))
        else:
            with saving(form) as act:
                item = services.item_by_tag(act.session, act.who, tag)
                services.attach_photo(act.session, act.who, item, picture, form.caption.data or "")
                act.goes_to(address_of(tag), "The photo is kept.")
            if act.answer:
                return kept(act)
    with snapshot() as opened:
        item = services.item_by_tag(opened, current_who(), tag)
    return page("gear/photo_page.html", form=form, item=item, back=address_of(item.tag)), 422
