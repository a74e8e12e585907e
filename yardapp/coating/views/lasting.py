"""What is on each thing, how it looked at haul-out, and how long coats last across the yard."""

from datetime import datetime, time
from typing import Any

from flask import redirect, request, url_for
from flask.typing import ResponseReturnValue

from yardapp.coating import forms, services
from yardapp.coating.history import RATINGS
from yardapp.coating.showing import lasting as showing
from yardapp.coating.views import bp
from yardapp.coating.views.photos import picture_of
from yardapp.db import now
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
        "rows": [showing.coat(row, now_s) for row in found.rows],
        "hrefs": [url_for("coating.job", job_id=row.job_id) if may else None for row in found.rows],
        "last": found.last,
    }


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
    picture = picture_of(form)
    if form.validate() and not form.photo.errors:
        with saving(form) as act:
            at = None if form.at.data is None else datetime.combine(form.at.data, time(12)).astimezone()
            words = form.words(found.blades)
            said = {"at": None if at is None else min(at, now()) if at.date() == now().date() else at}
            services.rate(act.session, act.who, piece_id, words, note=form.note.data or "", picture=picture, **said)
            act.goes_to(_back(piece_id), "Written down.")
        if act.answer:
            return kept(act)
    return refused("coating/rate_page.html", form, found=found, back=_back(piece_id))


@bp.get("/lives")
def lives() -> ResponseReturnValue:
    """How long each system lasts, as far as the yard has seen."""
    chosen = request.args.get("by", "")
    by = chosen if chosen in BY else "way"
    with snapshot() as opened:
        rows = services.coatings(opened, current_who())
    return page(
        "coating/lives.html",
        shown=showing.lives_shown(rows, now().timestamp(), ("system", by)),
        words=RATINGS,
        tabs=[(label, url_for("coating.lives", by=name), name == by) for name, label in BY.items()],
    )
