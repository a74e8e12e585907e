"""What is in the writing; of a survey its grid, kept cell by cell, what it says so far, and the sheet it becomes."""

from typing import Any

from flask import render_template, request, url_for
from flask.typing import ResponseReturnValue

from yardapp.bench import services, showing
from yardapp.bench.forms.half_done import ActForm, BoxesForm
from yardapp.bench.forms.survey import SurveyForm
from yardapp.bench.views import bp, writing
from yardapp.bench.views.survey import survey_form
from yardapp.db import transaction
from yardapp.errors import REFUSALS, Refused
from yardapp.filters import ago
from yardapp.forms import STALE
from yardapp.web import Act, current_who, filled, kept, page, refused, saving, snapshot

NO_BOXES = 2**31 - 1  # a version that no sheet reaches: its boxes are not asked for
SURVEY = services.SURVEY.name
UNREADABLE = "Look again at what is marked: it can't be read."


@bp.get("/half-done/<int(max=2147483647):half_done_id>")
def half_done(half_done_id: int) -> ResponseReturnValue:
    """The grid, as it stands; whose it is."""
    with snapshot() as opened:
        there = services.in_writing(opened, current_who(), half_done_id)
        if there.row.method != SURVEY:
            return writing.sheet_page(opened, there)
        form = survey_form()
        form.take(services.tools(opened))
    form.open(there.typed)
    return page("bench/survey_grid.html", form=form, **_around(there, form))


def _around(there: services.InWriting, form: SurveyForm, **shown: Any) -> dict[str, Any]:
    row, tag = there.row, there.item.tag
    number: dict[str, Any] = {"half_done_id": row.id}
    is_correction = row.corrects_id is not None
    return {
        "there": there,
        "tag": tag,
        "heading": f"{'Correct the survey' if is_correction else 'Pitch survey'} of {tag}",
        "whose": f"{', '.join(there.writers)}; begun {ago(row.begun)}",
        "is_closed": row.sheet_id is not None or row.is_dropped,
        "kept_at": url_for("bench.survey_kept", sheet_id=row.sheet_id) if row.sheet_id else "",
        "boxes_at": url_for("bench.write_boxes", **number),
        "preview": url_for("bench.look_at_half_done", **number),
        "drop_at": url_for("bench.drop_half_done", **number),
        "drop_form": filled(ActForm, blank=True),
        "save": "Save the correction" if is_correction else "Save the sheet",
        "caution_said": showing.FACES["survey"].caution,
        "shown": None,
        **shown,
    }


@bp.get("/half-done/<int(max=2147483647):half_done_id>/boxes")
def boxes_since(half_done_id: int) -> ResponseReturnValue:
    """What was written since a version, by anybody."""
    seen = min(max(request.args.get("seen", 0, type=int), 0), NO_BOXES)
    with snapshot() as opened:
        there = services.in_writing(opened, current_who(), half_done_id, since=seen)
    return _boxes_said(there.row, there.log)


@bp.post("/half-done/<int(max=2147483647):half_done_id>/boxes")
def write_boxes(half_done_id: int) -> ResponseReturnValue:
    """Keep what was typed into some boxes; gives what others wrote meanwhile."""
    form = filled(BoxesForm)
    boxes = form.texts()
    if not form.validate() or boxes is None:
        return {"said": "Not kept: open the page anew."}, 422
    try:
        with transaction() as session:
            half, since = services.write_boxes(session, current_who(), half_done_id, boxes, form.seen.data or 0)
        return _boxes_said(half, since)
    except Refused as refusal:
        return {"said": refusal.said}, 409


def _boxes_said(half: Any, since: Any) -> dict[str, Any]:
    gone = url_for("bench.sheet", sheet_id=half.sheet_id) if half.sheet_id else ""
    return {
        "version": half.version,
        "boxes": {box.name: {"typed": box.typed, "by": box.said_by} for box in since},
        "kept_at": gone,
    }


@bp.post("/half-done/<int(max=2147483647):half_done_id>/look")
def look_at_half_done(half_done_id: int) -> ResponseReturnValue:
    """What the survey would say now; saves nothing. A part of the page for a page that asks, else the whole page."""
    form, is_part = survey_form(), bool(request.headers.get("HX-Request"))
    with snapshot() as opened:
        there = services.in_writing(opened, current_who(), half_done_id, since=NO_BOXES if is_part else 0)
        form.take(services.tools(opened))
        form.validate()
        outcome = _looked(opened, there, form)
    shown = _shown(outcome)
    if is_part:
        return render_template("bench/survey_looked.html", form=form, shown=shown, **_still(form))
    return page("bench/survey_grid.html", form=form, **_around(there, form, shown=shown))


def _looked(opened: Any, there: services.InWriting, form: SurveyForm) -> services.Outcome | None:
    """What the readings say, as far as they reach; a refusal is told above them."""
    if form.still_to_read() or not form.grid.readings():
        return None
    try:
        reading = services.SurveyReading(**form.reading())
        corrects = there.row.corrects_id
        return services.look(opened, current_who(), there.item.tag, services.SURVEY, reading, corrects).outcome
    except REFUSALS as refusal:
        form.tell(refusal)
        return None


def _shown(outcome: services.Outcome | None) -> Any:
    return None if outcome is None else showing.of_survey(outcome, current_who().units)


def _still(form: SurveyForm) -> dict[str, Any]:
    empty = [cell for cell in form.grid.cells() if not cell.typed]
    return {
        "still": form.still_to_read(),
        "wrong": form.misread(),
        "overall": form.form_errors,
        "halves": form.grid.halves(),
        "empty": len(empty),
        "next": empty[0] if empty else None,
    }


@bp.post("/half-done/<int(max=2147483647):half_done_id>")
def keep_half_done(half_done_id: int) -> ResponseReturnValue:
    """Keep the sheet, with what it says as evidence; or lay a survey's grid out again and go on."""
    with snapshot() as opened:
        there = services.in_writing(opened, current_who(), half_done_id, since=NO_BOXES)
    return writing.keep(there) if there.row.method != SURVEY else _keep_survey(half_done_id)


def _keep_survey(half_done_id: int) -> ResponseReturnValue:
    form = survey_form()
    seen = request.form.get("seen", 0, type=int)
    is_layout = request.form.get("act") == "layout"
    is_ours = form.validate() or not form["csrf_token"].errors
    with saving(form) as act:
        if not is_ours:
            raise Refused(STALE)
        services.write_boxes(act.session, act.who, half_done_id, form.all_typed(), seen)
        if is_layout:
            act.goes_to(url_for("bench.half_done", half_done_id=half_done_id), "Laid out again. Nothing was lost.")
        else:
            _become_sheet(act, half_done_id, form)
    if act.answer:
        return kept(act)
    with snapshot() as opened:
        there = services.in_writing(opened, current_who(), half_done_id)
        form.take(services.tools(opened))
    return refused("bench/survey_grid.html", form, **_around(there, form, **_still(form)))


def _become_sheet(act: Act, half_done_id: int, form: SurveyForm) -> None:
    """Judge all that stands on the sheet now, others' boxes included, and keep it."""
    there = services.in_writing(act.session, act.who, half_done_id)
    form.take(services.tools(act.session))
    form.open(there.typed)
    if not form.validate() or form.misread() or form.grid.halves():
        raise Refused(UNREADABLE)
    reading = services.SurveyReading(**form.reading())
    sheet = services.keep_survey(act.session, act.who, there, reading, form.boxes(), form.note.data or "")
    said = "Corrected. The old sheet stays in the history." if there.row.corrects_id else "The sheet is kept."
    act.goes_to(url_for("bench.survey_kept", sheet_id=sheet.id), said)


@bp.post("/half-done/<int(max=2147483647):half_done_id>/drop")
def drop_half_done(half_done_id: int) -> ResponseReturnValue:
    """Put it aside, or take it up again."""
    form = filled(ActForm)
    is_dropped = request.form.get("act") != "take_up"
    with saving(form) as act:
        if not form.validate():
            raise Refused(STALE)
        services.drop_sheet(act.session, act.who, half_done_id, is_dropped=is_dropped)
        said = "Put aside. Nothing is lost: take it up again here." if is_dropped else "Taken up again."
        act.goes_to(url_for("bench.half_done", half_done_id=half_done_id), said)
    if act.answer:
        return kept(act)
    return half_done(half_done_id)
