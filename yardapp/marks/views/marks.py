"""Pages of the marks: read one, keep one, take what a table reads in it."""

from flask import render_template, request, url_for
from flask.typing import ResponseReturnValue

from yardapp.errors import Refused
from yardapp.marks import forms, services, showing
from yardapp.marks.views.door import bp
from yardapp.pictures import bring_photo
from yardapp.web import current_who, filled, kept, page, refused, saving, snapshot

LONGEST = 80


@bp.get("")
def mark_page() -> ResponseReturnValue:
    """Read a mark, or two of one hub, without keeping them."""
    form = filled(forms.MarkForm)
    for name in ("stamp", "beside", "newer"):
        form[name].data = _asked(name)
    return page("marks/mark_page.html", form=form, **_read_asked(), tag=None)


def _asked(name: str) -> str:
    return request.args.get(name, "")[:LONGEST]


def _read_asked() -> dict[str, object]:
    """What the mark in the address says as plain sizes and by every table."""
    seen = _asked("stamp")
    if not seen.strip():
        return {"rows": None, "found": None, "refusal": ""}
    units = current_who().units
    plain = showing.shown(services.decode(seen), units)
    try:
        with snapshot() as opened:
            asked = services.read_mark(opened, seen, _asked("beside"), _asked("newer"))
    except Refused as refusal:
        return {"rows": plain, "found": None, "refusal": refusal.said}
    return {"rows": plain, "found": showing.asked(asked, units), "refusal": ""}


@bp.get("/read")
def read_mark() -> ResponseReturnValue:
    """What a mark says, for a page that asks as people type."""
    tag = request.args.get("tag", "")
    if tag and _asked("stamp").strip():
        return render_template("marks/reading.html", **_of_tag(tag, _asked("stamp")))
    return render_template("marks/reading.html", **_read_asked(), tag=None)


def _of_tag(tag: str, seen: str = "") -> dict[str, object]:
    """The marks of one propeller, and how the one asked for reads with its measurements."""
    who = current_who()
    with snapshot() as opened:
        found = services.marks_page(opened, who, tag, seen)
    asked = found.asked
    return {
        "tag": found.tag,
        "history": showing.history(found.marks),
        "rows": showing.shown(services.decode(asked.readings.seen), who.units) if asked else None,
        "found": showing.asked(asked, who.units) if asked else None,
        "refusal": "",
        "take": filled(forms.TakeForm, blank=True),
        "may_take": who.may("record"),
        "measured": len(found.measured),
    }


@bp.get("/of/<tag>")
def mark_for(tag: str) -> ResponseReturnValue:
    """The marks of one propeller, how its newest reads, and one more."""
    form = filled(forms.MarkForm)
    form.stamp.data = _asked("stamp")
    return page("marks/mark_page.html", form=form, **_of_tag(tag, form.stamp.data))


@bp.post("/of/<tag>")
def record_mark(tag: str) -> ResponseReturnValue:
    """Keep a mark as seen, with what it says as evidence, and its photo."""
    form = filled(forms.MarkForm)
    is_fine, picture = form.validate(), bring_photo(form)
    if is_fine and not form.photo.errors:
        said = {name: form[name].data or "" for name in ("spot", "struck")}
        with saving(form) as act:
            services.record_mark_of(act.session, act.who, tag, form.stamp.data or "", **said, picture=picture)
            act.goes_to(url_for("gear.propeller", tag=tag), "The mark is kept, and what it says.")
        if act.answer:
            return kept(act)
    return refused("marks/mark_page.html", form, **_of_tag(tag, form.stamp.data or ""))


@bp.post("/of/<tag>/take")
def take_reading(tag: str) -> ResponseReturnValue:
    """Take a reading by a table as evidence: one tap."""
    take = filled(forms.TakeForm)
    if take.validate():
        with saving(take) as act:
            services.take_reading(
                act.session, act.who, tag, take.stamp.data or "", take.which.data or "", spot=take.spot.data or ""
            )
            act.goes_to(url_for("gear.propeller", tag=tag), "The reading is taken as evidence.")
        if act.answer:
            return kept(act)
    form = filled(forms.MarkForm, blank=True)
    form.form_errors.extend(take.overall or ["; ".join(str(one) for one in take.stamp.errors)])
    return refused("marks/mark_page.html", form, **_of_tag(tag, take.stamp.data or ""))
