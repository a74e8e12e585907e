"""Pages of the marks: read one, keep one."""

from flask import Blueprint, render_template, request, url_for
from flask.typing import ResponseReturnValue

from yardapp.marks import forms, services, showing
from yardapp.web import current_who, filled, kept, page, refused, saving, snapshot

bp = Blueprint("marks", __name__, url_prefix="/marks")


@bp.get("")
def mark_page() -> ResponseReturnValue:
    """Read a mark without keeping it."""
    form = filled(forms.MarkForm)
    form.stamp.data = request.args.get("stamp", "")[:80]
    return page("marks/mark_page.html", form=form, rows=_read(form.stamp.data), tag=None)


def _read(seen: str) -> showing.Shown | None:
    return showing.shown(services.decode(seen), current_who().units) if seen.strip() else None


@bp.get("/read")
def read_mark() -> ResponseReturnValue:
    """What a mark says, for a page that asks as people type."""
    return render_template("marks/reading.html", rows=_read(request.args.get("stamp", "")[:80]))


@bp.get("/of/<tag>")
def mark_for(tag: str) -> ResponseReturnValue:
    """The marks of one propeller, and one more."""
    with snapshot() as opened:
        seen = services.marks_of_tag(opened, current_who(), tag)
    form = filled(forms.MarkForm)
    return page("marks/mark_page.html", form=form, rows=None, tag=tag.upper(), history=showing.history(seen))


@bp.post("/of/<tag>")
def record_mark(tag: str) -> ResponseReturnValue:
    """Keep a mark as seen, with what it says as evidence."""
    form = filled(forms.MarkForm)
    if form.validate():
        with saving(form) as act:
            services.record_mark_of(act.session, act.who, tag, form.stamp.data or "", spot=form.spot.data or "")
            act.goes_to(url_for("gear.propeller", tag=tag), "The mark is kept, and what it says.")
        if act.answer:
            return kept(act)
    with snapshot() as opened:
        seen = services.marks_of_tag(opened, current_who(), tag)
    rows = _read(form.stamp.data or "")
    return refused("marks/mark_page.html", form, rows=rows, tag=tag.upper(), history=showing.history(seen))
