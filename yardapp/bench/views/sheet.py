"""One kept sheet, and its correction."""

from typing import Any

from flask import redirect, url_for
from flask.typing import ResponseReturnValue

from yardapp.bench import forms, services, showing
from yardapp.bench.views import bp, measuring
from yardapp.bench.views.comparing import others_to_compare
from yardapp.web import current_who, kept, page, refused, saving, snapshot


@bp.get("/sheets/<int:sheet_id>")
def sheet(sheet_id: int) -> ResponseReturnValue:
    """Readings as typed, tool, who, when, and every sum opened."""
    who = current_who()
    with snapshot() as opened:
        row, there = services.sheet_by_id(opened, who, sheet_id)
        others = services.others_like(opened, row)
    own = showing.FACES[row.sheet.method].page
    if own:
        return redirect(url_for(own, sheet_id=sheet_id))
    outcome = services.Outcome.from_kept(row.sheet.results)
    return page(
        "bench/sheet.html",
        row=row,
        tag=row.tag,
        kind=there.item.kind,
        heading=f"{showing.FACES[row.sheet.method].heading} of {row.tag}",
        way=forms.WAYS[row.sheet.method][_way(row)].ABOUT,
        shown=showing.shown(row.sheet.method, outcome, row.sheet.readings, there.known, who.units),
        typed=showing.as_typed(row.sheet.readings, who.units),
        before=showing.before(row),
        perhaps=showing.perhaps(row),
        others=others_to_compare(sheet_id, others),
        next_blade=_next_blade(row, there),
    )


def _next_blade(row: services.SheetRow, there: services.AtBench) -> tuple[str, str] | None:
    """After one blade's quick pitch the next one's, at the same mark and in the same way."""
    blade, count = row.sheet.readings.get("blade"), there.known.blades
    if row.sheet.method != services.PITCH.name or not blade or not count or row.replaced_by:
        return None
    after = blade % count + 1
    asked = {"way": _way(row), "blade": after, "mark": row.sheet.readings.get("radius_m")}
    return f"Read blade {after}", url_for("bench.pitch_sheet", tag=row.tag, **asked)


def _way(row: services.SheetRow) -> str:
    """The way that it was read: as the sheet says, else the one that has most of its readings."""
    ways, readings = forms.WAYS[row.sheet.method], row.sheet.readings
    said = str(readings.get("way"))
    return said if said in ways else max(ways, key=lambda way: sum(name in readings for name in ways[way].TOOL_OF))


def _opened(sheet_id: int) -> tuple[services.SheetRow, services.AtBench, forms.BenchForm]:
    """The sheet to be corrected, and the form that it was written on."""
    current_who().must("record")
    with snapshot() as opened:
        row, there = services.sheet_by_id(opened, current_who(), sheet_id)
        form = measuring.form_of(row.sheet.method, _way(row))
        form.take(services.tools(opened), row.sheet.readings)
    return row, there, form


def _around(row: services.SheetRow, there: services.AtBench, form: forms.BenchForm) -> dict[str, Any]:
    shown = measuring.around(row.sheet.method, there, form)
    return shown | {
        "heading": f"Correct the {showing.FACES[row.sheet.method].heading.lower()} of {row.tag}",
        "ways": [],
        "preview": f"{shown['preview']}?corrects={row.sheet.id}",
        "begin_at": url_for("bench.begin_correction", sheet_id=row.sheet.id),
        "save": "Save the correction",
    }


@bp.get("/sheets/<int:sheet_id>/correct")
def correct_page(sheet_id: int) -> ResponseReturnValue:
    """The sheet again, as it was typed."""
    row, there, form = _opened(sheet_id)
    form.retype(row.sheet.readings, row.sheet.note)
    return page(f"bench/{row.sheet.method}_sheet.html", **_around(row, there, form))


@bp.post("/sheets/<int:sheet_id>/correct")
def correct_sheet(sheet_id: int) -> ResponseReturnValue:
    """A new sheet in the place of this one, which stays."""
    row, there, form = _opened(sheet_id)
    method = row.sheet.method
    if form.validate():
        with saving(form) as act:
            new = measuring.keep_sheet(act, method, row.tag, form, sheet_id)
            act.goes_to(url_for("bench.sheet", sheet_id=new.id), "Corrected. The old sheet stays in the history.")
        if act.answer:
            return kept(act)
    return refused(f"bench/{method}_sheet.html", form, **measuring.without_form(_around(row, there, form)))
