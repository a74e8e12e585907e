"""A photo that came with a form."""

from typing import Any

from flask import current_app

from yardapp.errors import Refused
from yardapp.gear import services as gear


def sent_photo(form: Any) -> gear.Picture | None:
    """The photo that was sent; a refusal is told beside its box."""
    sent = form.photo.data
    if not getattr(sent, "filename", ""):
        return None
    try:
        return gear.keep_picture(current_app.config["PHOTOS"], sent.stream)
    except Refused as refusal:
        form.tell(refusal)
        return None


def bring_photo(form: Any) -> gear.Picture | None:
    """The photo that was sent, or the one that an earlier try of this form brought along; a refusal is told."""
    if not getattr(form.photo.data, "filename", ""):
        return gear.kept_picture(current_app.config["PHOTOS"], form.photo_kept.data or "")
    picture = sent_photo(form)
    if picture is not None:
        form.photo_kept.data, form.photo_kept.raw_data = picture.sha256, None
    return picture
