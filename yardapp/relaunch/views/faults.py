"""Faults of the whole yard: seen, raised, decided, accepted, closed."""

from typing import Any

from flask import request, url_for
from flask.typing import ResponseReturnValue

from yardapp.forms import options
from yardapp.gear import services as gear
from yardapp.pictures import bring_photo
from yardapp.relaunch import services
from yardapp.relaunch.forms import AcceptForm, CloseForm, DecidesForm, FaultForm, WhyForm
from yardapp.relaunch.showing import faults as showing
from yardapp.relaunch.views.door import bp
from yardapp.vessels import services as vessels
from yardapp.web import current_who, filled, kept, page, refused, saving, snapshot

OFFERED = 500


def fault_href(key: str) -> str:
    """A fault's own page."""
    return url_for("relaunch.fault", key=key)


@bp.get("/faults")
def faults() -> ResponseReturnValue:
    """Every fault that stands, worst first; of one boat, or with those that were closed, where that is asked."""
    boat, with_closed = request.args.get("boat", type=int), request.args.get("show") == "all"
    tag = request.args.get("tag", "")[:20]
    with snapshot() as opened:
        found = services.faults(opened, current_who(), vessel_id=boat, tag=tag, with_closed=with_closed)
    on = services.today()
    rows = [showing.listed(fault, fault_href(fault.key), on) for fault in found]
    return page("relaunch/faults.html", rows=rows, boat=boat, tag=tag, with_closed=with_closed)


def _offer(form: FaultForm) -> FaultForm:
    with snapshot() as opened:
        boats = vessels.boats(opened, current_who(), limit=OFFERED)
        drives = gear.drive_choices(opened, current_who())
    form.vessel_id.choices = options([("", "no"), *((str(row.id), row.name) for row in boats)])
    form.drive_id.choices = options([("", "no"), *((str(one), label) for one, label in drives)])
    return form


@bp.get("/faults/new")
def new_fault() -> ResponseReturnValue:
    """Write a fault down."""
    current_who().must("record")
    asked: dict[str, Any] = {name: request.args.get(name, type=int) for name in ("drive_id", "vessel_id")}
    sheet = request.args.get("sheet", type=int)
    if sheet is not None:
        asked |= {"how_found": "sheet", "evidence": f"Bench sheet {sheet}"}
    return page("relaunch/new_fault.html", form=_offer(filled(FaultForm, tag=request.args.get("tag", ""), **asked)))


@bp.post("/faults/new")
def raise_fault() -> ResponseReturnValue:
    """Keep it."""
    current_who().must("record")
    form = _offer(filled(FaultForm))
    is_fine, picture = form.validate(), bring_photo(form)
    if is_fine and not form.photo.errors:
        with saving(form) as act:
            fault = services.raise_fault(act.session, act.who, services.FaultSaid(**form.said()), picture)
            act.goes_to(fault_href(f"y{fault.id}"), "Written down.")
        if act.answer:
            return kept(act)
    return refused("relaunch/new_fault.html", form)


def _shown(key: str, **forms: Any) -> dict[str, Any]:
    who = current_who()
    with snapshot() as opened:
        fault = services.fault_by_key(opened, who, key)
    blank = {
        "close_form": CloseForm,
        "accept_form": AcceptForm,
        "decides_form": DecidesForm,
        "end_form": WhyForm,
    }
    return {
        "fault": fault,
        "heading": f"{fault.what}: {fault.on}",
        "told": showing.told(fault),
        "decisions": showing.decisions(fault),
        "is_accepted": fault.is_accepted(services.today()),
        "is_back": fault.is_back(services.today()),
        "is_office": who.may("people"),
        "on_the_bench": url_for("bench.fault", fault_id=int(key[1:])) if key.startswith("b") else None,
        **{name: forms.get(name) or filled(kind, blank=True) for name, kind in blank.items()},
    }


@bp.get("/faults/<key>")
def fault(key: str) -> ResponseReturnValue:
    """One fault: what was seen, what was decided, how it was closed."""
    return page("relaunch/fault.html", **_shown(key))


@bp.post("/faults/<key>/close")
def close_fault(key: str) -> ResponseReturnValue:
    """Say by what work it was put right."""
    form = filled(CloseForm)
    if form.validate():
        with saving(form) as act:
            services.close_fault(act.session, act.who, key, form.how.data or "")
            act.goes_to(fault_href(key), "Closed.")
        if act.answer:
            return kept(act)
    return refused("relaunch/fault.html", form, **_shown(key, close_form=form))


@bp.post("/faults/<key>/accept")
def accept_fault(key: str) -> ResponseReturnValue:
    """Let it stand until a day."""
    form = filled(AcceptForm)
    if form.validate():
        with saving(form) as act:
            services.accept_fault(
                act.session,
                act.who,
                key,
                name=form.name.data or "",
                why=form.why.data or "",
                until=form.until.data,
            )
            act.goes_to(fault_href(key), "Accepted. On that day it is back.")
        if act.answer:
            return kept(act)
    return refused("relaunch/fault.html", form, **_shown(key, accept_form=form))


@bp.post("/faults/<key>/accept-no-longer")
def end_acceptance(key: str) -> ResponseReturnValue:
    """It is back at once."""
    form = filled(WhyForm)
    if form.validate():
        with saving(form) as act:
            services.end_acceptance(act.session, act.who, key, form.why.data or "")
            act.goes_to(fault_href(key), "It is back.")
        if act.answer:
            return kept(act)
    return refused("relaunch/fault.html", form, **_shown(key, end_form=form))


@bp.post("/faults/<key>/decides")
def say_who_decides(key: str) -> ResponseReturnValue:
    """Name who decides."""
    form = filled(DecidesForm)
    if form.validate():
        with saving(form) as act:
            services.say_who_decides(act.session, act.who, key, form.decider.data or "")
            act.goes_to(fault_href(key))
        if act.answer:
            return kept(act)
    return refused("relaunch/fault.html", form, **_shown(key, decides_form=form))
