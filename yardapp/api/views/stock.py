"""The register asked both ways: stock for a drive, drives for a propeller."""

from collections.abc import Mapping
from typing import Any

from yardapp.api.bodies import stock as bodies
from yardapp.api.door import Act, reads
from yardapp.fit import services
from yardapp.fit.effort import hours_of
from yardapp.fit.showing import say_in


@reads("/drives/{drive_id}/stock", query=bodies.StockAsked, reply=bodies.Stock)
def stock_for_drive(act: Act, asked: bodies.StockAsked, drive_id: int) -> bodies.Stock:
    """The register's propellers, ranked for one drive."""
    narrowed = services.Asked(
        place=asked.place,
        boat=asked.boat,
        blades=None if asked.blades is None else int(asked.blades),
        is_aboard_too=asked.aboard == "yes",
        is_for_sale=asked.for_sale == "yes",
        is_any_bore=asked.any_bore == "yes",
        rule=asked.rule,
        first=asked.first,
    )
    found = services.stock_for(act.session, act.who, drive_id, narrowed, say=say_in(act.who.units))
    rows = [_propeller(row) for row in found.rows]
    counts = _counts(found.counts)
    return bodies.Stock(drive=found.drive, rows=rows, counts=counts, further=found.further, lacks=found.lacks)


@reads("/propellers/{tag}/drives", query=bodies.DrivesAsked, reply=bodies.Takers)
def drives_for_propeller(act: Act, asked: bodies.DrivesAsked, tag: str) -> bodies.Takers:
    """The yard's drives, ranked for one propeller, and whose they are."""
    say = say_in(act.who.units)
    found = services.drives_for(
        act.session, act.who, tag, words=asked.boat, rule=asked.rule, first=asked.first, say=say
    )
    rows = [_drive(row) for row in found.rows]
    return bodies.Takers(tag=found.tag, rows=rows, counts=_counts(found.counts), further=found.further)


def _propeller(row: Any) -> bodies.StockRow:
    return bodies.StockRow(
        tag=row.tag,
        diameter_m=row.diameter_m,
        pitch_m=row.pitch_m,
        blades=row.blades,
        hand=row.hand,
        where=row.where,
        is_for_sale=row.is_for_sale,
        load_ratio=row.load_ratio,
        **judged(row.verdict),
    )


def _drive(row: Any) -> bodies.DriveRow:
    return bodies.DriveRow(
        drive_id=row.drive_id,
        drive=row.drive,
        vessel_id=row.vessel_id,
        owner=row.owner,
        hand=row.hand,
        shaft_diameter_m=row.shaft_diameter_m,
        taper=row.taper,
        came_off=row.came_off,
        **judged(row.verdict),
    )


def judged(verdict: Any) -> dict[str, Any]:
    """A verdict as every list tells it, with its hours of work."""
    from_h, to_h = hours_of(verdict.works)
    return {
        "verdict": verdict.verdict,
        "lede": verdict.lede,
        "works": list(verdict.works),
        "from_h": from_h,
        "to_h": to_h,
        "needs": [need.says for need in verdict.needs],
    }


def _counts(counts: Mapping[str, int]) -> bodies.Counts:
    return bodies.Counts(**{word.replace(" ", "_"): count for word, count in counts.items()})
