"""One figure of one item: every statement about it, one more, a correction."""

from typing import Any

from flask import url_for
from flask.typing import ResponseReturnValue

from yardapp.errors import NotFound
from yardapp.fields import LengthField
from yardapp.forms import options
from yardapp.gear import forms, services, showing
from yardapp.gear.figures import FIGURES, FigureName
from yardapp.gear.views import bp
from yardapp.gear.views.finding import address_of
from yardapp.web import current_who, filled, kept, page, refused, saving, snapshot

BOXES = {kind: kind for kind in ("length", "taper", "count", "number", "mass", "word")}


def _figure(what: str) -> FigureName:
    if what not in FIGURES:
        raise NotFound(f"There is no figure called {what}.")
    return FIGURES[what]


def fitted(form: forms.EvidenceForm, figure: FigureName) -> forms.EvidenceForm:
    """Leave the one box that this figure is typed in."""
    for kind, box in BOXES.items():
        if kind != figure.kind and box in form:
            del form[box]
    if figure.kind != "length":
        del form["plus_minus"]
    if figure.is_word:
        form["word"].choices = options([("", "choose"), *forms.WORD_CHOICES[figure.name]])
    form[BOXES[figure.kind]].label.text = figure.label
    return form


def said_with(form: forms.EvidenceForm, figure: FigureName) -> services.Said:
    """What the form says, as a statement; the ± that people type is k = 2."""
    box: Any = form[BOXES[figure.kind]]
    half_width = form["plus_minus"].data if "plus_minus" in form else None
    return services.Said(
        what=figure.name,
        basis=form.basis.data,
        value=None if figure.is_word or box.data is None else float(box.data),
        u_value=half_width / 2 if half_width else (0.0 if figure.kind == "count" else None),
        word=(box.data or None) if figure.is_word else None,
        typed=box.typed if isinstance(box, LengthField) else str(getattr(box, "typed", "") or box.data or ""),
        note=form.note.data or "",
    )


def _page(tag: str, what: str, **shown: Any) -> dict[str, Any]:
    figure, who = _figure(what), current_who()
    with snapshot() as opened:
        found = services.item_page(opened, who, tag)
    item = found.item
    lines = [line for line in found.evidence if line.kind == what]

    def href(line: services.Line) -> str | None:
        if line.source == "sheet":
            return url_for("bench.sheet", sheet_id=line.source_id)
        is_open = not line.is_replaced and (line.value is not None or line.word is not None)
        return (
            url_for("gear.correct_page", tag=item.tag, evidence_id=line.id) if is_open and who.may("record") else None
        )

    rows = showing.evidence_rows(lines, who.units, href, found)
    ways = showing.ways_of(item.kind, what)
    return {"found": found, "figure": figure, "rows": rows, "ways": ways, "back": address_of(item.tag), **shown}


@bp.get("/items/<tag>/figures/<what>")
def figure(tag: str, what: str) -> ResponseReturnValue:
    """Everything that was ever said of one figure."""
    form = fitted(filled(forms.EvidenceForm), _figure(what))
    return page("gear/figure.html", **_page(tag, what, form=form))


@bp.post("/items/<tag>/figures/<what>")
def add_evidence(tag: str, what: str) -> ResponseReturnValue:
    """One more statement."""
    form = fitted(filled(forms.EvidenceForm), _figure(what))
    if form.validate() and _is_said(form, _figure(what)):
        with saving(form) as act:
            services.note_evidence(act.session, act.who, tag, said_with(form, _figure(what)))
            act.goes_to(url_for("gear.figure", tag=tag, what=what), "Kept.")
        if act.answer:
            return kept(act)
    return refused("gear/figure.html", **_page(tag, what, form=form))


def _is_said(form: forms.EvidenceForm, figure: FigureName) -> bool:
    """An empty figure says nothing."""
    box = form[BOXES[figure.kind]]
    if box.data in (None, ""):
        box.errors = [*box.errors, f"{figure.label} is missing."]
    return not box.errors


def _line(tag: str, evidence_id: int) -> tuple[services.Line, str]:
    with snapshot() as opened:
        found = services.item_page(opened, current_who(), tag)
    line = found.statement(evidence_id)
    if line is None or line.kind not in FIGURES:
        raise NotFound("There is no such statement on this page.")
    return line, found.item.tag


@bp.get("/items/<tag>/statements/<int:evidence_id>")
def correct_page(tag: str, evidence_id: int) -> ResponseReturnValue:
    """Put another statement in the place of a wrong one."""
    line, tag = _line(tag, evidence_id)
    form = fitted(filled(forms.CorrectForm), _figure(line.kind))
    form.basis.data = line.basis
    said = showing.evidence_rows([line], current_who().units, lambda _line: None)
    return page("gear/correct_page.html", form=form, figure=_figure(line.kind), said=said, tag=tag)


@bp.post("/items/<tag>/statements/<int:evidence_id>")
def correct_evidence(tag: str, evidence_id: int) -> ResponseReturnValue:
    """Correct it; the old one stays in the history."""
    line, tag = _line(tag, evidence_id)
    figure_ = _figure(line.kind)
    form = fitted(filled(forms.CorrectForm), figure_)
    is_withdrawn = form["is_withdrawn"].data == "yes"
    if form.validate() and (is_withdrawn or _is_said(form, figure_)):
        with saving(form) as act:
            said = None if is_withdrawn else said_with(form, figure_)
            services.correct_evidence(act.session, act.who, evidence_id, said, why=form["why"].data or "")
            act.goes_to(
                url_for("gear.figure", tag=tag, what=line.kind), "Corrected. The old statement stays in the history."
            )
        if act.answer:
            return kept(act)
    said_rows = showing.evidence_rows([line], current_who().units, lambda _line: None)
    return refused("gear/correct_page.html", form, figure=figure_, said=said_rows, tag=tag)
