"""Boats: list them, enter one, look at one, change her record."""

from typing import Any

from flask import g

from yardapp.api.bodies import vessels as bodies
from yardapp.api.door import Act, changes, creates, reads
from yardapp.api.views import drives, items
from yardapp.errors import NotFound, Refused
from yardapp.gear import services as gear
from yardapp.people import services as people
from yardapp.vessels import services

WORDS = ("name", "kind", "owner", "owner_id", "note")


@reads("/vessels", query=bodies.VesselPage, reply=bodies.Vessels)
def vessels(act: Act, asked: bodies.VesselPage) -> bodies.Vessels:
    """Boats, by name."""
    found = services.boats(act.session, act.who, after=asked.after, after_id=asked.after_id, limit=asked.limit + 1)
    page = [listed(row) for row in found[: asked.limit]]
    if len(found) <= asked.limit:
        return bodies.Vessels(vessels=page, after=None, after_id=None)
    return bodies.Vessels(vessels=page, after=page[-1].name, after_id=page[-1].id)


def listed(row: services.VesselRow) -> bodies.VesselListed:
    """One row of a list."""
    return bodies.VesselListed(id=row.id, name=row.name, kind=row.kind, owner=row.owner)


@reads("/vessels/{vessel_id}", reply=bodies.Vessel)
def vessel(act: Act, vessel_id: int) -> bodies.Vessel:
    """One boat, her drives, and the gear aboard."""
    found = services.vessel_page(act.session, act.who, vessel_id)
    aboard = gear.aboard(act.session, act.who, [drive.id for drive in found.drives]) if found.drives else {}
    her = found.vessel
    return bodies.Vessel(
        id=her.id,
        version=her.version,
        name=her.name,
        kind=her.kind,
        owner=her.owner,
        owner_id=her.owner_id,
        length_m=her.length_m,
        length_m_typed=her.length_m_typed,
        block_ratio=her.block_ratio,
        note=her.note,
        names=[bodies.Named(name=one.name, until=one.until) for one in found.names],
        drives=[drives.shown(one, her.name) for one in found.drives],
        aboard=[items.listed(row) for rows in aboard.values() for row in rows],
        happenings=[_happened(one) for one in found.happenings],
        assumed=g.get("assumed", []),
    )


def _happened(one: Any) -> bodies.HappenedToHer:
    return bodies.HappenedToHer(
        id=one.id,
        at=one.at,
        said_by=one.said_by,
        kind=one.kind,
        drive_id=one.drive_id,
        note=one.note,
        before=one.before,
    )


def _entered(act: Act, key: str) -> bodies.Vessel:
    return vessel(act, int(key))


@creates("/vessels", body=bodies.NewVessel, reply=bodies.Vessel, at="/vessels/{key}", shows=_entered)
def log_vessel(act: Act, said: bodies.NewVessel) -> str:
    """Enter a boat."""
    length = _length(said)
    _must_be_somebody(act, said.owner_id)
    words = {name: getattr(said, name) for name in WORDS}
    return str(services.log_vessel(act.session, act.who, **words, **length, block_ratio=said.block_ratio).id)


def _length(said: Any) -> dict[str, Any]:
    found = items.figures_said(said, [bodies.LENGTH]).get("length_m")
    return {} if found is None else {"length_m": found.value, "length_m_typed": found.typed}


def _must_be_somebody(act: Act, owner_id: int | None) -> None:
    """An account that is none is a wrong field, not a wrong address."""
    try:
        if owner_id:
            people.person_by_id(act.session, owner_id)
    except NotFound as refusal:
        raise Refused(str(refusal), "owner_id") from None


@changes("/vessels/{vessel_id}", body=bodies.VesselChange, reply=bodies.Vessel)
def change_vessel(act: Act, said: bodies.VesselChange, vessel_id: int) -> bodies.Vessel:
    """Change her record; an old name or owner is still found."""
    her = services.vessel_by_id(act.session, act.who, vessel_id, for_change=True)
    _must_be_somebody(act, said.owner_id)
    words = {name: getattr(said, name) for name in WORDS}
    services.change_vessel(act.session, act.who, vessel_id, said.version, **words, **_figures(said, her))
    return vessel(act, vessel_id)


def _figures(said: bodies.VesselChange, her: Any) -> dict[str, Any]:
    """Length and block coefficient change together: whichever was not sent stays as it is."""
    sent, length = said.model_fields_set, _length(said)
    if not sent & {"length", "length_m", "block_ratio"}:
        return {}
    if not sent & {"length", "length_m"}:
        length = {"length_m": her.length_m, "length_m_typed": her.length_m_typed}
    block_ratio = said.block_ratio if "block_ratio" in sent else her.block_ratio
    return {"length_m_typed": "", "block_ratio": block_ratio, **length}
