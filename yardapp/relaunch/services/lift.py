"""The lift crew's one answer: may she go in the water now, yes or no, and why."""

from dataclasses import dataclass
from datetime import datetime

from sqlalchemy.orm import Session

from yardapp.db import now
from yardapp.people.services import Who
from yardapp.relaunch.lines import TO_LAUNCH
from yardapp.relaunch.models import LaunchAct
from yardapp.relaunch.services.sheet import LaunchSheet, launch_sheet


@dataclass(frozen=True, kw_only=True)
class LiftAnswer:
    """Yes or no, in one sentence; `release` is what it rests on."""

    may_go: bool
    why: str
    boat: str
    planned: datetime
    at: datetime
    release: LaunchAct | None


def may_she_go(session: Session, who: Who, launch_id: int) -> LiftAnswer:
    """Whether this boat may go in at this moment of the server's clock.

    Raises
    ------
    NotFound
        There is no such launch, or this person may not know of it.
    """
    sheet = launch_sheet(session, who, launch_id, at=now())
    act = sheet.releases.get(TO_LAUNCH)
    may_go, why = _answer(sheet, act)
    return LiftAnswer(
        may_go=may_go, why=why, boat=sheet.vessel.name, planned=sheet.launch.planned, at=sheet.at, release=act
    )


def _answer(sheet: LaunchSheet, act: LaunchAct | None) -> tuple[bool, str]:
    if sheet.is_called_off:
        return False, "This launch was called off."
    if act is None:
        return False, _not_released(sheet)
    worse = [one for one in sheet.changed(TO_LAUNCH) if one.is_worse]
    if worse:
        return False, f"Not as she was released. {worse[0].title}: {worse[0].now[1] or 'open'}"
    if act.kind == "overridden":
        return True, f"On the word of {act.said_by}: {act.note}"
    return True, f"Released by {act.said_by}."


def _not_released(sheet: LaunchSheet) -> str:
    stops = sheet.in_the_way(TO_LAUNCH)
    if not stops:
        return "The office has not released her yet. Nothing is in the way."
    more = f" And {len(stops) - 1} more." if len(stops) > 1 else ""
    said = stops[0].said or "open"
    return f"Not released. {stops[0].title}: {said}.{more}".replace("..", ".")
