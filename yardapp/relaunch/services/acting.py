"""What every act upon a launch has in common: written down, counted, and the launch's own row brought up to it."""

from typing import Any

from sqlalchemy import select
from sqlalchemy.orm import Session

from yardapp.db import now
from yardapp.errors import NotFound, Refused
from yardapp.people import services as people
from yardapp.people.services import Who
from yardapp.relaunch.models import Launch, LaunchAct
from yardapp.relaunch.services.sheet import LaunchSheet, look_at
from yardapp.relaunch.settling import LineNow


def did(session: Session, who: Who, launch: Launch, kind: str, **said: Any) -> LaunchAct:
    """Write one act down; the trail has it too."""
    act = LaunchAct(launch_id=launch.id, kind=kind, at=now(), person_id=who.person_id, said_by=who.name, **said)
    session.add(act)
    launch.version = (launch.version or 1) + 1
    session.flush()
    people.note(session, who, kind, "launch", launch.id, line=act.line, drive_id=act.drive_id, number=act.id)
    return act


def acts_of(session: Session, launch: Launch) -> list[LaunchAct]:
    """Every act of a launch, oldest first."""
    return list(session.scalars(select(LaunchAct).where(LaunchAct.launch_id == launch.id).order_by(LaunchAct.id)))


def refresh(session: Session, who: Who, launch: Launch) -> LaunchSheet:
    """Write what the acts say now onto the launch's own row: what the board reads."""
    sheet = look_at(session, who, launch, acts_of(session, launch))
    launch.is_over = sheet.is_over
    launch.still = [_still(one) for one in sheet.lines if not one.is_settled]
    launch.looked = now()
    return sheet


def _still(one: LineNow) -> dict[str, Any]:
    return {
        "key": one.line.key,
        "drive_id": one.place.drive_id,
        "title": one.title,
        "part": one.line.part,
        "has": one.has,
        "verdict": one.verdict,
        "is_stop": one.line.is_stop,
        "by": one.line.by,
        "due": one.due.isoformat() if one.due else "",
        "late": one.late.isoformat() if one.late else "",
    }


def launch_for_change(session: Session, who: Who, launch_id: int) -> tuple[Launch, LaunchSheet]:
    """A launch that is not called off, held until the save is done, and its sheet.

    Raises
    ------
    NotAllowed
        Only yard hands and the office work on a launch.
    NotFound
        There is no such launch.
    Refused
        It was called off.
    """
    who.must("record")
    return held(session, who, launch_id)


def held(session: Session, who: Who, launch_id: int) -> tuple[Launch, LaunchSheet]:
    """The same, whoever asks: an owner of their own boat, too.

    Raises
    ------
    NotFound, Refused
        As `launch_for_change` does.
    """
    launch = session.scalar(select(Launch).where(Launch.id == launch_id).with_for_update())
    if launch is None:
        raise NotFound("There is no such launch here.")
    sheet = look_at(session, who, launch, acts_of(session, launch))
    if sheet.is_called_off:
        raise Refused("This launch was called off. Plan another one.")
    return launch, sheet


def one_line(text: str) -> str:
    """A note as it is kept: on one line, at most 300 letters."""
    return " ".join(text.split())[:300]
