"""A kept survey, and the way to its correction."""

from typing import Any

from flask import url_for
from flask.typing import ResponseReturnValue

from yardapp.bench import services, showing
from yardapp.bench.forms.half_done import WhyForm
from yardapp.bench.forms.survey import SurveyForm
from yardapp.bench.views import bp
from yardapp.bench.views.comparing import others_to_compare
from yardapp.bench.views.survey import survey_form
from yardapp.errors import NotFound
from yardapp.web import current_who, filled, kept, page, refused, saving, snapshot


@bp.get("/surveys/<int(max=2147483647):sheet_id>")
def survey_kept(sheet_id: int) -> ResponseReturnValue:
    """What it says, and every cell as it was typed."""
    with snapshot() as opened:
        row, _ = _survey(opened, sheet_id)
        others = services.others_like(opened, row)
    form = _as_typed(row)
    return page(
        "bench/survey_kept.html",
        row=row,
        tag=row.tag,
        heading=f"Pitch survey of {row.tag}",
        shown=showing.of_survey(services.Outcome.from_kept(row.sheet.results), current_who().units),
        form=form,
        before=showing.before(row),
        perhaps=showing.perhaps(row),
        others=others_to_compare(sheet_id, others),
        tools=[row.sheet.readings.get(name) for name in ("height_tool", "angle_rad_tool")],
    )


@bp.get("/surveys/<int(max=2147483647):sheet_id>/shop")
def survey_letter(sheet_id: int) -> ResponseReturnValue:
    """The letter for the propeller shop: what to do to which blade."""
    row, there = _opened(sheet_id)
    shown = showing.of_survey(services.Outcome.from_kept(row.sheet.results), current_who().units)
    block = showing.letter_rows(row.tag, there.known, row.sheet.results["more"]["survey"], current_who().units)
    heading = f"For the propeller shop: {row.tag}"
    return page("bench/survey_letter.html", row=row, tag=row.tag, heading=heading, block=block, shown=shown)


def _survey(opened: Any, sheet_id: int) -> tuple[services.SheetRow, services.AtBench]:
    row, there = services.sheet_by_id(opened, current_who(), sheet_id)
    if row.sheet.method != services.SURVEY.name:
        raise NotFound("There is no such survey here.")
    return row, there


def _opened(sheet_id: int) -> tuple[services.SheetRow, services.AtBench]:
    with snapshot() as opened:
        return _survey(opened, sheet_id)


def _as_typed(row: services.SheetRow) -> SurveyForm:
    form = survey_form()
    form.open(services.boxes_of(row.sheet.readings, row.sheet.note))
    return form


@bp.get("/surveys/<int(max=2147483647):sheet_id>/correct")
def correct_survey(sheet_id: int) -> ResponseReturnValue:
    """Ask why, before it is opened."""
    current_who().must("record")
    row, _ = _opened(sheet_id)
    return page("bench/survey_correct.html", form=filled(WhyForm), row=row, heading=f"Correct the survey of {row.tag}")


@bp.post("/surveys/<int(max=2147483647):sheet_id>/correct")
def open_correction(sheet_id: int) -> ResponseReturnValue:
    """The survey again as it was typed, to be written on; the old one stays."""
    current_who().must("record")
    row, _ = _opened(sheet_id)
    form = filled(WhyForm)
    if form.validate():
        with saving(form) as act:
            half = services.begin_correction(act.session, act.who, row, form.why.data or "")
            act.goes_to(url_for("bench.half_done", half_done_id=half.id), "Open for correction. The old sheet stays.")
        if act.answer:
            return kept(act)
    return refused("bench/survey_correct.html", form, row=row, heading=f"Correct the survey of {row.tag}")
