"""Drives: list them, enter one, look at one, change it."""

from typing import Any

from flask import g

from yardapp.api.bodies import drives as bodies
from yardapp.api.bodies.base import Figure, figure_of
from yardapp.api.door import Act, changes, creates, reads
from yardapp.api.sizes import Told
from yardapp.api.views.items import figures_said
from yardapp.errors import NotFound, Refused
from yardapp.vessels import services


def shown(drive: Any, vessel: str) -> bodies.Drive:
    """One drive as it stands."""
    return bodies.Drive(
        id=drive.id,
        version=drive.version,
        label=services.label_of(vessel, drive.position),
        vessel_id=drive.vessel_id,
        position=drive.position,
        is_in_use=drive.is_in_use,
        engine=drive.engine,
        hand=drive.hand,
        hull_clearance_from=drive.hull_clearance_from,
        shaft_alloy=drive.shaft_alloy,
        behind=drive.behind,
        engine_curve=drive.engine_curve or [],
        figures=_shown_figures(drive),
        typed={name: text for name, text in drive.typed.items() if text},
        note=drive.note,
        changed=drive.changed,
        assumed=g.get("assumed", []),
    )


def _shown_figures(drive: Any) -> dict[str, Figure]:
    known = ((size, getattr(drive, size.name)) for size in bodies.DRIVE_SIZES)
    return {
        size.name: figure_of(value, size.kind, getattr(drive, f"u_{size.name}", None))
        for size, value in known
        if value is not None
    }


@reads("/drives", query=bodies.DrivePage, reply=bodies.Drives)
def drives(act: Act, asked: bodies.DrivePage) -> bodies.Drives:
    """Drives, by number."""
    found = services.list_drives(act.session, act.who, after=asked.after, limit=asked.limit + 1)
    page = [shown(drive, label.rpartition(", ")[0]) for drive, label in found[: asked.limit]]
    return bodies.Drives(drives=page, after=page[-1].id if len(found) > asked.limit else None)


@reads("/drives/{drive_id}", reply=bodies.Drive)
def drive(act: Act, drive_id: int) -> bodies.Drive:
    """One drive as it stands."""
    found, vessel = services.drive_by_id(act.session, act.who, drive_id)
    return shown(found, vessel.name)


def _entered(act: Act, key: str) -> bodies.Drive:
    return drive(act, int(key))


@creates("/drives", body=bodies.NewDrive, reply=bodies.Drive, at="/drives/{key}", shows=_entered)
def set_drive(act: Act, said: bodies.DriveWords) -> str:
    """Enter a drive of a boat."""
    words = {name: getattr(said, name) for name in bodies.WORDS}
    figures = _figures(figures_said(said, bodies.DRIVE_SIZES))
    try:
        return str(services.set_drive(act.session, act.who, said.vessel_id, words | figures).id)
    except NotFound as refusal:
        raise Refused(str(refusal), "vessel_id") from None


@changes("/drives/{drive_id}", body=bodies.DriveChange, reply=bodies.Drive)
def change_drive(act: Act, said: bodies.DriveChangeWords, drive_id: int) -> bodies.Drive:
    """Change what is said of a drive; what stood before stays in its history."""
    sent = said.model_fields_set
    words = {name: getattr(said, name) for name in bodies.WORDS if name in sent}
    forgotten = {size.name: None for size in bodies.DRIVE_SIZES if sent & {size.plain, size.name}}
    figures = _figures(figures_said(said, bodies.DRIVE_SIZES))
    services.change_drive(act.session, act.who, drive_id, said.version, words | forgotten | figures)
    return drive(act, drive_id)


def _figures(found: dict[str, Told]) -> dict[str, Any]:
    """Each figure by name, with what was typed and, where it came, its ± beside it."""
    figures: dict[str, Any] = {}
    for name, one in found.items():
        figures |= {name: one.value, f"{name}_typed": one.typed}
        if one.u is not None:
            figures[f"u_{name}"] = one.u
    return figures
