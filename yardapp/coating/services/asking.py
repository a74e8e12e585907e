"""What a plan is asked for: its pieces as they were named, found in the register, with area and last coat."""

import re
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime

from sqlalchemy import func, select
from sqlalchemy.orm import Session

from yardapp.coating.areas import PropellerSize, propeller_area_of, shaft_area_of
from yardapp.coating.hours import Hours
from yardapp.coating.models import Piece
from yardapp.coating.pieces import NEVER, Allowed, allowed
from yardapp.coating.pieces import Piece as PlannedPiece
from yardapp.coating.system import System
from yardapp.errors import NotFound, Refused
from yardapp.gear import services as gear
from yardapp.people.services import Who

_TAG = re.compile(r"[A-Z]-\d{1,9}")


@dataclass(frozen=True, kw_only=True)
class AskedPiece:
    """One piece as it was asked for: a kind, a tag or a name, and what its area follows from."""

    kind: str
    name: str
    area_m2: float | None = None
    area_m2_typed: str = ""
    area_ratio: float | None = None
    length_m: float | None = None
    diameter_m: float | None = None
    allowed_by: str = ""
    allowed_on: date | None = None
    row: int = 0  # of the form, where a refusal about it belongs


@dataclass(frozen=True, kw_only=True)
class Asked:
    """A job as it is planned."""

    system_id: int
    pieces: Sequence[AskedPiece]
    title: str = ""
    drive_id: int | None = None
    people: int = 1
    way: str = "brush"
    blade_s: float
    other_blade_s: float | None = None
    metal_c: float
    air_c: float | None = None
    relative_humidity: float | None = None
    loss_ratio: float = 0.2
    starts: datetime | None = None
    launches: datetime | None = None
    hours: Hours | None = None
    note: str = ""


@dataclass(frozen=True, kw_only=True)
class Found:
    """One asked piece as it stands: what it is in the register, its area and from what, whether it may be coated."""

    asked: AskedPiece
    item: gear.Item | None
    planned: PlannedPiece
    rests_on: str
    verdict: Allowed


def find_pieces(session: Session, who: Who, asked: Sequence[AskedPiece], system: System) -> list[Found]:
    """Each piece with its area and its verdict.

    Raises
    ------
    Refused
        A piece is never coated, nobody knows its area, or nothing carries its tag.
    """
    if not asked:
        raise Refused("What is to be coated? One piece at least.", "pieces-0-name")
    items = [_item(session, who, one, f"pieces-{one.row}-name") for one in asked]
    slippery = _foul_release(session, [item.id for item in items if item is not None])
    found = []
    for number, (one, item) in enumerate(zip(asked, items, strict=True)):
        found.append(_found(number, one, item, item is not None and item.id in slippery, system))
    return found


def _item(session: Session, who: Who, one: AskedPiece, box: str) -> gear.Item | None:
    """The tagged thing that is meant, if it is one."""
    tag = one.name.strip().upper()
    if one.kind not in ("propeller", "shaft") or not _TAG.fullmatch(tag):
        return None
    try:
        item = gear.item_by_tag(session, who, tag)
    except NotFound as refusal:
        raise Refused(str(refusal), box) from None
    if item.kind != one.kind:
        raise Refused(f"{item.tag} is a {item.kind}.", box)
    return item


def _foul_release(session: Session, item_ids: Sequence[int]) -> set[int]:
    """Those whose last coat was a foul-release one: later paint will not hold on it."""
    if not item_ids:
        return set()
    last = select(func.max(Piece.id)).join(gear.Item, gear.Item.id == Piece.item_id)
    last = last.where(gear.kept_id().in_(item_ids), Piece.finished.is_not(None)).group_by(gear.kept_id())
    chosen = select(gear.kept_id()).join(Piece, Piece.item_id == gear.Item.id)
    return set(session.scalars(chosen.where(Piece.id.in_(last), Piece.foul_release)))


def _found(number: int, one: AskedPiece, item: gear.Item | None, is_slippery: bool, system: System) -> Found:
    box = f"pieces-{one.row}"
    _never(one, f"{box}-kind")
    area_m2, rests_on = _area(one, item, box)
    label = item.tag if item else " ".join(one.name.split())[:80] or one.kind.capitalize()
    planned = PlannedPiece(
        key=str(number + 1),
        label=label,
        kind=one.kind,
        area_m2=area_m2,
        blades=(item.blades or 0) if item is not None and one.kind == "propeller" else 0,
        allowed_by=one.allowed_by,
        allowed_on=one.allowed_on.isoformat() if one.allowed_on else "",
        last_foul_release=is_slippery,
    )
    verdict = allowed(planned, system)
    if verdict.verdict == "no":
        raise Refused(verdict.why, f"{box}-kind")
    return Found(asked=one, item=item, planned=planned, rests_on=rests_on, verdict=verdict)


def _never(one: AskedPiece, box: str) -> None:
    """Refuse what is never coated, under whatever kind it was entered."""
    words = f"{one.kind} {one.name}".casefold()
    named = next((never for never in NEVER if never in words), None)
    if named is not None:
        raise Refused(f"{NEVER[named]} It is never coated.", box)


def _area(one: AskedPiece, item: gear.Item | None, box: str) -> tuple[float, str]:
    """Its area, and what that rests on."""
    if one.area_m2 is not None:
        return one.area_m2, "as typed"
    if one.kind == "propeller":
        return _propeller_area(one, item, box)
    length_m = one.length_m or (item.length_m if item else None)
    diameter_m = one.diameter_m or (item.diameter_m if item else None)
    if length_m is None or diameter_m is None:
        raise Refused("Say its area, or its length and diameter.", f"{box}-area_m2")
    return shaft_area_of(length_m, diameter_m), "length and diameter, round"


def _propeller_area(one: AskedPiece, item: gear.Item | None, box: str) -> tuple[float, str]:
    if item is None:
        raise Refused("Say its area, or give its tag.", f"{box}-area_m2")
    size = PropellerSize(
        diameter_m=item.diameter_m,
        blades=item.blades,
        area_ratio=one.area_ratio or item.area_ratio,
        hub_length_m=item.hub_length_m,
        hub_diameter_m=item.hub_diameter_m,
    )
    found = propeller_area_of(size)
    if found.area_m2 is None:
        raise Refused(f"Say its area, or first: {', '.join(found.needs)}.", f"{box}-area_m2")
    return found.area_m2, "; ".join(found.rests_on)
