"""Keep a verdict as a dated record, and say later what has changed since."""

from collections.abc import Sequence
from dataclasses import asdict, dataclass
from typing import Any

from sqlalchemy import select
from sqlalchemy.orm import Session, aliased

from yardapp import __version__
from yardapp.db import now
from yardapp.errors import NotFound
from yardapp.fit.kept import Premise, changed, premises, put_down
from yardapp.fit.models import Kept
from yardapp.fit.services.condition import State, states_of, with_state
from yardapp.fit.services.pairing import drive_figures, pairing, propeller_figures
from yardapp.fit.verdict import plain
from yardapp.gear import services as gear
from yardapp.people import services as people
from yardapp.people.services import Who
from yardapp.vessels import services as vessels

PAGE = 50


@dataclass(frozen=True, kw_only=True)
class KeptVerdict:
    """A kept verdict, the figures that it was made from, and those of today."""

    kept: Kept
    item: gear.Item
    drive: str
    premises: tuple[Premise, ...]
    # The tag of the propeller that was perhaps judged: tags may have been crossed then.
    perhaps_of: str | None = None

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
    found = _all_compared(session, session.execute(_chosen(who).where(Kept.id == kept_id)).all())
    if not found:
        raise NotFound("There is no such verdict here.")
    return found[0]


def kept_of_propeller(session: Session, who: Who, tag: str) -> tuple[str, list[KeptVerdict]]:
    """The verdicts kept of one propeller, newest first, each with what has changed since.

    Raises
    ------
    NotFound
        No propeller carries the tag, or this person may not know of it.
    """
    asked = gear.kept_ids(gear.Item.tag == tag.strip().upper())
    rows = _newest(session, _chosen(who).where(gear.under_any_tag(Kept.item_id, asked)))
    if not rows:  # none was kept, or there is no such propeller
        return gear.item_by_tag(session, who, tag, kind="propeller").tag, []
    return rows[0][1].tag, _all_compared(session, rows)


def kept_of_drive(session: Session, who: Who, drive_id: int) -> tuple[str, list[KeptVerdict]]:
    """The verdicts kept of one drive, newest first, each with what has changed since.

    Raises
    ------
    NotFound
        There is no such drive, or this person may not know of it.
    """
    rows = _newest(session, _chosen(who).where(Kept.drive_id == drive_id))
    if not rows:
        return vessels.drive_label(session, drive_id, who), []
    return vessels.label_of(rows[0][3].name, rows[0][2].position), _all_compared(session, rows)


def _chosen(who: Who) -> Any:
    """Only those whose propeller and drive this person may know of."""
    drive, vessel = vessels.Drive, vessels.Vessel
    judged = aliased(gear.Item)
    chosen = select(Kept, gear.Item, drive, vessel, gear.perhaps_of(Kept.item_id, Kept.at)).select_from(Kept)
    # What has changed since is asked of the tag that is kept: one that leads to another bears no figures any more.
    chosen = chosen.join(judged, judged.id == Kept.item_id).join(gear.Item, gear.Item.id == gear.kept_id(judged))
    chosen = chosen.join(drive, drive.id == Kept.drive_id).join(vessel, vessel.id == drive.vessel_id)
    return chosen.where(gear.seen_by(who), vessels.may_see_vessel(who))


def _newest(session: Session, chosen: Any) -> Sequence[Any]:
    rows: Sequence[Any] = session.execute(chosen.order_by(Kept.id.desc()).limit(PAGE)).all()
    return rows


def _all_compared(session: Session, rows: Sequence[Any]) -> list[KeptVerdict]:
    states = states_of(session, list({row[1].id for row in rows}))
    return [_compared(kept, item, states[item.id], *rest) for kept, item, *rest in rows]


def _compared(kept: Kept, item: gear.Item, state: State, drive: Any, vessel: Any, perhaps: str | None) -> KeptVerdict:
    propeller = with_state(propeller_figures(item), state)
    stands = put_down(propeller, drive_figures(drive, vessel), engine=drive.engine)
    rests_on = [path for check in kept.checks for path in check["rests_on"]]
    return KeptVerdict(
        kept=kept,
        item=item,
        drive=vessels.label_of(vessel.name, drive.position),
        premises=tuple(premises(kept.figures, stands, rests_on)),
        perhaps_of=perhaps,
    )
