"""Stock that goes down as product is mixed: which tins an act takes from, and what goes back. Rows are only added."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from sqlalchemy import select
from sqlalchemy.orm import Session

from yardapp.coating.acts import LEFT_OVER, MIXED
from yardapp.coating.amounts import shares_by_volume
from yardapp.coating.models import CoatingAct, Job, StockMove, Tin
from yardapp.coating.services.stories import Story
from yardapp.coating.stock import HAIR, draw
from yardapp.coating.stock import Tin as StockTin
from yardapp.coating.system import Product
from yardapp.db import now
from yardapp.errors import Refused
from yardapp.people.services import Who

IN_STOCK, COUNTED, TAKEN, BACK, UNDONE = "put in stock", "counted", "taken", "back", "taken back"
THROWN_OUT, BACK_IN_TIN, ELSEWHERE = "thrown out", "back in its tin", "used elsewhere"
FATES = (THROWN_OUT, BACK_IN_TIN, ELSEWHERE)
MOST = 200
EMPTY_M3 = 1e-9  # a thousandth of a millilitre


def as_stock(tin: Tin) -> StockTin:
    """A tin as the stock's arithmetic takes it."""
    until = tin.expires_on
    ends = None if until is None else datetime(until.year, until.month, until.day, 23, 59).astimezone()
    return StockTin(
        key=str(tin.id),
        product=tin.product,
        part=tin.part,
        volume_m3=tin.volume_m3,
        batch=tin.batch,
        opened=tin.opened_on is not None,
        expires_s=None if ends is None else ends.timestamp(),
    )


def figures_with_stock(
    session: Session, story: Story, kind: str, figures: Mapping[str, Any], at: datetime, *, without: int | None = None
) -> dict[str, Any]:
    """What an act keeps: beside its own figures, from which tins it took, of which batch, and what stock lacked.

    `without`: the act whose place it takes.

    Raises
    ------
    Refused
        A rest can't go back: it was mixed of two parts, nobody said how much, or nobody noted from which tin it came.
    """
    said = {name: value for name, value in figures.items() if name not in ("takes", "short_m3")}
    product = story.system.product(str(said.get("product", "")))
    if product is None:
        return said
    if kind == MIXED and said.get("volume_m3"):
        return said | _taken(session, product, said, at)
    if kind == LEFT_OVER and said.get("fate") == BACK_IN_TIN:
        took = _still_out([act for act in story.standing_acts if act.id != without], product)
        return said | {"takes": _goes_back(product, said.get("volume_m3"), took)}
    return said


def _taken(session: Session, product: Product, said: Mapping[str, Any], at: datetime) -> dict[str, Any]:
    shares = shares_by_volume(product)
    if shares is None:
        return {}
    rows = {str(tin.id): tin for tin in session.scalars(select(Tin).where(Tin.is_gone.is_(False)).with_for_update())}
    stock = [as_stock(tin) for tin in rows.values()]
    takes: list[dict[str, Any]] = []
    short_m3: dict[str, float] = {}
    for part in product.parts:
        wanted_m3 = shares[part.name] * said["volume_m3"]
        drawn = draw(stock, product, part, wanted_m3, at.timestamp(), batch=said.get("batch", ""))
        takes += [_take(rows[key], part.name, volume_m3, key in drawn.expired) for key, volume_m3 in drawn.takes]
        if drawn.short_m3:
            short_m3[part.name] = drawn.short_m3
    batches = dict.fromkeys(take["batch"] for take in takes if take["batch"])
    return {
        **({"takes": takes} if takes else {}),
        **({"short_m3": short_m3} if short_m3 and takes else {}),
        **({"batch": " / ".join(batches)[:40]} if batches and not said.get("batch") else {}),
    }


def _take(tin: Tin, part: str, volume_m3: float, is_past: bool) -> dict[str, Any]:
    return {"tin": tin.id, "part": part, "batch": tin.batch, "volume_m3": -volume_m3, "is_past": is_past}


def _goes_back(product: Product, volume_m3: float | None, took: Mapping[int, float]) -> list[dict[str, Any]]:
    """Into the tins that it came from, the one taken last first; never more than was taken."""
    if product.is_mixed:
        raise Refused(f"{product.name} is mixed of parts: in its tin it would set. Throw it out, or use it up.", "fate")
    if not volume_m3:
        raise Refused("How much goes back into the tin?", "volume_m3")
    if not took:
        raise Refused("Nobody noted from which tin it came. Change the tin's own record in the stock.", "fate")
    if volume_m3 > sum(took.values()) + EMPTY_M3:
        raise Refused("That is more than was taken from the tin.", "volume_m3")
    back: list[dict[str, Any]] = []
    for tin_id, out_m3 in reversed(list(took.items())):
        given_m3 = min(out_m3, volume_m3)
        volume_m3 -= given_m3
        if given_m3 > HAIR:
            back.append({"tin": tin_id, "part": product.parts[0].name, "batch": "", "volume_m3": given_m3})
    return back


def _still_out(acts: Sequence[CoatingAct], product: Product) -> dict[int, float]:
    """What this job has taken from each tin of a product and not given back, in the order in which it was taken."""
    out: dict[int, float] = {}
    for act in acts:
        if act.figures.get("product") == product.name:
            for take in act.figures.get("takes", ()):
                out[take["tin"]] = out.pop(take["tin"], 0.0) - take["volume_m3"]
    return {tin_id: out_m3 for tin_id, out_m3 in out.items() if out_m3 > HAIR}


def settle(session: Session, who: Who, act: CoatingAct) -> None:
    """Take from the tins, or give back, what an act says; it has its number by now."""
    kind = TAKEN if act.kind == MIXED else BACK
    for take in act.figures.get("takes", ()):
        move(session, who, session.get_one(Tin, take["tin"]), kind, take["volume_m3"], at=act.at, act_id=act.id)


def take_back(session: Session, who: Who, act: CoatingAct) -> None:
    """An act that was undone or put right has taken nothing."""
    for take in act.figures.get("takes", ()):
        move(session, who, session.get_one(Tin, take["tin"]), UNDONE, -take["volume_m3"], at=now(), act_id=act.id)


def move(
    session: Session,
    who: Who,
    tin: Tin,
    kind: str,
    volume_m3: float,
    *,
    at: datetime | None = None,
    act_id: int | None = None,
    note: str = "",
) -> None:
    """Add one row and keep the tin's own figure in step with it: the one place that writes either."""
    noted = now()
    left_m3 = tin.volume_m3 + volume_m3
    if left_m3 < EMPTY_M3:  # what a sum of floats leaves is nothing
        volume_m3, left_m3 = -tin.volume_m3, 0.0
    session.add(
        StockMove(
            tin_id=tin.id,
            act_id=act_id,
            kind=kind,
            volume_m3=volume_m3,
            at=at or noted,
            noted=noted,
            person_id=who.person_id,
            said_by=who.name,
            note=note,
        )
    )
    tin.volume_m3, tin.is_gone, tin.version = left_m3, left_m3 == 0, tin.version + 1
    if kind not in (IN_STOCK, COUNTED):
        tin.volume_m3_typed = ""  # nobody typed what is in it now
    if kind == TAKEN:
        tin.opened_on = tin.opened_on or (at or noted).astimezone().date()


@dataclass(frozen=True, kw_only=True)
class MoveRow:
    """One row of a tin, and the job for which it was."""

    kind: str
    volume_m3: float
    at: datetime
    said_by: str
    note: str
    job_id: int | None
    job: str | None


def moves_of(session: Session, who: Who, tin_id: int) -> list[MoveRow]:
    """What came into a tin and went out of it, newest first."""
    who.must("see")
    chosen = (
        select(
            StockMove.kind,
            StockMove.volume_m3,
            StockMove.at,
            StockMove.said_by,
            StockMove.note,
            Job.id.label("job_id"),
            Job.title.label("job"),
        )
        .outerjoin(CoatingAct, CoatingAct.id == StockMove.act_id)
        .outerjoin(Job, Job.id == CoatingAct.job_id)
        .where(StockMove.tin_id == tin_id)
        .order_by(StockMove.id.desc())
        .limit(MOST)
    )
    return [MoveRow(**row) for row in session.execute(chosen).mappings()]
