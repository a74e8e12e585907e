"""A pitch survey worked out."""

from collections import Counter
from math import radians
from typing import Any

from flask import g

from yardapp.api.bodies import survey as bodies
from yardapp.api.bodies.base import Figure, figure_of
from yardapp.api.door import Act, works_out
from yardapp.api.sizes import K
from yardapp.api.views.bench import MADE, PARTS, said_of
from yardapp.api.views.items import figures_said
from yardapp.bench import services

PLAIN = ("blades", "counts", "wanted_class")


def reading_of(said: Any) -> tuple[services.SurveyReading, dict[str, Any]]:
    """The reading as the bench takes it, and what was typed."""
    g.sent_as = {**g.get("sent_as", {}), "cells": "readings", "radius_ratio": "readings"}
    found = figures_said(said, bodies.SURVEY_SIZES)
    figures: dict[str, Any] = {name: one.value for name, one in found.items()}
    plain = {name: getattr(said, name) for name in PLAIN}
    errors: dict[str, Any] = {**_errors(said.plus_minus, ""), **_errors(said.common, "common_")}
    reading = services.SurveyReading(**figures, **plain, **errors, hand=said.hand or "", cells=_cells(said.readings))
    return reading, {f"{name}_typed": one.typed for name, one in found.items()}


MADE["survey"] = reading_of


def _errors(said: bodies.SurveyErrors | None, kind: str) -> dict[str, float]:
    """Standard uncertainties, k = 1, in SI."""
    height_mm, angle_deg = (None, None) if said is None else (said.height_mm, said.angle_deg)
    told = {f"u_{kind}height_m": height_mm and height_mm / 1000, f"u_{kind}angle_rad": angle_deg and radians(angle_deg)}
    return {name: value / K for name, value in told.items() if value is not None}


def _cells(points: list[bodies.SurveyPoint]) -> list[services.Cell]:
    """Each point with its station: the first, second, third that was read at its blade and radius."""
    count: Counter[tuple[int, float]] = Counter()
    cells: list[services.Cell] = []
    for point in points:
        place = point.blade, round(point.radius_ratio, 4)
        count[place] += 1
        cells.append(
            services.Cell(
                blade=point.blade,
                radius_ratio=point.radius_ratio,
                station=count[place],
                height_m=point.height_mm / 1000,
                angle_rad=radians(point.angle_deg),
            )
        )
    return cells


@works_out("/bench/survey", body=bodies.SurveyReading, reply=bodies.SurveyOutcome)
def survey(act: Act, said: bodies.SurveyWords) -> bodies.SurveyOutcome:
    """Work out a pitch survey: means, classes, what stands far off, what a shop must move; nothing is kept."""
    outcome = services.survey_of(reading_of(said)[0])
    return bodies.SurveyOutcome(**said_of(outcome), **_parts(outcome))


def _parts(outcome: services.Outcome) -> dict[str, Any]:
    found = outcome.more["survey"]
    return {
        "pitch": figure_of(outcome.value or 0.0, "length", outcome.u),
        "deviation": _off(outcome, found["design_m"]),
        "blades": [bodies.BladePitch(blade=number, pitch=_figure(one)) for number, one in enumerate(found["blade"], 1)],
        "sections": _sections(found),
        "classes": [_class(row) for row in found["classes"]],
        "overall": found["overall"] or None,
        "scope": found["scope"],
        "shop_list": [bodies.EdgeMove.model_validate(move) for move in (found["shop"] or {}).get("moves", ())],
        "warnings": [services.fault_said(fault) for fault in found["faults"]],
    }


PARTS["survey"] = lambda outcome: {"survey": bodies.SurveyParts(**_parts(outcome))}


def _figure(kept: list[Any] | None) -> Figure | None:
    return None if kept is None else figure_of(kept[0], "length", kept[1])


def _off(outcome: services.Outcome, design_m: float | None) -> Figure | None:
    return None if design_m is None else figure_of((outcome.value or 0.0) - design_m, "length", outcome.u)


def _sections(found: dict[str, Any]) -> list[bodies.SectionPitch]:
    return [
        bodies.SectionPitch(blade=blade, radius_ratio=radius, pitch=_figure(one))
        for blade, row in enumerate(found["section"], 1)
        for radius, one in zip(found["radii"], row, strict=True)
    ]


def _class(row: dict[str, Any]) -> Any:
    told = {"quantity": row["quantity"], "class": row["iso_class"] or None, "note": services.class_note(row)}
    return bodies.QuantityClass(**told)
