"""The one way through every sheet: open it, look at what it says, keep it."""

from typing import Any

from flask import render_template, request, url_for
from flask.typing import ResponseReturnValue

from yardapp.bench import forms, paper, services, showing
from yardapp.errors import REFUSALS
from yardapp.web import Act, current_who, filled, kept, page, refused, saving, snapshot

FURTHEST_M = 6.0
KEPT = "The sheet is kept, and what it says."


def form_of(method: str, way: str | None) -> forms.BenchForm:
    """The form of one way of measuring; the method's first way where none was chosen."""
    ways = forms.WAYS[method]
    chosen = way if way in ways else next(iter(ways))
    form = filled(ways[chosen])
    form.way.data, form.way.raw_data = chosen, None
    return form


def sheet_page(method: str, tag: str) -> ResponseReturnValue:
    """An empty sheet; what the register knows stands in it already."""
    current_who().must("record")
    form = form_of(method, request.args.get("way"))
    del form["why"]
    with snapshot() as opened:
        there = services.at_bench(opened, current_who(), tag, showing.FACES[method].of)
        form.take(services.tools(opened))
    if "blades" in form:
        form["blades"].data = there.known.blades
    if "radius_m" in form:
        form["radius_m"].data = _marked() or showing.mark_of(there.known, current_who().units)
    if "blade" in form:
        form["blade"].data = request.args.get("blade", type=int)
    return page(f"bench/{method}_sheet.html", **around(method, there, form))


def _marked() -> float | None:
    """The radius that the page before this one read at, to go on with the next blade there."""
    marked_m = request.args.get("mark", type=float)
    return marked_m if marked_m and 0 < marked_m <= FURTHEST_M else None


def around(method: str, there: services.AtBench, form: forms.BenchForm, **shown: Any) -> dict[str, Any]:
    """What every sheet's page shows around its boxes."""
    tag, address = there.item.tag, url_for(f"bench.{method}_sheet", tag=there.item.tag)
    ways = [
        (_named(method, way, kind, there), url_for(f"bench.{method}_sheet", tag=tag, way=way), way == form.way.data)
        for way, kind in forms.WAYS[method].items()
    ]
    return {
        "form": form,
        "tag": tag,
        "known": there.known,
        "heading": f"{showing.FACES[method].heading} of {tag}",
        "ways": ways,
        "preview": f"{address}/preview",
        "blank": url_for("bench.blank", tag=tag, method=method, way=form.way.data),
        "begin_at": url_for("bench.begin_half_done", tag=tag, method=method, way=form.way.data),
        "half": None,
        "save": "Save the sheet",
        "caution_said": showing.FACES[method].caution,
        "picture": _where_to_read(method, form, there),
        "shown": None,
        **shown,
    }


def _where_to_read(method: str, form: forms.BenchForm, there: services.AtBench) -> Any:
    """The picture that shows where, until the readings have one of their own."""
    return paper.picture(method, str(form.way.data), there.known)


def _named(method: str, way: str, kind: type[forms.BenchForm], there: services.AtBench) -> str:
    """A way of measuring by name, and that it is wrong where it is."""
    wrong = showing.wrong_way(method, way, there.known.blades)
    return f"{kind.ABOUT} ({wrong})" if wrong else kind.ABOUT


def reading_of(method: str, form: forms.BenchForm) -> Any:
    """What the form says was read, as the service takes it."""
    return services.METHODS[method].reading(**form.reading())


def measure(method: str, tag: str) -> ResponseReturnValue:
    """Keep the sheet, with what it says as evidence."""
    form = form_of(method, request.form.get("way"))
    del form["why"]
    with snapshot() as opened:
        form.take(services.tools(opened))
    if form.validate():
        with saving(form) as act:
            act.goes_to(url_for("bench.sheet", sheet_id=keep_sheet(act, method, tag, form).id), KEPT)
        if act.answer:
            return kept(act)
    current_who().must("record")
    with snapshot() as opened:
        there = services.at_bench(opened, current_who(), tag, showing.FACES[method].of)
    return refused(f"bench/{method}_sheet.html", form, **without_form(around(method, there, form)))


def keep_sheet(act: Act, method: str, tag: str, form: forms.BenchForm, corrects: int | None = None) -> Any:
    """The sheet that the form fills, kept; a correction in the place of its old one."""
    why = (form.why.data or "") if "why" in form else ""
    about = services.Filled(boxes=form.boxes(), note=form.note.data or "", corrects=corrects, why=why)
    reading = reading_of(method, form)
    return services.measure(act.session, act.who, tag, services.METHODS[method], reading, about)


def without_form(shown: dict[str, Any]) -> dict[str, Any]:
    """The rest of a page for `refused`, which hands over the form itself."""
    return {name: value for name, value in shown.items() if name != "form"}


def preview(method: str, tag: str) -> ResponseReturnValue:
    """What the sheet would say now; saves nothing. A part of the page for a page that asks, else the whole page."""
    form = form_of(method, request.form.get("way"))
    corrects = request.args.get("corrects", type=int)
    with snapshot() as opened:
        form.take(services.tools(opened), services.readings_of(opened, current_who(), corrects))
        form.validate()
        there, looked = _look(opened, method, tag, form, corrects)
    shown = None
    if looked is not None:
        readings = {**form.boxes(), **services.figures_read(looked.reading)}
        shown = showing.shown(method, looked.outcome, readings, there.known, current_who().units)
    if request.headers.get("HX-Request"):
        said = {"still": form.still_to_read(), "wrong": form.misread(), "overall": form.form_errors}
        said |= {"untouched": not form.is_begun(), "picture": _where_to_read(method, form, there)}
        return render_template("bench/looked.html", shown=shown, tag=there.item.tag, **said)
    del form["why"]
    return page(f"bench/{method}_sheet.html", **around(method, there, form, shown=shown))


def _look(
    opened: Any, method: str, tag: str, form: forms.BenchForm, corrects: int | None
) -> tuple[services.AtBench, services.Looked | None]:
    """What the readings say, as far as they reach; a refusal is told beside its box."""
    if form.is_begun() and not form.still_to_read() and not form.misread():
        try:
            reading = reading_of(method, form)
            looked = services.look(opened, current_who(), tag, services.METHODS[method], reading, corrects)
            return services.AtBench(item=looked.item, known=services.known_of(looked.item)), looked
        except REFUSALS as refusal:
            form.tell(refusal)
    current_who().must("record")
    return services.at_bench(opened, current_who(), tag, showing.FACES[method].of), None
