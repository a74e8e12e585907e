"""Two people at one table: both edits brought together, and a choice where they clash."""

from typing import Any

from flask import request
from wtforms import SelectField

from yardapp.marks import forms, merging, services, shaping, showing
from yardapp.stamps.tables import ExchangeRefused, Table, changes
from yardapp.web import filled, page

Row = dict[str, str]
Sent = list[tuple[str, str]]


def both(form: forms.TableForm, found: services.TablePage, begun_on: int, mine: Table) -> str:
    """The page on which mine, begun on an older version, and what stands by now become one table."""
    theirs = found.newest.table
    order = request.form.get("order", "")
    merged = merging.merged(found.numbered(begun_on).table, theirs, mine, order if order in ("theirs", "mine") else "")
    beside = {"why": form.why.data or "", "samples": form.samples.data or ""}
    if merged.is_order_open:
        form.version.data = begun_on  # the next answer is still brought together over the version both began from
        rows, sent = [_order(theirs, mine)], _sent(shaping.table_boxes(mine) | beside, ())
        said: list[str] = []
    else:
        rows, sent = _rows(merged), _sent(merged.boxes | beside, merged.clashes)
        said = _said(theirs, merged)
    return page("marks/two_versions.html", form=form, table=found, rows=rows, sent=sent, said=said)


def _order(theirs: Table, mine: Table) -> Row:
    """Whose row of places holds."""
    words = {"mine": showing.tables.places_in_words(mine), "theirs": showing.tables.places_in_words(theirs)}
    return {
        "name": "order",
        "label": "The places, in their order",
        "value_mine": "mine",
        "value_theirs": "theirs",
    } | words


def _rows(merged: merging.Merged) -> list[Row]:
    """Each box in which the two clash, as its label calls it."""
    blank = filled(forms.TableForm, blank=True, data=merged.boxes)
    return [_row(blank, clash) for clash in merged.clashes]


def _row(form: forms.TableForm, clash: merging.Clash) -> Row:
    part: Any = form if clash.place is None else form.places[clash.place].form
    box = part[clash.box]
    where = "" if clash.place is None else f"Place {clash.place + 1}: "
    return {
        "name": box.name,
        "label": f"{where}{box.label.text}",
        "value_theirs": _text(clash.theirs),
        "value_mine": _text(clash.mine),
        "theirs": _shown(box, clash.theirs, clash.mine),
        "mine": _shown(box, clash.mine, clash.theirs),
    }


def _text(value: str | bool) -> str:
    return value if isinstance(value, str) else "y" if value else ""


def _shown(box: Any, value: str | bool, beside: str | bool) -> str:
    """As the box shows it; of a list, the lines that the other one has not."""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(box, SelectField):
        return next((choice.label for choice in box.iter_choices() if choice.value == value), value)
    if isinstance(beside, str) and "\n" in value + beside:
        return " · ".join(line for line in value.splitlines() if line not in beside.splitlines())
    return value


def _sent(boxes: shaping.Boxes, clashes: tuple[merging.Clash, ...]) -> Sent:
    """Every box that is settled, by the name under which the form sends it."""
    open_boxes = {(clash.place, clash.box) for clash in clashes}
    heads = [(None, name, name) for name in boxes if name not in ("places", "version")]
    places = [(at, name, f"places-{at}-{name}") for at, one in enumerate(boxes["places"]) for name in one]
    return [
        (sent_as, _text(boxes[name] if at is None else boxes["places"][at][name]))
        for at, name, sent_as in [*heads, *places]
        if (at, name) not in open_boxes
    ]


def _said(theirs: Table, merged: merging.Merged) -> list[str]:
    """What mine changes in theirs where the two do not clash; or why the two together can't stand."""
    try:
        return [one.said for one in changes(theirs, shaping.table_of(merged.boxes))]
    except ExchangeRefused as refusal:
        return [f"Together the two contradict each other: {fault.said}." for fault in refusal.problems]
