"""The page on which a maker's table is written, with the bench of sample stamps beside it."""

from typing import Any

from flask import render_template, request, url_for
from flask.typing import ResponseReturnValue

from yardapp.errors import NotFound
from yardapp.marks import forms, services, shaping, showing
from yardapp.marks.views.door import bp
from yardapp.marks.views.merging import both
from yardapp.marks.views.tables import opened_table
from yardapp.stamps.tables import COLUMNS, ExchangeRefused, Place, Table
from yardapp.web import current_who, filled, kept, page, saving, snapshot

NEW_PLACE = shaping.place_boxes(Place("nothing", "digits"))


@bp.get("/tables/new")
def new_page() -> ResponseReturnValue:
    """A new table, blank or started from an invented maker's."""
    current_who().must("change")
    start = request.args.get("from", "")
    example = next((one for one in services.examples() if one.maker == start), None)
    if start and example is None:
        raise NotFound("No such table to start from comes with yardapp.")
    return _page(_form_of(example), None)


@bp.post("/tables/new")
def add_table() -> ResponseReturnValue:
    """Keep a new table, or show the form again with a place more or less."""
    return _answer(None)


@bp.get("/tables/<int:table_id>/change")
def change_page(table_id: int) -> ResponseReturnValue:
    """The table's boxes, as they stand."""
    current_who().must("change")
    code, at = request.args.get("code", ""), request.args.get("place", type=int)
    if code and at is not None:
        return _with_proposal(table_id, at, code)
    found = opened_table(table_id)
    return _page(_form_of(found.newest.table), found)


def _with_proposal(table_id: int, at: int, code: str) -> ResponseReturnValue:
    """The boxes with what the register proposes put in: kept only when somebody keeps it."""
    with snapshot() as opened:
        learned = services.learned(opened, current_who(), table_id)
    proposal = learned.named(at, code)
    form = _form_of(services.with_proposal(learned.table.newest.table, proposal))
    form.version.data, form.why.data = learned.table.version, proposal.said[:300]
    return _page(form, learned.table)


@bp.post("/tables/<int:table_id>/change")
def change_table(table_id: int) -> ResponseReturnValue:
    """Keep the next version, or show the form again with a place more or less."""
    return _answer(opened_table(table_id))


@bp.post("/tables/bench")
def try_table() -> ResponseReturnValue:
    """How the samples read before and after what stands in the boxes, for a page that asks as people type."""
    number = request.args.get("table", type=int)
    return render_template(
        "marks/bench.html", **_bench(filled(forms.TableForm), opened_table(number) if number else None)
    )


def _form_of(table: Table | None) -> forms.TableForm:
    boxes: dict[str, Any] = {"version": 0, "places": [NEW_PLACE]}
    if table is not None:
        boxes = shaping.table_boxes(table) | {"samples": services.samples_for(table)}
    return filled(forms.TableForm, blank=True, data=boxes)


def _answer(found: services.TablePage | None) -> ResponseReturnValue:
    form = filled(forms.TableForm)
    act = request.form.get("act", "save")
    if act != "save":
        return _page(_rearranged(form, act), found)
    table, begun_on = _table_of(form) if form.validate() else None, form.version.data or 0
    if table is not None and (answer := _saved(form, found, table)) is not None:
        return answer
    if form.theirs is not None and found is not None and table is not None:
        return both(form, opened_table(found.id), begun_on, table), 409
    return _page(form, found), 422


def _saved(form: forms.TableForm, found: services.TablePage | None, table: Table) -> ResponseReturnValue | None:
    with saving(form) as act:
        why = form.why.data or ""
        if found is None:
            number = services.add_table(act.session, act.who, table, why=why)
        else:
            number = found.id
            services.change_table(act.session, act.who, number, form.version.data or 0, table, why=why)
        act.goes_to(url_for("marks.table", table_id=number), "The table is kept.")
    return kept(act) if act.answer else None


def _table_of(form: forms.TableForm) -> Table | None:
    """The table that the boxes say; what is wrong is told beside the place it concerns."""
    try:
        return shaping.table_of(form.readings())
    except ExchangeRefused as refusal:
        by_place = shaping.faults_by_place(refusal)
        form.form_errors.extend(by_place.pop(None, ()))
        form.place_faults = by_place
        return None


def _rearranged(form: forms.TableForm, act: str) -> forms.TableForm:
    """The same boxes with a place added, taken out, or moved up or down; `look` leaves them."""
    said = form.readings() | {"version": form.version.data, "once": form.once.data}
    places = list(said["places"])
    what, _, at = act.partition("-")
    number = int(at) if at.isdigit() and int(at) < len(places) else None
    if what == "add":
        places.append(NEW_PLACE)
    elif what == "remove" and number is not None:
        del places[number]
    elif what in ("up", "down") and number is not None:
        to = max(0, min(len(places) - 1, number + (-1 if what == "up" else 1)))
        places.insert(to, places.pop(number))
    again = filled(forms.TableForm, blank=True, data=said | {"places": places})
    if what == "look":
        _table_of(again)
    return again


def _page(form: forms.TableForm, found: services.TablePage | None) -> str:
    title = f"Change {found.name}" if found else "A new table"
    return page(
        "marks/table_form.html", form=form, table=found, title=title, columns=COLUMNS[3:], **_bench(form, found)
    )


def _bench(form: forms.TableForm, found: services.TablePage | None) -> dict[str, object]:
    """The samples before and after; where the boxes contradict themselves, why."""
    before = found.newest.table if found else None
    faults: dict[int | None, list[str]] = {}
    after = None
    try:
        after = shaping.table_of(form.readings())
    except ExchangeRefused as refusal:
        faults = shaping.faults_by_place(refusal)
    tried = services.try_samples(form.samples.data or "", before, after)
    said = [f"Place {at + 1}: {one}" if at is not None else one for at, told in faults.items() for one in told]
    return {
        "tried": showing.tables.tried(tried, current_who().units),
        "unsound": said,
        "has_before": before is not None,
    }
