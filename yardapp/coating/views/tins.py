"""Product in stock: the list, one tin in, one tin changed."""

from typing import Any

from flask import url_for
from flask.typing import ResponseReturnValue

from yardapp.coating import forms, services
from yardapp.coating.showing import stock as showing
from yardapp.coating.views import bp
from yardapp.web import current_who, filled, kept, page, refused, saving, snapshot


@bp.get("/stock")
def stock() -> ResponseReturnValue:
    """What there is, opened and unopened."""
    with snapshot() as opened:
        rows = services.tins(opened, current_who())
        covers = services.covers(opened, current_who(), rows)
    listed = [showing.listed(row, url_for("coating.tin_page", tin_id=row.id)) for row in rows]
    return page("coating/stock.html", rows=listed, covers=[showing.covered(one) for one in covers])


@bp.get("/stock/new")
def new_tin_page() -> ResponseReturnValue:
    """An empty record."""
    current_who().must("record")
    return page("coating/tin_page.html", form=filled(forms.TinForm), tin=None, events=[])


@bp.post("/stock/new")
def add_tin() -> ResponseReturnValue:
    """Put a tin into stock."""
    form = filled(forms.TinForm)
    form.version.validators = []
    if form.validate():
        with saving(form) as act:
            services.add_tin(act.session, act.who, form.readings())
            act.goes_to(url_for("coating.stock"), "It is in stock.")
        if act.answer:
            return kept(act)
    return refused("coating/tin_page.html", form, tin=None, events=[])


def _tin(tin_id: int) -> tuple[Any, list[dict[str, Any]]]:
    """A tin, and what came into it and went out of it."""
    with snapshot() as opened:
        tin = services.tin_by_id(opened, current_who(), tin_id)
        moves = services.moves_of(opened, current_who(), tin_id)
    hrefs = [url_for("coating.job", job_id=move.job_id) if move.job_id else None for move in moves]
    return tin, [showing.moved(move, href) for move, href in zip(moves, hrefs, strict=True)]


@bp.get("/stock/<int:tin_id>")
def tin_page(tin_id: int) -> ResponseReturnValue:
    """One tin."""
    tin, events = _tin(tin_id)
    return page("coating/tin_page.html", form=filled(forms.TinForm, tin), tin=tin, events=events)


@bp.post("/stock/<int:tin_id>")
def change_tin(tin_id: int) -> ResponseReturnValue:
    """Opened, used from, used up, moved."""
    form = filled(forms.TinForm)
    if form.validate():
        with saving(form) as act:
            services.change_tin(act.session, act.who, tin_id, form.version.data or 0, form.readings())
            act.goes_to(url_for("coating.stock"), "Saved.")
        if act.answer:
            return kept(act)
    tin, events = _tin(tin_id)
    return refused("coating/tin_page.html", form, tin=tin, events=events)
