"""Faults and ring tests; the bench's tools; two sheets side by side."""

from typing import Any

from yardapp.api.bodies import condition as bodies
from yardapp.api.bodies.base import figure_of
from yardapp.api.door import Act, creates, reads
from yardapp.api.sizes import SI_UNITS
from yardapp.api.views.items import figures_said
from yardapp.bench import services
from yardapp.errors import NotFound, Refused


def _fault(row: services.FaultRow) -> bodies.Fault:
    fault, closing = row.fault, row.closing
    closed = None if closing is None else bodies.Closed(how=closing.how, at=closing.at, said_by=closing.said_by)
    return bodies.Fault(
        id=fault.id,
        tag=row.tag,
        number=fault.number,
        kind=fault.kind,
        severity=fault.severity,
        side=fault.side,
        blade=fault.blade,
        radius_ratio=fault.radius_ratio,
        size=None if fault.size_m is None else figure_of(fault.size_m, "length"),
        size_typed=fault.size_m_typed,
        note=fault.note,
        photo_sha256=fault.photo_sha256,
        reopens_id=fault.reopens_id,
        at=fault.at,
        said_by=fault.said_by,
        closed=closed,
    )


def _ring(ring: Any) -> bodies.Ring:
    return bodies.Ring.model_validate(ring, from_attributes=True)


@reads("/propellers/{tag}/condition", reply=bodies.Condition)
def condition(act: Act, tag: str) -> bodies.Condition:
    """Every fault that was marked on one propeller, and how it rang."""
    found = services.condition_of(act.session, act.who, tag)
    return bodies.Condition(faults=[_fault(row) for row in found.faults], rings=[_ring(ring) for ring in found.rings])


@reads("/faults", reply=bodies.Faults)
def faults(act: Act) -> bodies.Faults:
    """Every fault that stands open in the yard, worst first."""
    return bodies.Faults(faults=[_fault(row) for row in services.still_open(act.session, act.who)])


@reads("/faults/{fault_id}", reply=bodies.Fault)
def fault(act: Act, fault_id: int) -> bodies.Fault:
    """One fault, and how it was closed."""
    return _fault(services.fault_by_id(act.session, act.who, fault_id))


def _raised(act: Act, key: str, tag: str) -> bodies.Fault:
    return fault(act, int(key))


@creates("/propellers/{tag}/faults", body=bodies.NewFault, reply=bodies.Fault, at="/faults/{key}", shows=_raised)
def raise_fault(act: Act, said: bodies.FaultWords, tag: str) -> str:
    """Mark a fault on a propeller."""
    size = figures_said(said, bodies.FAULT_SIZES).get("size_m")
    told = services.FaultSaid(
        kind=said.kind,
        severity=said.severity,
        side=said.side,
        blade=said.blade,
        radius_ratio=said.radius_ratio,
        size_m=size.value if size else None,
        size_m_typed=size.typed if size else "",
        note=said.note,
        reopens_id=said.reopens_id,
    )
    return str(services.raise_fault(act.session, act.who, tag, told).id)


def _closed(act: Act, key: str, fault_id: int) -> bodies.Fault:
    return fault(act, fault_id)


@creates(
    "/faults/{fault_id}/closing",
    body=bodies.FaultClosing,
    reply=bodies.Fault,
    at="/faults/{fault_id}",
    shows=_closed,
)
def close_fault(act: Act, said: bodies.FaultClosing, fault_id: int) -> str:
    """Close a fault: how it was put right."""
    return str(services.close_fault(act.session, act.who, fault_id, said.how).id)


def _noted(act: Act, key: str, tag: str) -> bodies.Ring:
    found = services.condition_of(act.session, act.who, tag)
    return next(_ring(ring) for ring in found.rings if ring.id == int(key))


@creates(
    "/propellers/{tag}/rings",
    body=bodies.NewRing,
    reply=bodies.Ring,
    at="/propellers/{tag}/condition",
    shows=_noted,
)
def note_ring(act: Act, said: bodies.NewRing, tag: str) -> str:
    """Note how a propeller rang when it was tapped."""
    return str(services.note_ring(act.session, act.who, tag, said.heard, said.blade, said.note).id)


@reads("/tools", reply=bodies.Tools, errors=(403,))
def tools(act: Act) -> bodies.Tools:
    """The bench's tools, and how well each reads."""
    act.who.must("see")
    rows = [
        bodies.Tool(
            name=tool.name,
            plus_minus=tool.plus_minus,
            unit=SI_UNITS[tool.kind],
            is_common=tool.is_common,
            source=tool.source,
            is_used=tool.is_used,
        )
        for tool in services.tools(act.session).values()
    ]
    return bodies.Tools(tools=rows)


@reads("/sheets/{sheet_id}/against/{other_id}", reply=bodies.Comparison)
def compare(act: Act, sheet_id: int, other_id: int) -> bodies.Comparison:
    """How far another sheet of the same thing is apart from this one, and whether within their ±."""
    try:
        found = services.compare_sheets(act.session, act.who, sheet_id, other_id)
    except Refused as refusal:
        raise NotFound(refusal.said) from None
    return bodies.Comparison(
        first_id=found.first.sheet.id,
        second_id=found.second.sheet.id,
        is_one_age=found.is_one_age,
        is_one_person=found.is_one_person,
        is_one_place=found.is_one_place,
        differences=[bodies.Difference.model_validate(one, from_attributes=True) for one in found.differences],
    )
