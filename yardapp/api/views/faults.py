"""Faults of things, drives and boats, with those that the bench marked: one list, one way to decide."""

from datetime import date

from yardapp.api.bodies import relaunch as bodies
from yardapp.api.door import Act, creates, reads
from yardapp.errors import NotFound, Refused
from yardapp.relaunch import services


def _fault(fault: services.FaultNow) -> bodies.YardFault:
    names = ("key", "severity", "what", "place", "evidence", "tag", "drive_id", "vessel_id", "at", "said_by")
    return bodies.YardFault(
        **{name: getattr(fault, name) for name in names},
        on=fault.on,
        is_open=fault.closing is None,
        is_accepted=fault.is_accepted(services.today()),
        decides=fault.decides,
        decisions=[_decision(one) for one in fault.decisions],
    )


def _decision(one: services.Decision) -> bodies.Decision:
    until = one.until.isoformat() if one.until else ""
    return bodies.Decision(kind=one.kind, name=one.name, note=one.note, until=until, at=one.at, said_by=one.said_by)


@reads("/yard-faults", query=bodies.YardFaultsAsked, reply=bodies.YardFaults)
def yard_faults(act: Act, asked: bodies.YardFaultsAsked) -> bodies.YardFaults:
    """Faults, worst first: of the yard, of one boat and what is on her, or of one thing."""
    vessel_id = int(asked.vessel_id) if asked.vessel_id else None
    found = services.faults(act.session, act.who, vessel_id=vessel_id, tag=asked.tag, with_closed=asked.show == "all")
    return bodies.YardFaults(faults=[_fault(one) for one in found])


@reads("/yard-faults/{fault_key}", reply=bodies.YardFault)
def yard_fault(act: Act, fault_key: str) -> bodies.YardFault:
    """One fault, and what was decided of it."""
    return _fault(services.fault_by_key(act.session, act.who, fault_key))


def _raised(act: Act, key: str) -> bodies.YardFault:
    return yard_fault(act, key)


@creates("/yard-faults", body=bodies.NewYardFault, reply=bodies.YardFault, at="/yard-faults/{key}", shows=_raised)
def raise_yard_fault(act: Act, said: bodies.NewYardFault) -> str:
    """Write a fault of a thing, a drive or a boat down."""
    try:
        return f"y{services.raise_fault(act.session, act.who, services.FaultSaid(**said.model_dump())).id}"
    except NotFound as refusal:
        box = "tag" if said.tag.strip() else "drive_id" if said.drive_id else "vessel_id"
        raise Refused(str(refusal), box) from None


def _decided(act: Act, key: str, fault_key: str) -> bodies.YardFault:
    return yard_fault(act, fault_key)


@creates(
    "/yard-faults/{fault_key}/decisions",
    body=bodies.NewDecision,
    reply=bodies.YardFault,
    at="/yard-faults/{fault_key}",
    shows=_decided,
)
def decide_fault(act: Act, said: bodies.NewDecision, fault_key: str) -> str:
    """Say who decides, accept a fault until a day, accept it no longer, or close it."""
    try:
        return _decide(act, said, fault_key)
    except Refused as refusal:
        box = {"how": "note", "why": "note"}.get(refusal.argument, refusal.argument)
        raise Refused(refusal.said, box) from None


def _decide(act: Act, said: bodies.NewDecision, key: str) -> str:
    session, who = act.session, act.who
    if said.kind == "decides":
        return services.say_who_decides(session, who, key, said.name).key
    if said.kind == "closed":
        return services.close_fault(session, who, key, said.note).key
    if said.kind == "acceptance ended":
        return services.end_acceptance(session, who, key, said.note).key
    return services.accept_fault(session, who, key, name=said.name, why=said.note, until=_day(said.until)).key


def _day(text: str) -> date | None:
    try:
        return date.fromisoformat(text) if text else None
    except ValueError:
        raise Refused("There is no such day.", "until") from None
