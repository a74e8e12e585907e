"""A plan as it would be: can it be done, what would help, what is needed, what stock has of it. Nothing is kept."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from sqlalchemy.orm import Session

from yardapp.coating.amounts import LeftOver, Need, left_over, needed
from yardapp.coating.models import Tin
from yardapp.coating.pieces import Piece, Unit, units_of
from yardapp.coating.planning import Plan, latest_start_s, plan
from yardapp.coating.services.asking import Asked, Found, find_pieces
from yardapp.coating.services.moves import as_stock
from yardapp.coating.services.systems import VersionRow, system_page
from yardapp.coating.services.tins import tins
from yardapp.coating.services.waiting import waiting_pieces
from yardapp.coating.stock import Draw, draw
from yardapp.coating.system import System
from yardapp.coating.weather import Gate, Reading, gate
from yardapp.coating.would import Would, would_do
from yardapp.db import now
from yardapp.errors import OutsideRange
from yardapp.people.services import Who


@dataclass(frozen=True, kw_only=True)
class Share:
    """One product's part, against what stands in stock."""

    product: str
    part: str
    volume_m3: float
    draw: Draw


@dataclass(frozen=True, kw_only=True)
class Looked:
    """A plan as it would be: its pieces, whether it can be done, what would help, what is needed."""

    version: VersionRow
    found: Sequence[Found]
    units: tuple[Unit, ...]
    plan: Plan | None
    plan_said: str
    would: tuple[Would, ...]
    needs: tuple[Need, ...]
    shares: Sequence[Share]
    tins: Sequence[Tin]
    latest_start_s: float | None
    gate: Gate | None
    rests: Mapping[str, LeftOver]

    @property
    def area_m2(self) -> float:
        """Everything that is to be coated."""
        return sum(one.planned.area_m2 for one in self.found)


def look(session: Session, who: Who, asked: Asked) -> Looked:
    """What a plan says; nothing is kept.

    Raises
    ------
    NotFound
        There is no such system.
    Refused
        A piece is never coated, or nobody knows its area.
    """
    who.must("see")
    version = system_page(session, who, asked.system_id).newest
    found = find_pieces(session, who, asked.pieces, version.system)
    units = units_of([one.planned for one in found], asked.blade_s)
    planned, said = _planned(version, units, asked)
    needs = needed(version.system, sum(one.planned.area_m2 for one in found), asked.loss_ratio)
    stock = tins(session, who)
    waiting = waiting_pieces(session, asked.system_id, but=[one.item.id for one in found if one.item])
    return Looked(
        version=version,
        found=found,
        units=units,
        plan=planned,
        plan_said=said,
        would=_would(version, units, found, asked) if planned is not None and planned.feasible is False else (),
        needs=needs,
        shares=_shares(version.system, needs, stock),
        tins=stock,
        latest_start_s=_latest(planned, asked),
        gate=_gate(version, asked),
        rests=_rests(
            version,
            units,
            planned,
            needs,
            asked,
            waiting,
        ),
    )


def _gate(version: VersionRow, asked: Asked) -> Gate | None:
    """Go or wait for the first coat, in the weather that is expected; None where nobody said what that is."""
    if asked.air_c is None and asked.relative_humidity is None:
        return None
    reading = Reading(at_s=0.0, air_c=asked.air_c, metal_c=asked.metal_c, relative_humidity=asked.relative_humidity)
    return gate(reading, version.system.steps[version.system.coats[0]].limits, 0.0)


def _rests(
    version: VersionRow,
    units: tuple[Unit, ...],
    planned: Plan | None,
    needs: Sequence[Need],
    asked: Asked,
    pieces: tuple[Piece, ...],
) -> dict[str, LeftOver]:
    """What the rest of the last kit of each product would cover before it dies, at the pace of this job."""
    pots = {pot.product: pot for pot in planned.pots} if planned else {}
    pace_m2ps = sum(unit.area_m2 or 0.0 for unit in units) / sum(unit.work_s for unit in units)
    found = {}
    for need in needs:
        step = next((one for one in version.system.coats if version.system.steps[one].product == need.product), None)
        if step is None or not need.left_m3 or need.left_m3 <= 0 or need.product not in pots:
            continue
        pot = pots[need.product]
        rest = left_over(
            version.system,
            step,
            need.left_m3,
            now_s=pot.last_s,
            good_until_s=pot.good_until_s,
            pace_m2ps=pace_m2ps,
            loss_ratio=asked.loss_ratio,
            pieces=pieces,
        )
        if rest is not None:
            found[need.product] = rest
    return found


def _planned(version: VersionRow, units: tuple[Unit, ...], asked: Asked) -> tuple[Plan | None, str]:
    start_s = (asked.starts or now()).timestamp()
    try:
        found = plan(
            version.system, units, people=asked.people, metal_c=asked.metal_c, start_s=start_s, hours=asked.hours
        )
    except OutsideRange as refusal:
        return None, f"Metal at {asked.metal_c:g} °C {refusal.said}"
    return found, ""


def _would(version: VersionRow, units: tuple[Unit, ...], found: Sequence[Found], asked: Asked) -> tuple[Would, ...]:
    """A roller is only spoken of by somebody who coats by brush and said how long it takes."""
    other_s = asked.other_blade_s if asked.way == "brush" else None
    rolled = units_of([one.planned for one in found], other_s) if other_s else ()
    return would_do(
        version.system,
        units,
        people=asked.people,
        metal_c=asked.metal_c,
        start_s=(asked.starts or now()).timestamp(),
        roller_s={unit.key: unit.work_s for unit in rolled} or None,
        hours=asked.hours,
    )


def _latest(planned: Plan | None, asked: Asked) -> float | None:
    if planned is None or asked.launches is None:
        return None
    return latest_start_s(planned, asked.launches.timestamp())


def _shares(system: System, needs: Sequence[Need], stock: Sequence[Tin]) -> list[Share]:
    """Each part that is needed, and the tins that it would come from."""
    tins_ = [as_stock(tin) for tin in stock]
    return [
        Share(
            product=need.product,
            part=part.part,
            volume_m3=part.volume_m3,
            draw=draw(tins_, product, sheet_part, part.volume_m3, now().timestamp()),
        )
        for need in needs
        if (product := system.product(need.product)) is not None
        for part, sheet_part in zip(need.parts, product.parts, strict=True)
        if part.volume_m3 is not None
    ]
