"""A photo that came with a form."""

from typing import Any

from flask import current_app

from yardapp.errors import Refused
from yardapp.gear import services as gear


def bring_photo(form: Any) -> gear.Picture | None:
    """The photo that was sent, or the one that an earlier try brought along; a refusal is told."""
    folder, sent = current_app.config["PHOTOS"], form.photo.data
    if not getattr(sent, "filename", ""):
        return gear.kept_picture(folder, form.photo_kept.data or "")
    try:
        picture = gear.keep_picture(folder, sent.stream)
    except Refused as refusal:
        form.tell(refusal)
        return None
    form.photo_kept.data, form.photo_kept.raw_data = picture.sha256, None
    return picture
