"""Verdicts that were kept: one, and all of a propeller or of a drive."""

from flask import url_for
from flask.typing import ResponseReturnValue

from yardapp.fit import forms, services, showing
from yardapp.fit.views import bp
from yardapp.web import current_who, filled, kept, page, refused, saving, snapshot


@bp.post("/<tag>/on/<int:drive_id>/keep")
def keep_verdict(tag: str, drive_id: int) -> ResponseReturnValue:
    """Keep the verdict as it stands now."""
    form = filled(forms.KeepForm)
    if form.validate():
        with saving(form) as act:
            say = showing.say_in(act.who.units)
            rule, note = form.rule.data or "15 %", form.note.data or ""
            made = services.keep_verdict(act.session, act.who, tag, drive_id, rule=rule, note=note, say=say)
            act.goes_to(
                url_for("fit.kept_verdict", kept_id=made.id), "Kept. It says by itself when it no longer holds."
            )
        if act.answer:
            return kept(act)
    back = url_for("fit.verdict", tag=tag, drive_id=drive_id)
    return refused("fit/keep_page.html", form, tag=tag, back=back)


@bp.get("/kept/<int:kept_id>")
def kept_verdict(kept_id: int) -> ResponseReturnValue:
    """A verdict of one day, and what has changed since."""
    who = current_who()
    with snapshot() as opened:
        found = services.kept_verdict(opened, who, kept_id)
    return page(
        "fit/kept_verdict.html",
        found=found,
        kept=found.kept,
        when=showing.kept_when(found),
        ended=showing.ended(found),
        premises=showing.premise_rows(found, who.units),
        rows=showing.kept_checks(found, who.units, lambda name: url_for("front.formula", name=name)),
    )


@bp.get("/<tag>/kept")
def kept_of_propeller(tag: str) -> ResponseReturnValue:
    """Every verdict kept of a propeller."""
    with snapshot() as opened:
        tag, found = services.kept_of_propeller(opened, current_who(), tag)
    back = url_for("gear.propeller", tag=tag)
    return _listed(f"Verdicts kept of {tag}", found, back, f"Back to {tag}", url_for("fit.choose", tag=tag))


@bp.get("/on/<int:drive_id>/kept")
def kept_of_drive(drive_id: int) -> ResponseReturnValue:
    """Every verdict kept of a drive."""
    with snapshot() as opened:
        name, found = services.kept_of_drive(opened, current_who(), drive_id)
    back = url_for("vessels.drive_page", drive_id=drive_id)
    ask = url_for("fit.choose_propeller", drive_id=drive_id)
    return _listed(f"Verdicts kept of {name}", found, back, "Back to the drive", ask)


def _listed(heading: str, found: list[services.KeptVerdict], back: str, back_label: str, ask: str) -> str:
    rows = [showing.kept_row(one, url_for("fit.kept_verdict", kept_id=one.kept.id)) for one in found]
    return page("fit/kept.html", heading=heading, rows=rows, back=back, back_label=back_label, ask=ask)
