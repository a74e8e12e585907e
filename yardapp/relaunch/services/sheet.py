"""The sheet of one boat, made from what is on her: always worked out afresh."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from typing import Any

from sqlalchemy import select
from sqlalchemy.orm import Session

from yardapp.db import now
from yardapp.errors import NotFound
from yardapp.people.services import Who
from yardapp.relaunch.evidence import DriveNow
from yardapp.relaunch.freezing import Change, changes
from yardapp.relaunch.lines import FOLLOW_UP, RELEASES, from_plain, in_words
from yardapp.relaunch.models import Launch, LaunchAct
from yardapp.relaunch.services.fault_rows import FaultNow, fault_rows
from yardapp.relaunch.services.finding import LONGEST, Aboard, Asked, aboard, found
from yardapp.relaunch.services.policies import choices
from yardapp.relaunch.settling import LineNow, Place, in_the_way, released, sheet_of, standing, still_open
from yardapp.vessels import services as vessels


@dataclass(frozen=True, kw_only=True)
class LaunchSheet:
    """One launch with every line as it stands at a moment."""

    launch: Launch
    vessel: Any
    drives: tuple[DriveNow, ...]
    acts: tuple[LaunchAct, ...]
    lines: tuple[LineNow, ...]
    faults: tuple[FaultNow, ...]
    at: datetime

    @property
    def releases(self) -> dict[str, LaunchAct]:
        """The releases that stand, by name."""
        return {name: act for name, act in released(self.acts).items() if isinstance(act, LaunchAct)}

    @property
    def is_called_off(self) -> bool:
        """Whether this launch is not to be."""
        return any(act.kind == "called off" for act in standing(self.acts))

    def line(self, key: str, drive_id: int | None) -> LineNow:
        """One line of one drive.

        Raises
        ------
        NotFound
            It is not on this sheet.
        """
        now = next((one for one in self.lines if one.key == (key, drive_id)), None)
        if now is None:
            raise NotFound("That line is not on this sheet.")
        return now

    def in_the_way(self, release: str) -> list[LineNow]:
        """What keeps her from a release."""
        return in_the_way(self.lines, release)

    def open(self, release: str) -> list[LineNow]:
        """What of a release is not settled."""
        return still_open(self.lines, release)

    def changed(self, release: str) -> list[Change]:
        """What stands otherwise than when she was released."""
        act = self.releases.get(release)
        return changes(act.frozen, self.lines) if act is not None and act.frozen else []

    @property
    def next_release(self) -> str | None:
        """The release that comes next; None when all are given."""
        return next((name for name in RELEASES if name not in self.releases), None)

    @property
    def follow_ups(self) -> list[LineNow]:
        """What must be looked at afterwards and was not yet, the soonest first."""
        lines = [now for now in self.lines if now.line.part == FOLLOW_UP and not now.is_settled]
        return sorted(lines, key=lambda now: (now.due is None, now.due or self.at))

    @property
    def is_over(self) -> bool:
        """Whether nothing more is to be done."""
        return self.is_called_off or (self.next_release is None and not self.follow_ups)


def launch_sheet(session: Session, who: Who, launch_id: int, *, at: datetime | None = None) -> LaunchSheet:
    """The sheet of a launch as it stands: coating and faults at the planned hour, or at the moment that is given.

    Raises
    ------
    NotFound
        There is no such launch, or this person may not know of it.
    """
    rows = session.execute(
        select(Launch, LaunchAct)
        .outerjoin(LaunchAct, LaunchAct.launch_id == Launch.id)
        .where(Launch.id == launch_id)
        .order_by(LaunchAct.id)
    ).all()
    if not rows:
        raise NotFound("There is no such launch here.")
    return look_at(session, who, rows[0][0], [row[1] for row in rows if row[1] is not None], at=at)


def look_at(
    session: Session, who: Who, launch: Launch, acts: Sequence[LaunchAct], *, at: datetime | None = None
) -> LaunchSheet:
    """The same, of a launch that is at hand."""
    page = _boat(session, who, launch)
    eyes = who if who.may("see") else replace(who, role="hand")  # she is theirs: the sheet is made with the yard's eyes
    moment = at or max(launch.planned, now())
    settled = choices(session)
    lines = [in_words(line, settled) for line in from_plain(launch.lines)]
    there = aboard(session, eyes, page, acts)
    faults = fault_rows(session, eyes, vessel_ids=[launch.vessel_id])
    asked = Asked(lines=lines, acts=acts, at=moment, since=_since(session, launch), policies=settled)
    told = found(session, eyes, asked, there, faults)
    return LaunchSheet(
        launch=launch,
        vessel=page.vessel,
        drives=there.drives,
        acts=tuple(acts),
        lines=sheet_of(lines, _places(there), acts, told),
        faults=tuple(faults),
        at=moment,
    )


def _boat(session: Session, who: Who, launch: Launch) -> vessels.VesselPage:
    try:
        return vessels.vessel_page(session, who, launch.vessel_id)
    except NotFound:
        raise NotFound("There is no such launch here.") from None


def _places(there: Aboard) -> list[Any]:
    """Each drive; of a boat whose drives nobody has entered, the boat: the nut's lock is asked all the same."""
    return [drive.place for drive in there.drives] or [Place()]


def _since(session: Session, launch: Launch) -> datetime:
    """Evidence from before she went in the last time says nothing about this launch."""
    earlier = select(LaunchAct.at).join(Launch, Launch.id == LaunchAct.launch_id)
    earlier = earlier.where(Launch.vessel_id == launch.vessel_id, Launch.id < launch.id, LaunchAct.release != "")
    last = session.scalar(earlier.order_by(LaunchAct.id.desc()).limit(1))
    return last or launch.begun - LONGEST
