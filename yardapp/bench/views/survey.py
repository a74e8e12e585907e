"""Begin a survey: how it is laid out, whose are in the writing, and a blank one to print."""

from typing import Any

from flask import request, url_for
from flask.typing import ResponseReturnValue

from yardapp.bench import paper, services, showing
from yardapp.bench.forms.survey import SurveyForm
from yardapp.bench.views import bp
from yardapp.filters import ago
from yardapp.web import current_who, filled, kept, page, refused, saving, snapshot

LAYOUT = ("radii", "angles", "way", "blades", "stations")
FROM_REGISTER = ("blades", "hand", "diameter_m")


def survey_form(*, blank: bool = False) -> SurveyForm:
    """A survey's form; without the reason, which is asked before a correction is opened."""
    form = filled(SurveyForm, blank=blank)
    del form["why"]
    return form


@bp.get("/<tag>/survey")
def survey_sheet(tag: str) -> ResponseReturnValue:
    """How to lay it out, with what the register knows; and the sheets that somebody began."""
    current_who().must("record")
    form = survey_form()
    with snapshot() as opened:
        there = services.at_bench(opened, current_who(), tag)
        begun = services.sheets_in_writing(opened, current_who(), there.item.tag)
    for name in FROM_REGISTER:
        if getattr(there.known, name) is not None:
            form[name].data = getattr(there.known, name)
    form["unit"].data = current_who().units
    return page("bench/survey_setup.html", form=form, **_around(there, form, begun))


def _around(there: services.AtBench, form: SurveyForm, begun: list[services.InWriting]) -> dict[str, Any]:
    tag = there.item.tag
    return {
        "tag": tag,
        "heading": f"Survey the pitch of {tag}",
        "begun": [in_writing_row(one) for one in begun],
        "blank": url_for("bench.blank_survey", tag=tag),
        "caution_said": showing.FACES["survey"].caution,
        "picture": _picture(there, form),
    }


def _picture(there: services.AtBench, form: SurveyForm) -> Any:
    return paper.survey_picture(there.known, form.grid.radii, len(form.grid.heads))


def in_writing_row(one: services.InWriting) -> dict[str, str]:
    """One sheet in the writing, in a list: whose it is."""
    return {
        "tag": one.item.tag,
        "href": url_for("bench.half_done", half_done_id=one.row.id),
        "size": f"{showing.FACES[one.row.method].label}, {'a correction' if one.row.corrects_id else 'half done'}",
        "where": f"{one.row.said_by}'s, last written {ago(one.row.touched)}",
        "flag": "",
    }


@bp.post("/<tag>/survey")
def begin_survey(tag: str) -> ResponseReturnValue:
    """Begin it: from now on it is kept as it is written."""
    form = survey_form()
    if form.validate():
        with saving(form) as act:
            half = services.begin_survey(act.session, act.who, tag, form.all_typed())
            act.goes_to(url_for("bench.half_done", half_done_id=half.id), "Kept from here on, cell by cell.")
        if act.answer:
            return kept(act)
    current_who().must("record")
    with snapshot() as opened:
        there = services.at_bench(opened, current_who(), tag)
        begun = services.sheets_in_writing(opened, current_who(), there.item.tag)
    return refused("bench/survey_setup.html", form, **_around(there, form, begun))


@bp.get("/<tag>/survey/blank")
def blank_survey(tag: str) -> ResponseReturnValue:
    """A blank survey to take along, laid out as asked."""
    who = current_who()
    who.must("record")
    with snapshot() as opened:
        there = services.at_bench(opened, who, tag)
    form = survey_form()
    form.open({name: request.args[name] for name in LAYOUT if name in request.args})
    form["blades"].data = form["blades"].data or there.known.blades or paper.MOST_BLADES
    return page(
        "bench/survey_blank.html",
        tag=there.item.tag,
        heading=f"Pitch survey of {there.item.tag}, to write on",
        grid=form.grid,
        form=form,
        picture=_picture(there, form),
        known=paper.known_rows(there.item.tag, there.known, who.units),
        caution_said=showing.FACES["survey"].caution,
        back=url_for("bench.survey_sheet", tag=there.item.tag),
    )
