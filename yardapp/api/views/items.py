"""What propellers and shafts have in common: figures that came in as statements, and a page of the register as JSON."""

from collections.abc import Iterable
from typing import Any

from flask import g

from yardapp.api.bodies import items as bodies
from yardapp.api.bodies.base import Assumed, figure_of
from yardapp.api.door import Act
from yardapp.api.sizes import SI_UNITS, K, Size, Told, told
from yardapp.errors import NotFound, Refused
from yardapp.gear import services
from yardapp.gear.figures import FIGURES, figures_of
from yardapp.gear.services.blank_tags import bind_tag
from yardapp.vessels import services as vessels


def figures_said(said: Any, sizes: Iterable[Size], within: str = "") -> dict[str, Told]:
    """The figures of a body; a refusal by a service is then told under the name that was sent."""
    found = told(said, sizes, within)
    g.sent_as = {**g.get("sent_as", {}), **{name: within + one.field for name, one in found.items()}}
    g.assumed = [*g.get("assumed", []), *assumed(found.values(), within)]
    return found


def assumed(found: Iterable[Told], within: str) -> list[Assumed]:
    """The units that had to be assumed."""
    return [Assumed(field=within + one.field, typed=one.typed, why=one.why) for one in found if one.why]


def statements(said: Any, sizes: Iterable[Size], words: Iterable[str]) -> list[services.Said]:
    """Every figure of a body as a statement of the body's basis."""
    numbers = [
        services.Said(what=name, basis=said.basis, value=one.value, u_value=one.u, typed=one.typed)
        for name, one in figures_said(said, sizes).items()
    ]
    chosen = {name: getattr(said, name, None) for name in words}
    return numbers + [services.Said(what=name, basis=said.basis, word=word) for name, word in chosen.items() if word]


def must_be_there(act: Act, came_off_id: int | None) -> None:
    """A drive that is not in the register is a wrong field, not a wrong address."""
    try:
        if came_off_id is not None:
            vessels.drive_label(act.session, came_off_id, act.who)
    except NotFound as refusal:
        raise Refused(str(refusal), "came_off_id") from None


def bound(act: Act, kind: str, tag: str) -> str:
    """The blank tag that a thing bears already; empty where it gets the next one."""
    return bind_tag(act.session, act.who, kind, tag) if tag.strip() else ""


def shown(act: Act, tag: str, kind: str) -> bodies.Item:
    """All that the register says of one item."""
    found = services.item_page(act.session, act.who, tag, kind)
    item = found.item
    return bodies.Item(
        tag=item.tag,
        kind=item.kind,
        version=item.version,
        place=item.place,
        note=item.note,
        stamp=item.stamp,
        aboard=found.aboard,
        aboard_id=item.aboard_id,
        came_off=found.came_off,
        came_off_id=item.came_off_id,
        standing=item.standing,
        due_on=item.due_on,
        set_id=item.set_id,
        bin_id=item.bin_id,
        is_proposed=item.is_proposed,
        is_for_sale=item.is_for_sale,
        logged=item.logged,
        figures={figure.name: _figure(item, figure.name) for figure in figures_of(kind) if figure.name in item.known},
        contradictions=[
            bodies.Contradiction(what=odd["what"], working=odd["working"], other=odd["other"], is_sure=odd["sure"])
            for odd in item.odds
        ],
        evidence=[_statement(line) for line in found.evidence],
        events=[_happened(line) for line in found.events],
        assumed=g.get("assumed", []),
    )


def _figure(item: services.Item, what: str) -> Any:
    u = 0.0 if what == "blades" else getattr(item, f"u_{what}", None)
    return figure_of(getattr(item, what), FIGURES[what].kind, u, item.known[what])


def _statement(line: services.Line) -> bodies.Statement:
    figure = FIGURES.get(line.kind)
    return bodies.Statement(
        **_common(line),
        what=line.kind,
        value=line.word if line.value is None else line.value,
        unit=SI_UNITS[figure.kind] if figure and not figure.is_word else None,
        plus_minus=None if line.u_value is None else K * line.u_value,
        typed=line.typed,
        basis=line.basis,
        true_from=line.true_from,
        source=line.source,
        source_id=line.source_id,
        replaces_id=line.replaces_id,
        is_replaced=line.is_replaced,
        why=line.why,
    )


def _common(line: services.Line) -> dict[str, Any]:
    return {"id": line.id, "at": line.at, "said_by": line.said_by, "note": line.note}


def _happened(line: services.Line) -> bodies.Happened:
    return bodies.Happened(
        **_common(line),
        kind=line.kind,
        drive=line.drive,
        place=line.place,
        due_on=line.due_on,
        by_whom=line.by_whom,
        cost=line.cost,
        undoes_id=line.replaces_id,
        is_undone=line.is_replaced,
        why=line.why,
        tag=line.tag,
    )


def listed(row: services.ItemRow) -> bodies.ItemListed:
    """One row of a list."""
    return bodies.ItemListed.model_validate(row, from_attributes=True)


def page_of(act: Act, kind: str, asked: bodies.ItemPage) -> bodies.Items:
    """A page of items of one kind."""
    rows, before = services.rack(act.session, act.who, kind=kind, before=asked.before, limit=asked.limit)
    return bodies.Items(items=[listed(row) for row in rows], before=before)


def change(act: Act, said: bodies.ItemChange, tag: str, kind: str) -> bodies.Item:
    """Change the record itself."""
    services.item_by_tag(act.session, act.who, tag, kind=kind, for_change=True)
    services.change_item(
        act.session, act.who, tag, said.version, place=said.place, note=said.note, is_for_sale=said.is_for_sale
    )
    return shown(act, tag, kind)
