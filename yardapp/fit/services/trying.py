"""Try a size: figures as typed on one side or both, judged without a word in the register; and log it after all."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any

from sqlalchemy.orm import Session

from yardapp.errors import Refused
from yardapp.fit.figures import DriveFigures, Figure, PropellerFigures
from yardapp.fit.services.pairing import Pairing, drive_figures, propeller_by_tag, unjudged
from yardapp.fit.typed import (
    PROPELLER_SIZES,
    WAYS,
    WORDS,
    drive_typed,
    figure_typed,
    is_said,
    left_out,
    propeller_typed,
)
from yardapp.fit.verdict import RULES, plain
from yardapp.fit.verdict import judge as judge_figures
from yardapp.gear import services as gear
from yardapp.marks import services as marks
from yardapp.people.services import Who
from yardapp.vessels import services as vessels

NOT_FETCHED = "Seen, not fetched yet"
BOTH = "Choose {one} or type {other}, not both."


@dataclass(frozen=True, kw_only=True)
class Tried:
    """What was typed: the boxes by name, the way each side was read, and a tag or drive where one was chosen."""

    said: Mapping[str, Any]
    way: str = "caliper"
    shaft_way: str = "caliper"
    stamp: str = ""
    tag: str = ""
    drive_id: int | None = None
    rule: str = "15 %"

    @property
    def propeller(self) -> PropellerFigures:
        """The propeller as typed; what nobody measured is as its stamp says."""
        typed = propeller_typed(self.said, self.way)
        return _with_stamp(typed, self.stamp) if self.stamp.strip() else typed


def _with_stamp(typed: PropellerFigures, stamp: str) -> PropellerFigures:
    said = {one.what: one for one in marks.statements(marks.decode(stamp), stamp)}
    sizes: dict[str, Any] = {
        name: Figure(value=float(said[name].value or 0.0), u=said[name].u_value, basis="stamped")
        for name in left_out(PROPELLER_SIZES, typed)
        if name in said
    }
    if "hand" in said:
        sizes["hand_stamped"] = said["hand"].word
    if typed.blades is None and "blades" in said:
        sizes["blades"] = int(said["blades"].value or 0) or None
    return replace(typed, **sizes)


def try_size(session: Session, who: Who, tried: Tried, *, say: Any = plain) -> Pairing:
    """Judge what was typed; nothing is saved.

    Raises
    ------
    NotFound
        No propeller carries the tag, or there is no such drive, or this person may not know of it.
    Refused
        A side is typed and chosen at once, or there is no such rule.
    """
    if tried.rule not in RULES:
        raise Refused(f"There is no rule {tried.rule}: {', '.join(RULES)}.", "rule")
    propeller, tag = _propeller(session, who, tried)
    room, drive_id, label, vessel_id = _room(session, who, tried)
    return Pairing(
        tag=tag,
        drive_id=drive_id,
        drive=label,
        vessel_id=vessel_id,
        propeller=propeller,
        room=room,
        verdict=judge_figures(propeller, room, rule=tried.rule, say=say),
        unjudged=unjudged(propeller, room, say=say),
    )


def _propeller(session: Session, who: Who, tried: Tried) -> tuple[PropellerFigures, str]:
    typed = tried.propeller
    if not tried.tag.strip():
        return typed, ""
    if is_said(typed):
        raise Refused(BOTH.format(one="a tag", other="a propeller's figures"), "tag")
    return propeller_by_tag(session, who, tried.tag)


def _room(session: Session, who: Who, tried: Tried) -> tuple[DriveFigures, int, str, int]:
    typed = drive_typed(tried.said, tried.shaft_way)
    if tried.drive_id is None:
        return typed, 0, "", 0
    if is_said(typed):
        raise Refused(BOTH.format(one="a boat's shaft", other="a shaft's figures"), "drive_id")
    drive, vessel = vessels.drive_by_id(session, who, tried.drive_id)
    return drive_figures(drive, vessel), drive.id, vessels.label_of(vessel.name, drive.position), vessel.id


def log_tried(session: Session, who: Who, tried: Tried, *, place: str = "") -> gear.Item:
    """Make a logged propeller of what was typed: each box one statement of evidence, the stamp a mark.

    Raises
    ------
    NotAllowed
        This role may not even propose.
    Refused
        It has a tag already, or nothing was typed of it.
    """
    if tried.tag.strip():
        raise Refused("It has a tag already.", "tag")
    statements = _statements(tried)
    if not statements and not tried.stamp.strip():
        raise Refused("Type what you see of it first: a hand, a stamp, a size.")
    item = gear.log_item(session, who, *statements, place=place.strip() or NOT_FETCHED)
    if tried.stamp.strip():
        marks.record_mark(session, who, item, tried.stamp)
    return item


def _statements(tried: Tried) -> list[gear.Said]:
    reach, said = WAYS[tried.way], tried.said
    words = [
        gear.Said(what=name, basis=reach.basis, word=said[name], note="seen" if reach.basis == "measured" else "")
        for name in WORDS
        if said.get(name)
    ]
    sizes = [_size(name, tried) for name in PROPELLER_SIZES if said.get(name) is not None]
    if said.get("blades") is None:
        return [*words, *sizes]
    count = float(said["blades"])
    return [*words, gear.Said(what="blades", basis=reach.basis, value=count, u_value=0.0), *sizes]


def _size(name: str, tried: Tried) -> gear.Said:
    figure = figure_typed(name, tried.said[name], tried.way)
    return gear.Said(
        what=name,
        basis=figure.basis or "measured",
        value=figure.value,
        u_value=figure.u,
        typed=str(tried.said.get(f"{name}_typed") or ""),
        note=WAYS[tried.way].said,
    )
