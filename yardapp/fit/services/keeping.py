"""Keep a verdict as a dated record, and say later what has changed since."""

from collections.abc import Sequence
from dataclasses import asdict, dataclass
from typing import Any

from sqlalchemy import select
from sqlalchemy.orm import Session

from yardapp import __version__
from yardapp.db import now
from yardapp.errors import NotFound
from yardapp.fit.kept import Premise, changed, premises, put_down
from yardapp.fit.models import Kept
from yardapp.fit.services.pairing import drive_figures, pairing, propeller_figures
from yardapp.fit.verdict import plain
from yardapp.gear import services as gear
from yardapp.people import services as people
from yardapp.people.services import Who
from yardapp.vessels import services as vessels
from yardapp.vessels.services.in_use import drives_by_id

PAGE = 50


@dataclass(frozen=True, kw_only=True)
class KeptVerdict:
    """A kept verdict, the figures that it was made from, and those of today."""

    kept: Kept
    item: gear.Item
    drive: str
    premises: tuple[Premise, ...]

    @property
    def changed(self) -> tuple[Premise, ...]:
        """The premises that no longer stand."""
        return tuple(changed(self.premises))

    @property
    def holds(self) -> bool:
        """Whether every premise still stands."""
        return not self.changed


def keep_verdict(
    session: Session, who: Who, tag: str, drive_id: int, *, rule: str = "15 %", note: str = "", say: Any = plain
) -> Kept:
    """Judge the pair as it stands now, and keep all of it.

    Raises
    ------
    NotAllowed
        Only yard hands and the office record.
    NotFound, Refused
        As `pairing` does.
    """
    who.must("record")
    found = pairing(session, who, tag, drive_id, rule=rule, say=say)
    kept = Kept(
        item_id=found.item_id,
        drive_id=found.drive_id,
        tag=found.tag,
        drive=found.drive[:120],
        rule=rule,
        verdict=found.verdict.verdict,
        lede=found.verdict.lede,
        figures=put_down(found.propeller, found.room, engine=found.engine),
        checks=[asdict(check) for check in found.verdict.checks],
        app_version=__version__,
        note=" ".join(note.split())[:300],
        at=now(),
        person_id=who.person_id,
        said_by=who.name,
    )
    session.add(kept)
    session.flush()
    people.note(session, who, "kept a verdict", "item", found.item_id, drive_id=drive_id, verdict=kept.verdict)
    return kept


def kept_verdict(session: Session, who: Who, kept_id: int) -> KeptVerdict:
    """One kept verdict, and what has changed since.

    Raises
    ------
    NotFound
        There is none of that number, or this person may not know of its propeller or its drive.
    """
    row = session.execute(_chosen(who).where(Kept.id == kept_id)).first()
    if row is None:
        raise NotFound("There is no such verdict here.")
    drive, vessel = vessels.drive_by_id(session, who, row[0].drive_id)
    return _compared(row[0], row[1], drive, vessel)


def kept_of_propeller(session: Session, who: Who, tag: str) -> tuple[str, list[KeptVerdict]]:
    """The verdicts kept of one propeller, newest first, each with what has changed since.

    Raises
    ------
    NotFound
        No propeller carries the tag, or this person may not know of it.
    """
    found = select(gear.Item, Kept).outerjoin(Kept, Kept.item_id == gear.Item.id)
    found = found.where(gear.Item.tag == tag.strip().upper(), gear.Item.kind == "propeller", gear.seen_by(who))
    rows = session.execute(found.order_by(Kept.id.desc()).limit(PAGE)).all()
    if not rows:
        raise NotFound(f"Nothing here carries the tag {tag}.")
    kept = [(row[1], row[0]) for row in rows if row[1] is not None]
    return rows[0][0].tag, _all_compared(kept, drives_by_id(session, who, [one.drive_id for one, _ in kept]))


def kept_of_drive(session: Session, who: Who, drive_id: int) -> tuple[str, list[KeptVerdict]]:
    """The verdicts kept of one drive, newest first, each with what has changed since.

    Raises
    ------
    NotFound
        There is no such drive, or this person may not know of it.
    """
    drive, vessel = vessels.drive_by_id(session, who, drive_id)
    rows = session.execute(_chosen(who).where(Kept.drive_id == drive_id).order_by(Kept.id.desc()).limit(PAGE)).all()
    label = vessels.label_of(vessel.name, drive.position)
    return label, _all_compared([(row[0], row[1]) for row in rows], {drive.id: (drive, vessel)})


def _chosen(who: Who) -> Any:
    return select(Kept, gear.Item).join(gear.Item, gear.Item.id == Kept.item_id).where(gear.seen_by(who))


def _all_compared(kept: Sequence[tuple[Kept, gear.Item]], drives: dict[int, Any]) -> list[KeptVerdict]:
    """Only those whose drive this person may know of."""
    return [_compared(one, item, *drives[one.drive_id]) for one, item in kept if one.drive_id in drives]


def _compared(kept: Kept, item: gear.Item, drive: Any, vessel: Any) -> KeptVerdict:
    stands = put_down(propeller_figures(item), drive_figures(drive, vessel), engine=drive.engine)
    rests_on = [path for check in kept.checks for path in check["rests_on"]]
    return KeptVerdict(
        kept=kept,
        item=item,
        drive=vessels.label_of(vessel.name, drive.position),
        premises=tuple(premises(kept.figures, stands, rests_on)),
    )
