"""Blades, hubs and shafts worked out, and a shaft's sheets kept."""

from collections.abc import Iterable
from typing import Any

from flask import g

from yardapp.api.bodies import bench as kept
from yardapp.api.bodies import measuring as bodies
from yardapp.api.bodies import shaft_sheets
from yardapp.api.bodies.base import Figure, figure_of
from yardapp.api.door import Act, creates, reads, works_out
from yardapp.api.sizes import K
from yardapp.api.views.bench import MADE, METHODS, figured, kept_sheet, said_of, shown
from yardapp.api.views.items import figures_said
from yardapp.bench import services
from yardapp.bench.rows import row_name
from yardapp.filters import kind_of

METHODS["shaft_end"] = (services.ShaftEndReading, bodies.SHAFT_END_SIZES, ("thread",))
METHODS["bearing"] = (services.BearingReading, bodies.BEARING_SIZES, ("bearing",))
Made = tuple[Any, dict[str, Any]]


def _rows(
    rows: Iterable[tuple[int, Any]], names: Iterable[str], errors: Any, sent_in: str, **same: str
) -> dict[str, Any]:
    """Rows of figures by numbered name, each with its standard uncertainty; `same` says whose ± a name shares."""
    found: dict[str, Any] = {}
    for number, row in rows:
        for name in names:
            value = getattr(row, name)
            if value is not None:
                half_width = getattr(errors, same.get(name, name), None) if errors else None
                found[row_name(name, number)] = value
                found[f"u_{row_name(name, number)}"] = None if half_width is None else half_width / K
    g.sent_as = {**g.get("sent_as", {}), **{row_name(name, n): sent_in for name in names for n in range(1, 12)}}
    return found


def _alike(said: Any) -> Made:
    names = ("height_m", "tip_radius_m", "spacing_rad", "root_m")
    rows = _rows(((tip.blade, tip) for tip in said.tips), names, said.plus_minus, "tips")
    half_width = said.plus_minus.root_radius_m if said.plus_minus else None
    root = {"root_radius_m": said.root_radius_m, "u_root_radius_m": None if half_width is None else half_width / K}
    words = {"blades": said.blades, "heavy_blade": said.heavy_blade, "balance": said.balance or None}
    return services.AlikeReading(**rows, **root, **words), {}


def _area(said: Any) -> Made:
    found = figures_said(said, bodies.AREA_SIZES)
    figures: dict[str, Any] = {name: one.value for name, one in found.items()}
    figures |= {f"u_{name}": one.u for name, one in found.items()}
    for number, row in enumerate(said.widths or (), 1):
        for name in ("radius_m", "width_m"):
            figures[row_name(name, number)] = getattr(row, name)
            figures[f"u_{row_name(name, number)}"] = None if said.u_width is None else said.u_width / K
    g.sent_as |= {row_name(name, n): "widths" for name in ("radius_m", "width_m") for n in range(1, 12)}
    outline = None if said.outline is None else [(point.x_m, point.y_m) for point in said.outline]
    words = {"blades": said.blades, "whole": said.whole, "part": said.part, "outline": outline}
    u_point = None if said.u_point is None else said.u_point / K
    typed = {f"{name}_typed": one.typed for name, one in found.items()}
    return services.AreaReading(**figures, **words, u_point_m=u_point), typed


def _wear(said: Any) -> Made:
    names = ("along_m", "diameter_m", "second_m")
    rows = _rows(enumerate(said.places, 1), names, said.plus_minus, "places")
    words = {f"place_{number}": row.place or None for number, row in enumerate(said.places, 1)}
    return services.WearReading(**rows, **words), {}


def _run_out(said: Any) -> Made:
    quarters = ("top_m", "starboard_m", "bottom_m", "port_m")
    names = ("along_m", "swing_m", *quarters)
    same = dict.fromkeys(quarters, "dial_m")
    return services.RunOutReading(**_rows(enumerate(said.stations, 1), names, said.plus_minus, "stations", **same)), {}


MADE |= {"alike": _alike, "area": _area, "wear": _wear, "run_out": _run_out}


@works_out("/bench/alike", body=bodies.AlikeReading, reply=bodies.AlikeOutcome)
def alike(act: Act, said: bodies.AlikeReading) -> bodies.AlikeOutcome:
    """Hold the blades against each other: which one is bent, and by how much; nothing is kept."""
    outcome = services.alike_of(_alike(said)[0])
    odd = [
        bodies.Odd(
            what=one["what"],
            blade=one["blade"],
            is_odd=one["is_odd"],
            off=one["off"],
            plus_minus=K * one["u"],
            others_agree=one["others_agree"],
        )
        for one in outcome.more["odd"]
    ]
    classes = [
        bodies.SpacingClass(quantity=one["quantity"], iso_class=one["class"], note=one["note"])
        for one in outcome.more["classes"]
    ]
    return bodies.AlikeOutcome(**said_of(outcome), odd=odd, classes=classes)


@works_out("/bench/area", body=bodies.AreaReading, reply=bodies.AreaOutcome)
def area(act: Act, said: bodies.AreaWords) -> bodies.AreaOutcome:
    """Work out the blades' area: expanded, developed and projected, with ratios; nothing is kept."""
    outcome = services.area_of(_area(said)[0])
    return bodies.AreaOutcome(**said_of(outcome), area_ratio=_figure(outcome))


@works_out("/bench/wear", body=bodies.WearReading, reply=bodies.WearOutcome)
def wear(act: Act, said: bodies.WearReading) -> bodies.WearOutcome:
    """Work out how far a shaft is worn, place by place; nothing is kept."""
    outcome = services.wear_of(_wear(said)[0])
    return bodies.WearOutcome(**said_of(outcome), largest_wear=_figure(outcome))


@works_out("/bench/run_out", body=bodies.RunOutReading, reply=bodies.RunOutOutcome)
def run_out(act: Act, said: bodies.RunOutReading) -> bodies.RunOutOutcome:
    """Work out how far a shaft is bent from a dial's swing; nothing is kept."""
    outcome = services.run_out_of(_run_out(said)[0])
    return bodies.RunOutOutcome(**said_of(outcome), bow=_figure(outcome))


@works_out("/bench/shaft_end", body=bodies.ShaftEndReading, reply=bodies.ShaftEndOutcome)
def shaft_end(act: Act, said: bodies.ShaftEndWords) -> bodies.ShaftEndOutcome:
    """Work out a shaft's taper, and the standard ends nearest to it; nothing is kept."""
    outcome = services.shaft_end_of(figured("shaft_end", said)[0])
    taper = None if outcome.value is None else _figure(outcome)
    standards = [bodies.Standard.model_validate(one) for one in outcome.more["standards"]]
    return bodies.ShaftEndOutcome(**said_of(outcome), taper=taper, standards=standards)


@works_out("/bench/bearing", body=bodies.BearingReading, reply=bodies.BearingOutcome)
def bearing(act: Act, said: bodies.BearingWords) -> bodies.BearingOutcome:
    """Work out a shaft's play in its bearing, beside the rival limits; nothing is kept."""
    outcome = services.bearing_of(figured("bearing", said)[0])
    policies = [bodies.Policy.model_validate(one) for one in outcome.more["policies"]]
    return bodies.BearingOutcome(**said_of(outcome), play=_figure(outcome), policies=policies)


def _figure(outcome: services.Outcome) -> Figure:
    return figure_of(outcome.value or 0.0, kind_of(outcome.answer), outcome.u)


@reads("/shafts/{tag}/sheets", reply=kept.Sheets)
def shaft_sheets_of(act: Act, tag: str) -> kept.Sheets:
    """The bench sheets of one shaft, newest first."""
    found = services.sheets_of(act.session, act.who, tag, "shaft")
    return kept.Sheets(sheets=[shown(row) for row in found.sheets])


@creates(
    "/shafts/{tag}/sheets",
    body=shaft_sheets.NewShaftSheet,
    reply=kept.KeptSheet,
    at="/sheets/{key}",
    shows=kept_sheet,
)
def measure_shaft(act: Act, said: shaft_sheets.NewShaftSheet, tag: str) -> str:
    """Keep a bench sheet of a shaft; what comes of it is evidence."""
    sent: Any = said.root
    reading, typed = figured(sent.method, sent)
    filled = services.Filled(boxes=typed, note=sent.note, corrects=sent.corrects, why=sent.why)
    return str(services.measure(act.session, act.who, tag, services.METHODS[sent.method], reading, filled).id)
