"""What may be typed on a survey: how it is laid out, and a grid of cells."""

import re
from collections.abc import Iterator, Mapping
from typing import Any, ClassVar

from wtforms import RadioField, SelectField, StringField, ValidationError
from wtforms.validators import InputRequired, Length

from yardapp.bench.forms.boxes import UNITS, BenchForm, blades_box, tool_box
from yardapp.bench.forms.survey_grid import Grid, Wrong, angles_in, grid_of, radii_in
from yardapp.bench.tools import K, Tool
from yardapp.fields import AngleField, CountField, LengthField
from yardapp.forms import options
from yardapp.quantities import show

CELL = re.compile(r"[ha]-\d-\d?\.?\d+-\d+", re.ASCII)
WAYS = [("steps", "Heights at fixed steps"), ("angles", "A height and an angle each")]
HANDS = [("right", "Right"), ("left", "Left"), ("", "Didn't look")]
COUNTS = [("anticlockwise", "Anticlockwise"), ("clockwise", "Clockwise")]
CLASSES = [("S", "S, very high"), ("I", "I, high"), ("II", "II, medium"), ("III", "III, wide"), ("", "None")]
USUAL_RADII, USUAL_ANGLES = "0.5 0.6 0.7 0.8 0.9", "0 10 20 30 40"
MOST_STATIONS = 12


class SurveyForm(BenchForm):
    """One survey: its set-up in boxes, its readings in a grid beside them. Bare lengths are in the sheet's own unit."""

    ABOUT = "Heights over blades, radii and stations"
    TOOLS: ClassVar[dict[str, str]] = {"height_m": "height_tool", "angle_rad": "angle_tool"}

    way = RadioField("What is read at each station", choices=options(WAYS), default="steps")
    blades = blades_box(InputRequired("Count the blades."))
    hand = RadioField("Hand", choices=options(HANDS), default="")
    radii = StringField("Radii", [Length(max=120)], default=USUAL_RADII)
    angles = StringField("Angles of the stations", [Length(max=120)], default=USUAL_ANGLES)
    stations = CountField("Stations", at_least=2, at_most=MOST_STATIONS, default=3, what="number of stations")
    counts = RadioField("Angles count, seen from above", choices=options(COUNTS), default="anticlockwise")
    unit = RadioField("Heights in", choices=options((unit, unit) for unit in UNITS), default="mm")
    diameter_m = LengthField("Diameter", at_least=0.1, at_most=12.0, what="diameter")
    design_pitch_m = LengthField("Pitch it should have", description="Stamped, or by design", what="pitch")
    wanted_pitch_m = LengthField("Bring it to", description="Empty: to the pitch it should have", what="pitch")
    wanted_class = SelectField("To class", choices=options(CLASSES), default="II")
    height_tool = tool_box("Heights read with", "height gauge", "depth gauge", "steel rule")
    angle_tool = tool_box("Angles read with", "degree ring", "swing template", "protractor")
    plus_minus_height_m = LengthField("± of each height", at_least=0.0, at_most=0.1, what="±")
    plus_minus_angle_rad = AngleField("± of each angle", default_unit="deg", at_least=0.0, at_most=0.5, what="±")
    common_height_m = LengthField("± of heights, the same on every blade", at_least=0.0, at_most=0.1, what="±")
    common_angle_rad = AngleField(
        "± of angles, the same on every blade", default_unit="deg", at_least=0.0, at_most=0.5, what="±"
    )

    def __init__(self, formdata: Any = None, *args: Any, **given: Any) -> None:
        super().__init__(formdata, *args, **given)
        sent: Mapping[str, str] = formdata or {}
        self.typed = {name: sent[name].strip() for name in sent if CELL.fullmatch(name)}
        self._grid: Grid | None = None

    def validate_radii(self, field: Any) -> None:
        """Every radius lies between the hub and the tip, and stands there once."""
        self._told(radii_in, field)

    def validate_angles(self, field: Any) -> None:
        """Two angles at least, going one way."""
        if self.way.data == "steps":
            self._told(angles_in, field)

    def validate_stations(self, field: Any) -> None:
        """How many there are must be said where each has an angle of its own."""
        if self.way.data == "angles" and field.data is None:
            raise ValidationError("How many stations at each radius?")

    def _told(self, read: Any, field: Any) -> None:
        try:
            read(field.data or "")
        except Wrong as wrong:
            raise ValidationError(wrong.said) from wrong

    def open(self, typed: Mapping[str, str]) -> None:
        """Fill every box and cell with what was typed into it before."""
        super().open(typed)
        self.typed = {name: text for name, text in typed.items() if CELL.fullmatch(name) and text}
        self._grid = None

    def all_typed(self) -> dict[str, str]:
        """What stands in every box and cell of the sheet, by name, as it was typed."""
        return {**super().all_typed(), **self.typed}

    @property
    def grid(self) -> Grid:
        """The cells as they are laid out, read, and what of them can't be read."""
        if self._grid is None:
            self._grid = grid_of(self)
        return self._grid

    def misread(self) -> list[Any]:
        """Boxes and cells that hold something which can't stand."""
        return [*super().misread(), *(cell for cell in self.grid.cells() if cell.errors)]

    def plus_minus_said(self) -> Iterator[tuple[str, float | None]]:
        """The standard uncertainties (k = 1): separate and common, of heights and angles.

        A template is one and the same at every blade, and so are the marks of fixed steps: their error is common.
        """
        for name, box in self.TOOLS.items():
            tool = self.tools.get(self[box].data)
            own, shared = self[f"plus_minus_{name}"].data, self[f"common_{name}"].data
            is_common = self._is_common(name, tool)
            usual = tool.plus_minus if tool else None
            separate = own if own is not None else (0.0 if is_common else usual)
            common = shared if shared is not None else (usual if is_common else 0.0)
            yield f"u_{name}", None if separate is None else separate / K
            yield f"u_common_{name}", None if common is None else common / K

    def _is_common(self, name: str, tool: Tool | None) -> bool:
        return (name == "angle_rad" and self.way.data == "steps") or bool(tool and tool.is_common)

    def own_boxes(self) -> dict[str, str]:
        """Each ± box by name, and what stands for it while it is empty."""
        said = {f"plus_minus_{name}": "" for name in self.TOOLS} | {f"common_{name}": "" for name in self.TOOLS}
        for name, box in self.TOOLS.items():
            tool = self.tools.get(self[box].data)
            kind = "common" if self._is_common(name, tool) else "plus_minus"
            said[f"{kind}_{name}"] = show(tool.plus_minus, tool.kind) if tool else ""
        return said

    def own_filled(self) -> bool:
        """Whether any ± of the person's own was typed."""
        return any(self[name].typed or self[name].errors for name in self.own_boxes())

    def reading(self) -> dict[str, Any]:
        """What was read, as the service takes it."""
        plain = ("blades", "hand", "counts", "diameter_m", "design_pitch_m", "wanted_pitch_m", "wanted_class")
        said = {name: self[name].data for name in plain}
        return {**said, **dict(self.plus_minus_said()), "cells": self.grid.readings()}

    def boxes(self) -> dict[str, Any]:
        """What the sheet keeps beside its figures: every box as typed, and the tools by name."""
        tools = {f"{name}_tool": self[box].data for name, box in self.TOOLS.items() if self[box].data}
        typed = {name: text for name, text in self.all_typed().items() if text and name != "note"}
        return {"way": self.way.data, "boxes": typed, "height_tool": self.height_tool.data, **tools}
