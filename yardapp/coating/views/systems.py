"""Coating systems: the list, one system, its sheet, two versions side by side."""

from typing import Any

from flask import request, url_for
from flask.typing import ResponseReturnValue

from yardapp.coating import forms, services
from yardapp.coating.checking import SystemRefused, must_be_right
from yardapp.coating.showing import sheet as showing
from yardapp.coating.views import bp
from yardapp.errors import NotFound, Refused
from yardapp.filters import day
from yardapp.web import current_who, filled, kept, page, refused, saving, snapshot


@bp.get("/systems")
def systems() -> ResponseReturnValue:
    """Every system of the yard, and those that come with yardapp."""
    with snapshot() as opened:
        rows = services.systems(opened, current_who())
    listed = [
        {
            "tag": row.name,
            "href": url_for("coating.system", system_id=row.id),
            "size": f"version {row.number}, {day(row.at)}, {row.said_by}",
            "where": "foul release" if row.system.foul_release else "",
            "flag": "" if row.is_used else "no longer offered",
        }
        for row in rows
    ]
    return page("coating/systems.html", rows=listed, still=services.still_shipped(rows), plain=filled(forms.TakeForm))


@bp.post("/systems/take")
def take_system() -> ResponseReturnValue:
    """Take one that comes with yardapp into the yard's list."""
    form = filled(forms.TakeForm)
    form.validate()
    with saving(form) as act:
        system_id = services.take_shipped(act.session, act.who, form.name.data or "")
        act.goes_to(url_for("coating.system", system_id=system_id), "It is in the yard's list. Check every figure.")
    if act.answer:
        return kept(act)
    return systems(), 422  # type: ignore[return-value]


@bp.get("/systems/<int:system_id>")
def system(system_id: int) -> ResponseReturnValue:
    """One system, in the version that is asked for."""
    with snapshot() as opened:
        found = services.system_page(opened, current_who(), system_id)
        papers = services.documents_of(opened, current_who(), system_id)
    shown = found.version(request.args.get("version", found.number, type=int))
    back = filled(forms.BringBackForm, blank=True)
    back.version.data = found.number
    return page(
        "coating/system.html",
        found=found,
        shown=shown,
        products=showing.product_rows(shown.system),
        films=showing.film_rows(shown.system),
        steps=showing.step_rows(shown.system),
        hazards=showing.hazards_of(shown.system),
        source=showing.source_of(shown.system.source),
        life=showing.duration(shown.system.life_s) if shown.system.life_s else "",
        versions=_versions(found),
        papers=[(_called(one), url_for("coating.document", sha256=one.sha256)) for one in papers],
        plain=back,
    )


def _called(paper: Any) -> str:
    return f"{paper.name or 'data sheet'}, {day(paper.at)}, with version {paper.number}"


def _versions(found: services.SystemPage) -> list[dict[str, Any]]:
    return [
        {
            "when": day(one.at),
            "who": one.said_by,
            "what": f"Version {one.number}",
            "note": one.why,
            "href": url_for("coating.system", system_id=found.id, version=one.number),
        }
        for one in found.versions
    ]


@bp.get("/systems/<int:system_id>/compare")
def compare(system_id: int) -> ResponseReturnValue:
    """What differs between two versions."""
    with snapshot() as opened:
        found = services.system_page(opened, current_who(), system_id)
    before = found.version(request.args.get("before", max(found.number - 1, 1), type=int))
    after = found.version(request.args.get("after", found.number, type=int))
    rows = showing.differences(before.system, after.system)
    numbers = [one.number for one in found.versions]
    return page("coating/compare.html", found=found, before=before, after=after, rows=rows, numbers=numbers)


@bp.post("/systems/<int:system_id>/bring-back")
def bring_back(system_id: int) -> ResponseReturnValue:
    """Make an earlier version the newest again."""
    form = filled(forms.BringBackForm)
    if form.validate():
        with saving(form) as act:
            number = form.number.data or 0
            services.bring_back(act.session, act.who, system_id, form.version.data or 0, number)
            act.goes_to(url_for("coating.system", system_id=system_id), f"Version {number} is the newest again.")
        if act.answer:
            return kept(act)
    said = " ".join(form.overall) or "Somebody made a version meanwhile. Look at it first."
    return refused("yard/no.html", forms_as_plain(form), heading="Not brought back", said=said, status=422)


def forms_as_plain(form: Any) -> Any:
    """A refusal without a merge page: the record is one number."""
    form.theirs = None
    return form


@bp.post("/systems/<int:system_id>/offer")
def use_system(system_id: int) -> ResponseReturnValue:
    """Offer it for new jobs, or no longer."""
    form = filled(forms.OfferForm)
    form.validate()
    with saving(form) as act:
        is_used = form.is_used.data == "yes"
        services.use_system(act.session, act.who, system_id, is_used=is_used)
        said = "Offered for new jobs." if is_used else "No longer offered for new jobs."
        act.goes_to(url_for("coating.system", system_id=system_id), said)
    return kept(act)


def _blank_rows(form: forms.SystemForm, more: str = "") -> forms.SystemForm:
    """Each list ends in a blank row to write in; `more` names one that gets another."""
    for product in form.products:
        _one_more(product.form["parts"], more)
        _one_more(product.form["pot_life"], more)
    for step in form.steps:
        _one_more(step.form["window"], more)
        _one_more(step.form["cure"], more)
    if more == "products" or not len(form.products):
        form.products.append_entry()
        return _blank_rows(form)
    if more == "steps" or not len(form.steps):
        form.steps.append_entry({"place": len(form.steps) + 1})
        return _blank_rows(form)
    return form


def _one_more(rows: Any, more: str) -> None:
    is_full = not len(rows) or any(box.data not in (None, "") for box in rows.entries[-1].form)
    if len(rows) < forms.MOST_ROWS and (is_full or rows.name == more):
        rows.append_entry()


def _form_of(found: services.SystemPage, number: int) -> forms.SystemForm:
    values = dict(forms.SystemForm.values_of(found.version(number).system))
    form = filled(forms.SystemForm, data=values)
    form.version.data = found.number
    return _blank_rows(form)


@bp.get("/systems/new")
def new_system_page() -> ResponseReturnValue:
    """An empty sheet."""
    current_who().must("change")
    return page("coating/sheet_page.html", form=_blank_rows(filled(forms.SystemForm)), found=None)


@bp.get("/systems/<int:system_id>/sheet")
def sheet_page(system_id: int) -> ResponseReturnValue:
    """The sheet of a system, to be changed."""
    current_who().must("change")
    with snapshot() as opened:
        found = services.system_page(opened, current_who(), system_id)
    return page("coating/sheet_page.html", form=_form_of(found, found.number), found=found)


@bp.post("/systems/new")
def add_system() -> ResponseReturnValue:
    """Keep a new system."""
    return _save(None)


@bp.post("/systems/<int:system_id>/sheet")
def change_system(system_id: int) -> ResponseReturnValue:
    """Make the next version."""
    return _save(system_id)


def _save(system_id: int | None) -> ResponseReturnValue:
    current_who().must("change")
    form = filled(forms.SystemForm)
    with snapshot() as opened:
        found = None if system_id is None else services.system_page(opened, current_who(), system_id)
    if more := request.form.get("more"):
        return page("coating/sheet_page.html", form=_blank_rows(form, more), found=found, more=more)
    if _is_right(form):
        with saving(form) as act:
            number = _keep(act, form, system_id)
            act.goes_to(url_for("coating.system", system_id=number), "The sheet is kept.")
        if act.answer:
            return kept(act)
    return refused("coating/sheet_page.html", _blank_rows(form), found=found, newer=_newer(form, found))


def _is_right(form: forms.SystemForm) -> bool:
    """Whether every box can be read, and the whole can be right."""
    form.version.validators = []
    if not form.validate():
        return False
    try:
        must_be_right(form.system())
    except SystemRefused as refusal:
        form.tell_problems(refusal.problems)
        form.tell(Refused("Not saved yet. What can't be right is said beside its box."))
        return False
    return True


def _keep(act: Any, form: forms.SystemForm, system_id: int | None) -> int:
    why = form.why.data or ""
    if system_id is None:
        return services.add_system(act.session, act.who, form.system(), why=why)
    services.change_system(act.session, act.who, system_id, form.version.data or 0, form.system(), why=why)
    return system_id


def _newer(form: forms.SystemForm, found: services.SystemPage | None) -> list[tuple[str, str, str]]:
    """What somebody else's version, saved meanwhile, has otherwise than what stands here."""
    if form.newer is None or found is None:
        return []
    try:
        return showing.differences(found.newest.system, form.system())
    except (NotFound, ValueError):
        return []
