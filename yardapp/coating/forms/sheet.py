"""A coating system as its sheet is typed: products and steps as rows, tables of temperature within them.

The names of the boxes are those of the sheet (`coating/system.py`), so that a refusal finds its box by its path.
"""

import re
from collections.abc import Mapping
from typing import Any

from wtforms import (
    BooleanField,
    FieldList,
    Form,
    FormField,
    HiddenField,
    IntegerField,
    SelectField,
    StringField,
    TextAreaField,
)
from wtforms.validators import InputRequired, Length, NumberRange, Optional

from yardapp.coating.checking import Problem
from yardapp.coating.forms.plain_values import of_sheet, to_sheet
from yardapp.coating.system import RATIO_BY, STEP_KINDS, System
from yardapp.errors import Superseded
from yardapp.fields import DensityField, DurationField, RatioField, TemperatureField, VolumeField
from yardapp.forms import RecordForm, options

LINES = "One a line."
MOST_ROWS, MOST_STEPS, MOST_PRODUCTS = 20, 40, 12


def temperature(label: str) -> TemperatureField:
    """A box for degrees Celsius."""
    return TemperatureField(label, default_unit="°C")


def duration(label: str, unit: str = "min") -> DurationField:
    """A box for a time; minutes when no unit is typed."""
    return DurationField(label, default_unit=unit, at_least=0.0)


class Row(Form):
    """One row of a table; a figure without its temperature says nothing."""

    temperature_c = temperature("At")

    def validate(self, extra_validators: Any = None) -> bool:
        """A row that says something names its temperature."""
        is_fine = bool(super().validate(extra_validators))
        told = [box for name, box in self._fields.items() if name != "temperature_c" and box.data is not None]
        if told and self["temperature_c"].data is None and not self["temperature_c"].errors:
            self["temperature_c"].errors = ["At which temperature?"]
            return False
        return is_fine


class WindowRow(Row):
    """One row of a window."""

    earliest_s = duration("Not before")
    latest_s = duration("Not after")


class TimeRow(Row):
    """One row of a table of times."""

    time_s = duration("Time", "h")


class SourceForm(Form):
    """Where it is known from."""

    said_by = StringField("Who said so", [Length(max=80)])
    said_on = StringField("When", [Length(max=10)], description="2026-03-31")
    document = StringField("Document", [Length(max=120)])
    words = StringField("In its words", [Length(max=300)])


class PartForm(Form):
    """One tin of a product."""

    name = StringField("Part", [Length(max=80)])
    share = RatioField("Share in the mix")
    kit_m3 = VolumeField("In one kit", default_unit="l")
    density_kgpm3 = DensityField("Density", default_unit="kg/m³")


class ProductForm(Form):
    """One product; a blank name takes it out."""

    name = StringField("Product", [Length(max=80)])
    ratio_by = SelectField("Mixed by", choices=options((by, by) for by in RATIO_BY), default="volume")
    parts = FieldList(FormField(PartForm), max_entries=MOST_ROWS)
    stirring_s = duration("Stir for")
    induction_s = duration("Then let stand")
    pot_life = FieldList(FormField(TimeRow), max_entries=MOST_ROWS)
    solids_ratio = RatioField("Solids by volume", default_unit="%")
    hazards = TextAreaField("Hazards, as on its sheet", description=LINES)
    source = FormField(SourceForm)


class FilmForm(Form):
    """How thick, or how far it goes."""

    wet_m = RatioField("Film, wet, µm")
    dry_m = RatioField("Film, dry, µm")
    coverage_m2pm3 = RatioField("Covers, m² a litre")
    use_m3pm2 = RatioField("Uses, ml a m²")


class LimitsForm(Form):
    """The weather that it wants."""

    metal_low_c = temperature("Metal from")
    metal_high_c = temperature("Metal to")
    air_low_c = temperature("Air from")
    air_high_c = temperature("Air to")
    relative_humidity_least = RatioField("Humidity from", default_unit="%")
    relative_humidity_most = RatioField("Humidity to", default_unit="%")
    margin_c = RatioField("Metal above dew point, degrees")


class RemediesForm(Form):
    """What the sheet says to do; empty means: ask the supplier."""

    too_early = StringField("Coated too early", [Length(max=300)])
    too_late = StringField("Coated too late", [Length(max=300)])
    wrong_weather = StringField("Wrong weather", [Length(max=300)])
    past_pot_life = StringField("Past its pot life", [Length(max=300)])


class StepForm(Form):
    """One step; without a kind it is taken out."""

    place = IntegerField("Place", [Optional(), NumberRange(min=1, max=99)])
    kind = SelectField("Step", choices=options([("", "taken out"), *((kind, kind) for kind in STEP_KINDS)]))
    title = StringField("Called", [Length(max=80)])
    product = StringField("Product", [Length(max=80)])
    by_touch = BooleanField("Opens by touch")
    window = FieldList(FormField(WindowRow), max_entries=MOST_ROWS)
    film = FormField(FilmForm)
    limits = FormField(LimitsForm)
    cure = FieldList(FormField(TimeRow), max_entries=MOST_ROWS)
    work_ratio = RatioField("Time it takes, against one coat")
    again_s = duration("Test again after")
    not_on = TextAreaField("Not on", description=LINES)
    hazards = TextAreaField("Hazards", description=LINES)
    remedies = FormField(RemediesForm)
    source = FormField(SourceForm)


class SystemForm(RecordForm):
    """A whole system. `version` is that of the sheet it was filled from."""

    name = StringField("Name", [InputRequired("What is it called?"), Length(max=80)])
    foul_release = BooleanField("Foul release: later paint will not hold on it")
    life_s = duration("Life that the sheet gives", "d")
    not_on = TextAreaField("Not on", description=LINES)
    notes = TextAreaField("Notes", [Length(max=2000)])
    products = FieldList(FormField(ProductForm), max_entries=MOST_PRODUCTS)
    steps = FieldList(FormField(StepForm), max_entries=MOST_STEPS)
    remedies = FormField(RemediesForm)
    source = FormField(SourceForm)
    sheet = HiddenField()
    why = StringField("What was changed, and why", [Length(max=300)])

    newer: Superseded | None = None

    @classmethod
    def values_of(cls, system: System) -> Mapping[str, Any]:
        """What stands in the boxes of a system."""
        return of_sheet(system)

    def system(self, version: int = 1) -> System:
        """The system as it is typed; blank rows are left out, steps stand in the order of their places."""
        system, self._kept = to_sheet(self.data, version)
        return system

    def tell_problems(self, problems: tuple[Problem, ...]) -> None:
        """Say each problem beside its box."""
        for problem in problems:
            box = self._box_at(problem.path)
            if box is None:
                self.form_errors.append(problem.said)
            else:
                box.errors = [*box.errors, problem.said]

    def superseded(self, theirs: Mapping[str, str], version: int, by: str) -> None:
        """Somebody made a version first: what is typed here stays, and the next save is made on theirs."""
        self.newer = Superseded(version, theirs, by)
        self.version.data, self.version.raw_data = version, None
        self.once.raw_data = None

    def _box_at(self, path: str) -> Any:
        """The box that a path of the sheet means: `steps[3].window.rows[0].latest_s`."""
        here: Any = self
        for name, number in re.findall(r"(\w+)(?:\[(\d+)\])?", path.replace(".rows[", "[")):
            here = _within(here, name)
            if here is not None and number and isinstance(here, FieldList):
                index = self._kept.get(here.name, {}).get(int(number))
                here = here.entries[index] if index is not None else None
            if here is None:
                return None
        return _own_box(here)


def _within(here: Any, name: str) -> Any:
    boxes = here.form if isinstance(here, FormField) else here
    return boxes[name] if name in getattr(boxes, "_fields", {}) else None


def _own_box(here: Any) -> Any:
    """Of a row, its first box that shows."""
    if isinstance(here, FieldList):
        here = here.entries[0] if here.entries else None
    if isinstance(here, FormField):
        return next(
            (box for box in here.form if box.name.rpartition("-")[2] in ("name", "title", "temperature_c")), None
        )
    return here
