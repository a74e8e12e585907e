"""A sheet in the writing by any method but the survey: begun, opened again, and the sheet that it becomes."""

from typing import Any

from flask import request, url_for
from flask.typing import ResponseReturnValue

from yardapp.bench import forms, services, showing
from yardapp.bench.forms.half_done import ActForm
from yardapp.bench.views import bp, measuring
from yardapp.errors import NotFound, Refused
from yardapp.filters import ago
from yardapp.forms import STALE
from yardapp.web import Act, current_who, filled, kept, page, refused, saving, snapshot

BEGUN = "Kept half done, box by box from here on."
UNIT_SAID = {"mm": "millimetres", "in": "inches"}
WRONG = "Not saved yet: look again at what is marked. What you typed is kept."


@bp.post(f"/<tag>/<any({', '.join(forms.WAYS)}):method>/half-done")
def begin_half_done(tag: str, method: str) -> ResponseReturnValue:
    """From now on it is kept as it is written."""
    return _begin(method, tag, None)


@bp.post("/sheets/<int(max=2147483647):sheet_id>/correct/half-done")
def begin_correction(sheet_id: int) -> ResponseReturnValue:
    """The same for a correction; the old sheet stays."""
    with snapshot() as opened:
        row, _ = services.sheet_by_id(opened, current_who(), sheet_id)
    if row.sheet.method not in forms.WAYS:
        raise NotFound("There is no such sheet here.")
    return _begin(row.sheet.method, row.tag, sheet_id)


def _begin(method: str, tag: str, corrects: int | None) -> ResponseReturnValue:
    form = _sent(method, is_correction=corrects is not None)
    with saving(form) as act:
        _hold_ours(form)
        boxes, kind = form.all_typed(), showing.FACES[method].of
        half = services.begin_sheet(act.session, act.who, tag, method, boxes, corrects=corrects, kind=kind)
        act.goes_to(url_for("bench.half_done", half_done_id=half.id), BEGUN)
    if act.answer:
        return kept(act)
    current_who().must("record")
    with snapshot() as opened:
        there = services.at_bench(opened, current_who(), tag, showing.FACES[method].of)
    return refused(f"bench/{method}_sheet.html", form, **measuring.without_form(measuring.around(method, there, form)))


def _sent(method: str, *, is_correction: bool) -> forms.BenchForm:
    """The form as it was sent; the reason is asked for on a correction alone."""
    form = measuring.form_of(method, request.values.get("way"))
    if not is_correction:
        del form["why"]
    return form


def _hold_ours(form: forms.BenchForm) -> None:
    """Refuse what another site sent; a box that can't be read yet may stand on a half-done sheet."""
    if not form.validate() and form["csrf_token"].errors:
        raise Refused(STALE)


def sheet_page(opened: Any, there: services.InWriting) -> ResponseReturnValue:
    """The sheet as it stands; whose it is."""
    form = measuring.form_of(there.row.method, there.typed.get("way"))
    if there.row.corrects_id is None:
        del form["why"]
    _fill(opened, there, form)
    return page(f"bench/{there.row.method}_sheet.html", **_around(there, form))


def _fill(opened: Any, there: services.InWriting, form: forms.BenchForm) -> None:
    form.take(services.tools(opened), there.corrected)
    form.open(there.typed)


def _around(there: services.InWriting, form: forms.BenchForm) -> dict[str, Any]:
    method, tag, corrects = there.row.method, there.item.tag, there.row.corrects_id
    shown = measuring.around(method, services.AtBench(item=there.item, known=there.known), form)
    if corrects:
        shown["heading"] = f"Correct the {showing.FACES[method].heading.lower()} of {tag}"
        shown["preview"] += f"?corrects={corrects}"
        shown["save"] = "Save the correction"
    return shown | {"ways": [], "begin_at": "", "half": _half(there)}


def _half(there: services.InWriting) -> dict[str, Any]:
    """What the page of a half-done sheet says and sends besides its boxes."""
    row = there.row
    number: dict[str, Any] = {"half_done_id": row.id}
    unit = there.typed.get("unit")
    return {
        "whose": f"{', '.join(there.writers)}; begun {ago(row.begun)}",
        "version": row.version,
        "boxes_at": url_for("bench.write_boxes", **number),
        "drop_at": url_for("bench.drop_half_done", **number),
        "drop_form": filled(ActForm, blank=True),
        "is_closed": row.sheet_id is not None or row.is_dropped,
        "kept_at": url_for("bench.sheet", sheet_id=row.sheet_id) if row.sheet_id else "",
        "foreign": "" if unit == current_who().units else UNIT_SAID.get(unit or "", ""),
    }


def keep(there: services.InWriting) -> ResponseReturnValue:
    """Keep the sheet, with what it says as evidence; or only what was typed, and go on."""
    half_done_id, method = there.row.id, there.row.method
    form = _sent(method, is_correction=there.row.corrects_id is not None)
    with saving(form) as act:
        _hold_ours(form)
        seen = request.form.get("seen", 0, type=int)
        services.write_boxes(act.session, act.who, half_done_id, form.all_typed(), seen)
        if request.form.get("act") == "half":
            act.goes_to(url_for("bench.half_done", half_done_id=half_done_id), BEGUN)
        else:
            _become_sheet(act, half_done_id, form)
    if act.answer:
        return kept(act)
    with snapshot() as opened:
        now = services.in_writing(opened, current_who(), half_done_id)
    return refused(f"bench/{method}_sheet.html", form, **measuring.without_form(_around(now, form)))


def _become_sheet(act: Act, half_done_id: int, form: forms.BenchForm) -> None:
    """Judge all that stands on the sheet now, others' boxes included, and keep it."""
    there = services.in_writing(act.session, act.who, half_done_id)
    _fill(act.session, there, form)
    if not form.validate():
        raise Refused(WRONG)
    sheet = measuring.keep_sheet(act, there.row.method, there.item.tag, form, there.row.corrects_id)
    services.finish_sheet(act.session, there.row, sheet.id)
    said = "Corrected. The old sheet stays in the history." if there.row.corrects_id else measuring.KEPT
    act.goes_to(url_for("bench.sheet", sheet_id=sheet.id), said)
