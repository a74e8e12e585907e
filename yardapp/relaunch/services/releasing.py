"""Let a boat go: refused while a stop is open, overridden by name with a reason, kept as the sheet was."""

from typing import Any

from sqlalchemy.orm import Session

from yardapp import __version__
from yardapp.coating import services as coating
from yardapp.db import now
from yardapp.errors import NotFound, Refused
from yardapp.people.services import Who
from yardapp.relaunch.freezing import Change, changes, put_down
from yardapp.relaunch.lines import AFLOAT, RELEASES
from yardapp.relaunch.models import Launch, LaunchAct
from yardapp.relaunch.services.acting import did, launch_for_change, refresh
from yardapp.relaunch.services.allowed import must_be_office
from yardapp.relaunch.services.sheet import LaunchSheet


def release(session: Session, who: Who, launch_id: int, name: str, note: str = "") -> LaunchAct:
    """Release a boat: to launch, afloat, or to her owner. The sheet is kept as it stands.

    Raises
    ------
    NotAllowed
        Only the office releases.
    NotFound
        There is no such launch or release.
    Refused
        A stop is open, an earlier release is missing, or she was released already.
    """
    launch, sheet = _ready(session, who, launch_id, name)
    stops = sheet.in_the_way(name)
    if stops:
        count = f"{len(stops)} thing{'s' if len(stops) > 1 else ''} in the way"
        raise Refused(f"Not released, {count}: {'; '.join(one.title for one in stops[:5])}.", "")
    return _let_go(session, who, launch, sheet, "released", name, note)


def override(session: Session, who: Who, launch_id: int, name: str, reason: str) -> LaunchAct:
    """Release a boat although stops are open, on one's own name; the reason stands on the printed sheet.

    Raises
    ------
    NotAllowed
        Only the office overrides.
    NotFound
        There is no such launch or release.
    Refused
        No reason was given, nothing is in the way, or an earlier release is missing.
    """
    launch, sheet = _ready(session, who, launch_id, name)
    if not sheet.in_the_way(name):
        raise Refused("Nothing is in the way: release her.", "reason")
    if len(reason.split()) < 2:
        raise Refused("Why may she go all the same? It is printed on her sheet.", "reason")
    return _let_go(session, who, launch, sheet, "overridden", name, reason)


def _ready(session: Session, who: Who, launch_id: int, name: str) -> tuple[Launch, LaunchSheet]:
    must_be_office(who, "releases a boat")
    if name not in RELEASES:
        raise NotFound("There is no such release.")
    launch, sheet = launch_for_change(session, who, launch_id)
    if name in sheet.releases:
        raise Refused("She was released already. Take that release back first.", "")
    missing = next((one for one in RELEASES[: RELEASES.index(name)] if one not in sheet.releases), None)
    if missing is not None:
        raise Refused(f"She was not released {missing} yet.", "")
    return launch, sheet


def _let_go(
    session: Session, who: Who, launch: Launch, sheet: LaunchSheet, kind: str, name: str, note: str
) -> LaunchAct:
    said: dict[str, Any] = {
        "boat": sheet.vessel.name,
        "owner": sheet.vessel.owner,
        "release": name,
        "kind": kind,
        "planned": launch.planned.isoformat(),
        "at": now().isoformat(),
        "said_by": who.name,
        "note": note.strip(),
        "list": launch.list_said,
        "drives": [{"id": one.id, "label": one.label, "hand": one.hand, "tag": one.tag} for one in sheet.drives],
        "faults": [_fault(fault) for fault in sheet.faults],
        "app_version": __version__,
    }
    frozen = put_down(sheet.lines, name, **said)
    note = " ".join(note.split())[:300]
    act = did(session, who, launch, kind, release=name, note=note, frozen=frozen, app_version=__version__)
    if name == AFLOAT:
        coating.boat_afloat(session, who, [one.id for one in sheet.drives], launch.id)
    refresh(session, who, launch)
    return act


def _fault(fault: Any) -> dict[str, Any]:
    given = fault.acceptance
    accepted = f"accepted by {given.name} until {given.until.isoformat()}: {given.note}" if given else ""
    return {
        "key": fault.key,
        "severity": fault.severity,
        "on": fault.on,
        "what": fault.what,
        "place": fault.place,
        "accepted": accepted,
    }


def take_release_back(session: Session, who: Who, launch_id: int, act_id: int, why: str) -> LaunchAct:
    """Take a release back: what was kept stays readable, and she must be released again.

    Raises
    ------
    NotAllowed
        Only the office takes a release back.
    NotFound
        There is no such release in this launch.
    Refused
        No reason was given, or a later release stands on it.
    """
    must_be_office(who, "takes a release back")
    launch, sheet = launch_for_change(session, who, launch_id)
    old = next((act for act in sheet.releases.values() if act.id == act_id), None)
    if old is None:
        raise NotFound("There is no such release here.")
    if not why.strip():
        raise Refused("Why is it taken back?", "why")
    later = next((one for one in RELEASES[RELEASES.index(old.release) + 1 :] if one in sheet.releases), None)
    if later is not None:
        raise Refused(f"She was released {later} since. Take that back first.", "why")
    note = " ".join(why.split())[:300]
    act = did(session, who, launch, "taken back", release="", note=note, takes_back_id=act_id)
    if old.release == AFLOAT:
        coating.boat_not_afloat(session, who, launch.id)
    refresh(session, who, launch)
    return act


def kept_release(sheet: LaunchSheet, act_id: int) -> LaunchAct:
    """A release as it was kept, also one that was taken back.

    Raises
    ------
    NotFound
        There is no such release in this launch.
    """
    found = next((act for act in sheet.acts if act.id == act_id and act.frozen), None)
    if found is None:
        raise NotFound("There is no such release here.")
    return found


def changed_since(sheet: LaunchSheet, act: LaunchAct) -> list[Change]:
    """What stands otherwise than on a kept sheet."""
    return changes(act.frozen, sheet.lines) if act.frozen else []
