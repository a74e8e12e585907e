"""Photos: served from the data folder to those who may see the item, and added."""

from flask import abort, current_app, send_file
from flask.typing import ResponseReturnValue

from yardapp.errors import Refused
from yardapp.gear import forms, services
from yardapp.gear.views import bp
from yardapp.gear.views.finding import address_of
from yardapp.web import current_who, filled, kept, page, saving, snapshot

AT_ONCE = 12


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


def _brought(form: forms.PhotoForm) -> list[services.Picture]:
    """The pictures that came along, judged; a refusal is told."""
    sent = form.sent()
    if not sent or len(sent) > AT_ONCE:
        form.tell(Refused("Choose a photo first." if not sent else f"At most {AT_ONCE} at once.", "photo"))
        return []
    try:
        return [services.keep_picture(current_app.config["PHOTOS"], one.stream) for one in sent]
    except Refused as refusal:
        form.tell(refusal)
        return []


@bp.post("/items/<tag>/photos")
def attach_photo(tag: str) -> ResponseReturnValue:
    """More photos of an item: all are kept, or none."""
    form = filled(forms.PhotoForm)
    if form.validate() and (pictures := _brought(form)):
        with saving(form) as act:
            item = services.item_by_tag(act.session, act.who, tag)
            for picture in pictures:
                services.attach_photo(act.session, act.who, item, picture, form.caption.data or "")
            act.goes_to(address_of(tag), f"{len(pictures)} photos are kept." if pictures[1:] else "The photo is kept.")
        if act.answer:
            return kept(act)
    with snapshot() as opened:
        item = services.item_by_tag(opened, current_who(), tag)
    return page("gear/photo_page.html", form=form, item=item, back=address_of(item.tag)), 422
