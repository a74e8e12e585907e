"""Work on a thing, its papers, and what its owner declined."""

from typing import Any

from flask import abort, current_app, send_file, url_for
from flask.typing import ResponseReturnValue

from yardapp.errors import Refused
from yardapp.gear import forms, services, showing
from yardapp.gear.views import bp
from yardapp.gear.views.finding import address_of
from yardapp.web import current_who, filled, kept, page, refused, saving, snapshot

# The figures that a work's form asks for, by the kind of thing.
ASKED = {
    "propeller": ("diameter_m", "pitch_m", "bore_large_m", "mass_kg"),
    "shaft": ("diameter_m",),
    "anode": ("mass_kg",),
}


def _fitted(item: services.Item) -> forms.WorkForm:
    """Leave the boxes that this kind of thing has figures for."""
    form = filled(forms.WorkForm)
    for name in ASKED["propeller"]:
        if name not in ASKED.get(item.kind, ()):
            del form[name], form[f"found_{name}"]
    if item.kind != "propeller":
        del form["stamp"]
    if not ASKED.get(item.kind):
        del form["basis"]
    return form


def _item(tag: str) -> services.Item:
    with snapshot() as opened:
        return services.item_by_tag(opened, current_who(), tag)


def _shown(item: services.Item) -> dict[str, Any]:
    return {"item": item, "asked": ASKED.get(item.kind, ()), "back": address_of(item.tag)}


@bp.get("/items/<tag>/work")
def work_page(tag: str) -> ResponseReturnValue:
    """A piece of work."""
    item = _item(tag)
    return page("gear/work_page.html", form=_fitted(item), **_shown(item))


@bp.post("/items/<tag>/work")
def record_work(tag: str) -> ResponseReturnValue:
    """Write the work down."""
    item = _item(tag)
    form = _fitted(item)
    is_fine, papers = form.validate(), _bring(form)
    if is_fine and not form.papers.errors:
        with saving(form) as act:
            services.work_done(act.session, act.who, tag, **{**form.readings(), "papers": papers})
            act.goes_to(url_for("gear.works", tag=item.tag), "Written down. Figures that it changed no longer speak.")
        if act.answer:
            return kept(act)
    return refused("gear/work_page.html", form, **_shown(item))


def _bring(form: forms.WorkForm) -> list[services.KeptPaper]:
    """The files that were sent; a refusal is told beside their box."""
    brought = []
    for sent in form.papers.data or ():
        if not getattr(sent, "filename", ""):
            continue
        try:
            brought.append(services.keep_paper(current_app.config["PHOTOS"], sent.stream, sent.filename))
        except Refused as refusal:
            form.tell(Refused(refusal.said, "papers"))
    return brought


@bp.get("/items/<tag>/works")
def works(tag: str) -> ResponseReturnValue:
    """All work on it: as found, as left, by whom, with its papers; and what was declined."""
    who = current_who()
    with snapshot() as opened:
        item, found = services.works_of(opened, who, tag)
    return page(
        "gear/works.html",
        item=item,
        works=[showing.work_shown(one, who.units) for one in found],
        back=address_of(item.tag),
    )


@bp.get("/papers/<sha256>")
def paper(sha256: str) -> ResponseReturnValue:
    """A document that came with a piece of work; it can never change."""
    with snapshot() as opened:
        found = services.must_see_paper(opened, current_who(), sha256)
    path = services.paper_path(current_app.config["PHOTOS"], sha256)
    if not path.exists():
        abort(404)
    answer = send_file(path, mimetype="application/pdf", download_name=found.name or "document.pdf")
    answer.headers["Cache-Control"] = "private, max-age=31536000, immutable"
    return answer


@bp.get("/items/<tag>/declined")
def decline_page(tag: str) -> ResponseReturnValue:
    """Work that the owner declined."""
    item = _item(tag)
    return page("gear/decline_page.html", form=filled(forms.DeclineForm), **_shown(item))


@bp.post("/items/<tag>/declined")
def decline_work(tag: str) -> ResponseReturnValue:
    """Write it down, with the name."""
    item, form = _item(tag), filled(forms.DeclineForm)
    if form.validate():
        with saving(form) as act:
            said = form.readings()
            at = services.noon_of(said.pop("declined_on"))
            services.decline_work(act.session, act.who, tag, at=at, **said)
            act.goes_to(url_for("gear.works", tag=item.tag), "Written down, with the name.")
        if act.answer:
            return kept(act)
    return refused("gear/decline_page.html", form, **_shown(item))
