"""Condition of a propeller: its faults on a picture, each fault, and how it rang."""

from typing import Any

from flask import request, url_for
from flask.typing import ResponseReturnValue

from yardapp.bench import services
from yardapp.bench.faults import SPOTS
from yardapp.bench.forms.condition import CloseForm, FaultForm, RingForm
from yardapp.bench.showing import condition as showing
from yardapp.bench.views import bp
from yardapp.drawings.condition import condition as picture_of
from yardapp.pictures import bring_photo
from yardapp.web import current_who, filled, kept, page, refused, saving, snapshot

LINES = 8  # to write on


def _found(tag: str) -> services.Condition:
    with snapshot() as opened:
        return services.condition_of(opened, current_who(), tag)


def _fault_href(fault_id: int) -> str:
    return url_for("bench.fault", fault_id=fault_id)


def _around(found: services.Condition, ring: RingForm) -> dict[str, Any]:
    """What the page of a propeller's condition shows."""
    units = current_who().units
    marks = [showing.mark(row, units, _fault_href(row.fault.id)) for row in found.open]
    ring.offer_blades(found.known.blades)
    return {
        "tag": found.item.tag,
        "picture": picture_of(found.known.blades, found.known.hand, marks),
        "picture_rows": [(f"Mark {mark.number}", mark.label) for mark in marks],
        "open": [showing.listed(row, units, _fault_href) for row in found.open],
        "closed": [showing.listed(row, units, _fault_href) for row in found.closed],
        "rings": [showing.rung(ring) for ring in found.rings],
        "ring": ring,
    }


@bp.get("/<tag>/condition")
def condition(tag: str) -> ResponseReturnValue:
    """Open faults as numbered marks, closed ones, ring tests."""
    return page("bench/condition.html", **_around(_found(tag), filled(RingForm)))


@bp.post("/<tag>/condition/ring")
def note_ring(tag: str) -> ResponseReturnValue:
    """How it rang."""
    form = filled(RingForm)
    found = _found(tag)
    form.offer_blades(found.known.blades)
    if form.validate():
        with saving(form) as act:
            services.note_ring(
                act.session, act.who, tag, form.heard.data, form.ring_blade.data, form.ring_note.data or ""
            )
            act.goes_to(url_for("bench.condition", tag=found.item.tag), "Noted.")
        if act.answer:
            return kept(act)
    return refused("bench/condition.html", form, **_around(found, form))


@bp.get("/<tag>/condition/blank")
def condition_blank(tag: str) -> ResponseReturnValue:
    """A picture to mark by hand, and lines to write on."""
    current_who().must("record")
    found = _found(tag)
    picture = picture_of(found.known.blades, found.known.hand)
    lines = [(str(number), *[""] * 6) for number in range(1, LINES + 1)]
    return page("bench/condition_blank.html", tag=found.item.tag, picture=picture, lines=lines)


def _new_fault(found: services.Condition, form: FaultForm) -> dict[str, Any]:
    """The page of a new fault: the picture to tap, and what is marked on it already."""
    tag, units = found.item.tag, current_who().units
    form.offer_blades(found.known.blades)
    blade, radius = form.blade.data, form.radius_ratio.data
    picture = picture_of(
        found.known.blades,
        found.known.hand,
        [showing.mark(row, units) for row in found.open],
        spots=SPOTS,
        spot_href=lambda blade, radius: url_for("bench.new_fault", tag=tag, blade=blade, radius_ratio=f"{radius:g}"),
        chosen=(blade, radius) if blade and radius else None,
    )
    return {"tag": tag, "picture": picture}


@bp.get("/<tag>/condition/new")
def new_fault(tag: str) -> ResponseReturnValue:
    """Mark a fault: tap the picture, or choose blade and radius."""
    current_who().must("record")
    found, form = _found(tag), filled(FaultForm)
    form.blade.data = request.args.get("blade", type=int)
    form.radius_ratio.data = request.args.get("radius_ratio", type=float)
    again = next((row for row in found.closed if row.fault.id == request.args.get("again", type=int)), None)
    if again is not None:
        for name in ("kind", "side", "blade", "radius_ratio", "severity"):
            form[name].data = getattr(again.fault, name)
        form.reopens.data = str(again.fault.id)
    return page("bench/new_fault.html", form=form, **_new_fault(found, form))


@bp.post("/<tag>/condition/new")
def raise_fault(tag: str) -> ResponseReturnValue:
    """Keep it."""
    found, form = _found(tag), filled(FaultForm)
    form.offer_blades(found.known.blades)
    is_fine, picture = form.validate(), bring_photo(form)
    if is_fine and not form.photo.errors:
        with saving(form) as act:
            said = services.FaultSaid(**form.said())
            fault = services.raise_fault(act.session, act.who, tag, said, picture)
            act.goes_to(url_for("bench.condition", tag=found.item.tag), f"Marked as number {fault.number}.")
        if act.answer:
            return kept(act)
    current_who().must("record")
    return refused("bench/new_fault.html", form, **_new_fault(found, form))


def _fault_page(row: services.FaultRow, form: CloseForm) -> dict[str, Any]:
    told = showing.told(row, current_who().units)
    return {"row": row, "tag": row.tag, "told": told, "heading": f"Fault {row.fault.number} of {row.tag}", "form": form}


@bp.get("/faults/<int:fault_id>")
def fault(fault_id: int) -> ResponseReturnValue:
    """One fault: what was seen, its photo, and how it was closed."""
    with snapshot() as opened:
        row = services.fault_by_id(opened, current_who(), fault_id)
    return page("bench/fault.html", **_fault_page(row, filled(CloseForm)))


@bp.post("/faults/<int:fault_id>/close")
def close_fault(fault_id: int) -> ResponseReturnValue:
    """Say how it was put right."""
    form = filled(CloseForm)
    with snapshot() as opened:
        row = services.fault_by_id(opened, current_who(), fault_id)
    if form.validate():
        with saving(form) as act:
            services.close_fault(act.session, act.who, fault_id, form.how.data or "")
            act.goes_to(url_for("bench.condition", tag=row.tag), f"Fault {row.fault.number} is closed.")
        if act.answer:
            return kept(act)
    shown = _fault_page(row, form)
    return refused("bench/fault.html", form, **{name: value for name, value in shown.items() if name != "form"})


@bp.get("/faults")
def faults() -> ResponseReturnValue:
    """Every fault that still stands, worst first."""
    who = current_who()
    with snapshot() as opened:
        found = services.still_open(opened, who)
    return page("bench/faults.html", rows=[showing.listed(row, who.units, _fault_href, with_tag=True) for row in found])
