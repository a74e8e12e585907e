"""What is on each thing, how it looked at haul-out, and how long coats last across the yard."""

from datetime import date, datetime, time
from typing import Any

from flask import redirect, request, url_for
from flask.typing import ResponseReturnValue

from yardapp.coating import forms, services
from yardapp.coating.history import RATINGS
from yardapp.coating.showing import lasting as showing
from yardapp.coating.views import bp
from yardapp.db import now
from yardapp.filters import day
from yardapp.pictures import sent_photo
from yardapp.web import current_who, filled, kept, page, refused, saving, snapshot

BY = {"way": "Brush or roller", "temperature": "Metal", "windows": "Windows", "version": "Version"}


@bp.get("/items/<tag>")
def of_item(tag: str) -> ResponseReturnValue:
    """The coating history of a tagged thing."""
    with snapshot() as opened:
        found = services.history_of(opened, current_who(), tag)
    return page("coating/history.html", **_shown(found))


@bp.get("/pieces/<int:piece_id>")
def of_piece(piece_id: int) -> ResponseReturnValue:
    """The history of whatever a piece of a job is."""
    with snapshot() as opened:
        tag = services.tag_of(opened, current_who(), piece_id)
        if tag:
            return redirect(url_for("coating.of_item", tag=tag), code=302)
        found = services.history_of_piece(opened, current_who(), piece_id)
    return page("coating/history.html", **_shown(found))


def _shown(found: services.History) -> dict[str, Any]:
    now_s = now().timestamp()
    may = current_who().may("see")
    return {
        "found": found,
        "rows": [showing.coat(row, now_s, _href_of_rating) for row in found.rows],
        "hrefs": [url_for("coating.job", job_id=row.job_id) if may else None for row in found.rows],
        "last": found.last,
    }


def _href_of_rating(rating_id: int) -> str | None:
    return url_for("coating.correct_rating_page", rating_id=rating_id) if current_who().may("record") else None


def _piece(piece_id: int) -> tuple[services.History, forms.RatingForm]:
    with snapshot() as opened:
        found = services.history_of_piece(opened, current_who(), piece_id)
    return found, filled(forms.RatingForm).of(found.blades, found.name)


def _back(piece_id: int) -> str:
    return url_for("coating.of_piece", piece_id=piece_id)


@bp.get("/pieces/<int:piece_id>/rate")
def rate_page(piece_id: int) -> ResponseReturnValue:
    """How does it look?"""
    current_who().must("record")
    found, form = _piece(piece_id)
    return page("coating/rate_page.html", form=form, found=found, back=_back(piece_id))


@bp.post("/pieces/<int:piece_id>/rate")
def rate(piece_id: int) -> ResponseReturnValue:
    """Write down how it looks."""
    found, form = _piece(piece_id)
    picture = sent_photo(form)
    if form.validate() and not form.photo.errors:
        with saving(form) as act:
            words, note = form.words(found.blades), form.note.data or ""
            services.rate(act.session, act.who, piece_id, words, at=_noon(form.at.data), note=note, picture=picture)
            act.goes_to(_back(piece_id), "Written down.")
        if act.answer:
            return kept(act)
    return refused("coating/rate_page.html", form, found=found, back=_back(piece_id))


def _noon(on: date | None) -> datetime | None:
    """Noon of a day on the yard's own clock; of today, no later than now."""
    if on is None:
        return None
    at = datetime.combine(on, time(12)).astimezone()
    return min(at, now()) if on == now().astimezone().date() else at


def _wrong(rating_id: int) -> tuple[forms.CorrectRatingForm, dict[str, Any], Any]:
    """The form, what the page says around it, and the rating as it stands."""
    current_who().must("record")
    with snapshot() as opened:
        # What is sent a second time is answered as the first time, though that row is replaced by now.
        sent = request.method == "POST"
        rating, piece = services.rating_by_id(opened, current_who(), rating_id, even_replaced=sent)
    form = filled(forms.CorrectRatingForm, rating)
    name = f"blade {rating.blade} of {piece.label}" if rating.blade else piece.label
    said = f"{rating.word.capitalize()}, {day(rating.at)}, {rating.said_by}"
    if not sent:
        form.at.data, form.why.data = rating.at.astimezone().date(), ""
    return form, {"name": name, "said": said, "back": _back(piece.id)}, rating


@bp.get("/ratings/<int:rating_id>/correct")
def correct_rating_page(rating_id: int) -> ResponseReturnValue:
    """Put another word in the place of a wrong one."""
    form, shown, _rating = _wrong(rating_id)
    return page("coating/correct_rating_page.html", form=form, **shown)


@bp.post("/ratings/<int:rating_id>/correct")
def correct_rating(rating_id: int) -> ResponseReturnValue:
    """Put it right; the old row stays."""
    form, shown, rating = _wrong(rating_id)
    if form.validate():
        with saving(form) as act:
            at = None if form.at.data == rating.at.astimezone().date() else _noon(form.at.data)
            said = {"word": form.word.data, "why": form.why.data or "", "note": form.note.data or ""}
            services.correct_rating(act.session, act.who, rating_id, at=at, **said)
            act.goes_to(shown["back"], "Put right. The old row stays.")
        if act.answer:
            return kept(act)
    return refused("coating/correct_rating_page.html", form, **shown)


@bp.get("/lives")
def lives() -> ResponseReturnValue:
    """How long each system lasts, as far as the yard has seen."""
    chosen = request.args.get("by", "")
    by = chosen if chosen in BY else "way"
    with snapshot() as opened:
        rows = services.coatings(opened, current_who())
    return page(
        "coating/lives.html",
        shown=showing.lives_shown(rows, now().timestamp(), ("system", by), href=_back),
        words=RATINGS,
        tabs=[(label, url_for("coating.lives", by=name), name == by) for name, label in BY.items()],
    )
