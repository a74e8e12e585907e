"""A photo with what is drawn over it, and two photos side by side."""

from typing import Any

from flask import request, url_for
from flask.typing import ResponseReturnValue
from markupsafe import Markup

from yardapp.drawings.marked_photo import marked_photo
from yardapp.filters import day
from yardapp.forms import options
from yardapp.gear import forms, services
from yardapp.gear.photo_forms import CaptionForm, PhotoMarkForm, SideBySideForm
from yardapp.gear.views import bp
from yardapp.gear.views.finding import address_of
from yardapp.web import current_who, filled, kept, page, refused, saving, snapshot


def drawn(one: services.PhotoPage) -> Markup:
    """A photo with its marks."""
    photo = one.photo
    said = "; ".join(f"{number}: {mark.kind} {mark.words}".strip() for number, mark in enumerate(one.marks, 1))
    label = f"{photo.caption or one.item.tag}, {day(photo.at)}{f'; {said}' if said else ''}"
    href = url_for("gear.photo", sha256=photo.sha256)
    return marked_photo(href, photo.width, photo.height, one.marks, label=label)


def _shown(photo_id: int) -> dict[str, Any]:
    with snapshot() as opened:
        found = services.photo_page(opened, current_who(), photo_id)
    return {"found": found, "drawn": drawn(found), "plain": filled(forms.PlainForm, blank=True)}


@bp.get("/photo/<int:photo_id>")
def photo_page(photo_id: int) -> ResponseReturnValue:
    """One photo, its marks, and a form to draw another."""
    return page("gear/photo.html", form=filled(PhotoMarkForm), **_shown(photo_id))


@bp.post("/photo/<int:photo_id>")
def mark_photo(photo_id: int) -> ResponseReturnValue:
    """Draw an arrow or a circle."""
    form = filled(PhotoMarkForm)
    if form.validate():
        with saving(form) as act:
            kind, words = form.kind.data or "", form.words.data or ""
            services.mark_photo(act.session, act.who, photo_id, kind=kind, words=words, **form.ratios())
            act.goes_to(url_for("gear.photo_page", photo_id=photo_id), "Drawn.")
        if act.answer:
            return kept(act)
    return refused("gear/photo.html", form, **_shown(photo_id))


@bp.post("/photo/<int:photo_id>/marks/<int:mark_id>/away")
def take_mark_away(photo_id: int, mark_id: int) -> ResponseReturnValue:
    """Take one off again."""
    form = filled(forms.PlainForm)
    if form.validate():
        with saving(form) as act:
            services.take_mark_away(act.session, act.who, photo_id, mark_id)
            act.goes_to(url_for("gear.photo_page", photo_id=photo_id), "Taken away.")
        if act.answer:
            return kept(act)
    said = (form.overall or ["Open the page again, then try once more."])[0]
    return refused("yard/no.html", form, heading="Not taken away", said=said, status=422)


@bp.get("/photo/<int:photo_id>/caption")
def caption_page(photo_id: int) -> ResponseReturnValue:
    """What a photo shows, and what it was called before."""
    form, shown = filled(CaptionForm), _shown(photo_id)
    form.caption.data = shown["found"].photo.caption
    return page("gear/caption_page.html", form=form, **shown)


@bp.post("/photo/<int:photo_id>/caption")
def caption_photo(photo_id: int) -> ResponseReturnValue:
    """Say anew what it shows."""
    form = filled(CaptionForm)
    if form.validate():
        with saving(form) as act:
            services.caption_photo(act.session, act.who, photo_id, form.caption.data or "")
            act.goes_to(url_for("gear.photo_page", photo_id=photo_id), "Saved; what it said before stays to be read.")
        if act.answer:
            return kept(act)
    return refused("gear/caption_page.html", form, **_shown(photo_id))


@bp.get("/items/<tag>/photos")
def side_by_side(tag: str) -> ResponseReturnValue:
    """Before and after: any two photos of a thing, with their marks."""
    form = filled(SideBySideForm)
    form.process(request.args or None)
    with snapshot() as opened:
        item, photos = services.photos_of(opened, current_who(), tag)
    by_id = {str(one.photo.id): one for one in photos}
    said = [(key, f"{day(one.photo.at)}, {one.photo.caption or 'no caption'}") for key, one in by_id.items()]
    form.before.choices = form.after.choices = options(said)
    keys = list(by_id)
    chosen = [box.data if box.data in by_id else keys[at] for box, at in ((form.before, 0), (form.after, -1)) if keys]
    form.before.data, form.after.data = chosen or ("", "")
    pair = [(word, by_id[key], drawn(by_id[key])) for word, key in zip(("Before", "After"), chosen, strict=False)]
    return page("gear/photos.html", item=item, photos=photos, form=form, pair=pair, back=address_of(item.tag))
