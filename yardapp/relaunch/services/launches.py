"""Plan a launch, move its hour, call it off."""

from datetime import datetime

from sqlalchemy import exists, select
from sqlalchemy.orm import Session

from yardapp.db import now
from yardapp.errors import Refused
from yardapp.people.services import Who
from yardapp.relaunch.lines import as_plain
from yardapp.relaunch.models import Launch
from yardapp.relaunch.services.acting import did, launch_for_change, one_line, refresh
from yardapp.relaunch.services.lists import list_by_name
from yardapp.relaunch.shipped import suggested
from yardapp.vessels import services as vessels


def plan_launch(session: Session, who: Who, vessel_id: int, planned: datetime | None, *, list_name: str = "") -> Launch:
    """Give a boat a launch date: her sheet begins, on the newest lines for her kind of drive.

    Raises
    ------
    NotAllowed
        Only yard hands and the office plan launches.
    NotFound
        There is no such boat or list.
    Refused
        No hour was given, or she has a launch planned already.
    """
    who.must("record")
    vessels.vessel_by_id(session, who, vessel_id, for_change=True)  # two who plan at once come one after the other
    page = vessels.vessel_page(session, who, vessel_id)
    if planned is None:
        raise Refused("When is she to go in? A day and an hour.", "planned")
    if session.scalar(select(exists().where(Launch.vessel_id == vessel_id, ~Launch.is_over))):
        raise Refused("She has a launch planned already. Change its hour, or call it off.", "vessel_id")
    lines = list_by_name(session, who, list_name or suggested(sum(drive.is_in_use for drive in page.drives)))
    launch = Launch(
        vessel_id=vessel_id,
        list_name=lines.name,
        list_number=lines.number,
        lines=as_plain(lines.lines),
        begun=now(),
        person_id=who.person_id,
        said_by=who.name,
        planned=planned,
        looked=now(),
    )
    session.add(launch)
    session.flush()  # its acts name its number
    did(session, who, launch, "planned", planned=planned)
    refresh(session, who, launch)
    return launch


def change_hour(session: Session, who: Who, launch_id: int, planned: datetime | None, why: str = "") -> Launch:
    """Move a launch to another hour; coating and faults are judged at the new one.

    Raises
    ------
    NotFound
        There is no such launch.
    Refused
        No hour was given, or she is afloat.
    """
    launch, sheet = launch_for_change(session, who, launch_id)
    if planned is None:
        raise Refused("When is she to go in? A day and an hour.", "planned")
    if "afloat" in sheet.releases:
        raise Refused("She is afloat already.", "planned")
    launch.planned = planned
    did(session, who, launch, "planned", planned=planned, note=one_line(why))
    refresh(session, who, launch)
    return launch


def call_off(session: Session, who: Who, launch_id: int, why: str) -> Launch:
    """Call a launch off; its sheet stays readable.

    Raises
    ------
    NotFound
        There is no such launch.
    Refused
        No reason was given, or she is afloat.
    """
    launch, sheet = launch_for_change(session, who, launch_id)
    if not why.strip():
        raise Refused("Why is it called off?", "why")
    if "afloat" in sheet.releases:
        raise Refused("She is afloat already.", "why")
    did(session, who, launch, "called off", note=one_line(why))
    refresh(session, who, launch)
    return launch
