"""Product in stock: opened and unopened, with batch and expiry."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Any

from sqlalchemy import select
from sqlalchemy.orm import Session

from yardapp.coating.amounts import one_coat_m2
from yardapp.coating.models import Tin
from yardapp.coating.services.moves import COUNTED, IN_STOCK, as_stock, move
from yardapp.coating.services.systems import systems
from yardapp.coating.stock import Makes, makes
from yardapp.db import now
from yardapp.errors import NotFound, Refused, Superseded
from yardapp.people import services as people
from yardapp.people.services import Who

TIN_BOXES = ("product", "part", "batch", "volume_m3", "volume_m3_typed", "expires_on", "opened_on", "place", "note")


def tins(session: Session, who: Who, *, with_gone: bool = False) -> list[Tin]:
    """Product in stock by name, what expires first first."""
    who.must("see")
    chosen = select(Tin).order_by(Tin.product, Tin.part, Tin.expires_on.is_(None), Tin.expires_on, Tin.id)
    return list(session.scalars(chosen if with_gone else chosen.where(Tin.is_gone.is_(False))))


@dataclass(frozen=True, kw_only=True)
class Covers:
    """What the tins of one product would make when mixed, and how much one coat of that covers."""

    product: str
    system: str
    makes: Makes | None
    covers_m2: float | None


def covers(session: Session, who: Who, stock: Sequence[Tin]) -> list[Covers]:
    """Of each product that the yard's systems use and stock has, how much can be mixed and what that would cover."""
    told = [as_stock(tin) for tin in stock]
    found = []
    for row in systems(session, who, used_only=True):
        for product in row.system.products:
            made = makes(told, product, now().timestamp())
            if any(tin.holds(product, part) for tin in told for part in product.parts):
                area_m2 = None if made is None else one_coat_m2(row.system, product, made.volume_m3)
                found.append(Covers(product=product.name, system=row.name, makes=made, covers_m2=area_m2))
    return found


def tin_by_id(session: Session, who: Who, tin_id: int) -> Tin:
    """One tin.

    Raises
    ------
    NotFound
        There is no such tin.
    """
    who.must("see")
    tin = session.get(Tin, tin_id)
    if tin is None:
        raise NotFound("There is no such tin.")
    return tin


def add_tin(session: Session, who: Who, said: Mapping[str, Any]) -> Tin:
    """Put a tin into stock.

    Raises
    ------
    Refused
        It holds nothing, has no name, or was opened on a day that has not come.
    """
    who.must("record")
    wanted = _tidied(said)
    tin = Tin(logged=now(), **{**wanted, "volume_m3": 0.0})
    session.add(tin)
    session.flush()  # for its number
    move(session, who, tin, IN_STOCK, wanted["volume_m3"])
    tin.version = 1
    people.note(session, who, "put in stock", "coating tin", tin.id, product=tin.product, batch=tin.batch)
    return tin


def change_tin(session: Session, who: Who, tin_id: int, version: int, said: Mapping[str, Any]) -> Tin:
    """Change a tin's record: opened, used from, used up, moved.

    Raises
    ------
    NotFound
        There is no such tin.
    Refused
        It has no name, or was opened on a day that has not come.
    Superseded
        Somebody saved this record since `version`.
    """
    who.must("record")
    tin = session.get(Tin, tin_id, with_for_update=True)
    if tin is None:
        raise NotFound("There is no such tin.")
    wanted = _tidied(said)
    if tin.version != version and any(getattr(tin, name) != value for name, value in wanted.items()):
        raise Superseded(tin.version, _as_typed(tin), _last_hand(session, tin))
    counted_m3 = wanted.pop("volume_m3")
    for name, value in wanted.items():
        setattr(tin, name, value)
    if counted_m3 != tin.volume_m3:
        move(session, who, tin, COUNTED, counted_m3 - tin.volume_m3, note=wanted["note"])
    else:
        tin.version += 1
    people.note(session, who, "changed", "coating tin", tin.id, volume_m3=tin.volume_m3, place=tin.place)
    return tin


def _tidied(said: Mapping[str, Any]) -> dict[str, Any]:
    wanted = {name: said[name] for name in TIN_BOXES if name in said}
    for name in ("product", "part", "batch", "place", "note"):
        wanted[name] = " ".join((wanted.get(name) or "").split())
    if not wanted["product"]:
        raise Refused("Which product is it? As the system's sheet calls it.", "product")
    if wanted.get("volume_m3") is None:
        raise Refused("How much is in it? 0 when it is used up.", "volume_m3")
    if (opened := wanted.get("opened_on")) and opened > now().date():
        raise Refused("That day has not come yet.", "opened_on")
    return wanted


def _as_typed(tin: Tin) -> dict[str, str]:
    said = {name: getattr(tin, name) for name in TIN_BOXES if name != "volume_m3_typed"}
    said["volume_m3"] = tin.volume_m3_typed or f"{tin.volume_m3 * 1000:g} l"
    return {name: value.isoformat() if isinstance(value, date) else str(value or "") for name, value in said.items()}


def _last_hand(session: Session, tin: Tin) -> str:
    trail = people.audit_of(session, "coating tin", tin.id, limit=1)
    return trail[0].name if trail else "Somebody"
