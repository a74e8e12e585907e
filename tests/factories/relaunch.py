"""Launches of the invented yard."""

from datetime import datetime, timedelta
from typing import Any

from sqlalchemy.orm import Session

from tests.factories.gear import make_propeller
from tests.factories.people import make_who
from tests.factories.vessels import make_drive, make_vessel
from yardapp.db import now
from yardapp.gear import services as gear
from yardapp.relaunch import services as relaunch
from yardapp.relaunch.models import Launch
from yardapp.vessels.models import Drive

IN_THREE_DAYS = timedelta(days=3)


def make_boat(session: Session, *, name: str = "Kittiwake", hand: str = "right", **said: Any) -> tuple[Drive, str]:
    """A boat with one drive and its propeller on it; the tag."""
    drive = make_drive(session, make_vessel(session, name=name), hand=hand, **said)
    return drive, put_propeller_on(session, drive, hand=hand)


def put_propeller_on(session: Session, drive: Drive, **said: Any) -> str:
    """A propeller of its own goes on a drive; the tag."""
    item = make_propeller(session, **said)
    gear.move_item(session, make_who(session), item.tag, "went on", drive_id=drive.id)
    return item.tag


def make_launch(session: Session, vessel_id: int | None, *, planned: datetime | None = None, **said: Any) -> Launch:
    """A launch in three days, planned by Ada Brook."""
    assert vessel_id is not None
    return relaunch.plan_launch(session, make_who(session), vessel_id, planned or now() + IN_THREE_DAYS, **said)


def answer(session: Session, launch_id: int, line: str, drive_id: int | None = None, **said: Any) -> Any:
    """One answer by Finn Marsh, "in order" unless said otherwise; where no evidence is, it says what he goes by."""
    who = make_who(session, name=said.pop("by", "Finn Marsh"), role=said.pop("role", "hand"))
    told = {"answer": "yes", "note": "looked", **said}
    return relaunch.answer_line(session, who, launch_id, relaunch.Answer(line=line, drive_id=drive_id, **told))


def scan(session: Session, launch_id: int, drive_id: int | None, tag: str, hand: str = "right", **said: Any) -> Any:
    """Finn Marsh scans a tag at the shaft, and says the hand."""
    who = make_who(session, name=said.pop("by", "Finn Marsh"), role="hand")
    return relaunch.scan_tag(session, who, launch_id, line="propeller", drive_id=drive_id, tag=tag, hand=hand)


def settle(session: Session, launch_id: int, release: str = "to launch", *, but: tuple[str, ...] = ()) -> None:
    """Everything in the way of a release is answered, but for some lines: scanned, and signed by two where two sign."""
    for now_ in relaunch.launch_sheet(session, make_who(session), launch_id).in_the_way(release):
        line, drive_id = now_.line, now_.place.drive_id
        if line.key in but or line.by == "faults":
            continue
        if line.by == "scan":
            sheet = relaunch.launch_sheet(session, make_who(session), launch_id)
            drive = next(one for one in sheet.drives if one.id == drive_id)
            scan(session, launch_id, drive_id, drive.tag, drive.hand or "right")
        else:
            answer(session, launch_id, line.key, drive_id)
        if line.signs > 1:
            answer(session, launch_id, line.key, drive_id, by="Ivy Lund")
