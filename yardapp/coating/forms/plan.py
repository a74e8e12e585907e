"""What may be typed about a job before it begins."""

from datetime import datetime, time
from typing import Any

from wtforms import (
    BooleanField,
    DateField,
    DateTimeLocalField,
    FieldList,
    Form,
    FormField,
    IntegerField,
    RadioField,
    SelectField,
    StringField,
    TextAreaField,
    TimeField,
)
from wtforms.validators import InputRequired, Length, NumberRange, Optional

from yardapp.coating.hours import Hours, hours_of
from yardapp.coating.pieces import NEVER, PIECE_KINDS
from yardapp.fields import AreaField, DurationField, LengthField, RatioField, TemperatureField
from yardapp.forms import YardForm, options

MOST_PIECES = 24
KINDS = [("", "nothing"), *((kind, kind) for kind in (*PIECE_KINDS, *NEVER))]


def number_or_none(value: str | None) -> int | None:
    """The chosen number; an empty choice is none."""
    return int(value) if value and str(value).isdigit() and len(str(value)) < 10 else None


class PieceForm(Form):
    """One piece; of no kind, there is none."""

    kind = SelectField("What", choices=options(KINDS), default="")
    name = StringField("Tag, or a name", [Length(max=80)])
    area_m2 = AreaField("Area, where you know it", default_unit="m²", at_most=100.0)
    area_ratio = RatioField("Blade area ratio", at_least=0.1, at_most=1.6)
    length_m = LengthField("Length", at_most=30.0)
    diameter_m = LengthField("Diameter", at_most=12.0)
    allowed_by = StringField("Who said its maker allows it", [Length(max=120)])
    allowed_on = DateField("When", [Optional()])


class PlanForm(YardForm):
    """A job: what, on which system, by how many, how fast, by when."""

    system_id = SelectField("System", [InputRequired("On which system?")], coerce=number_or_none, validate_choice=False)
    title = StringField("Called", [Length(max=120)], description="Kittiwake, propeller and shaft")
    drive_id = SelectField("Boat and shaft", coerce=number_or_none, validate_choice=False)
    pieces = FieldList(FormField(PieceForm), max_entries=MOST_PIECES)
    people = IntegerField(
        "People coating", [InputRequired("How many?"), NumberRange(min=1, max=6, message="1 to 6.")], default=1
    )
    way = RadioField("By", choices=options([("brush", "Brush"), ("roller", "Roller")]), default="brush")
    blade_s = DurationField(
        "One coat on one blade takes", [InputRequired("How long, by your own watch?")], default_unit="min"
    )
    other_blade_s = DurationField("The other way it would take", default_unit="min")
    metal_c = TemperatureField("Metal, as expected", [InputRequired("How warm will the metal be?")], default_unit="°C")
    air_c = TemperatureField("Air", default_unit="°C")
    relative_humidity = RatioField("Humidity", default_unit="%", at_least=0.0, at_most=1.0)
    loss_ratio = RatioField(
        "Stays in tin, brush and roller", default_unit="%", at_least=0.0, at_most=0.9, description="20 % where empty"
    )
    starts = DateTimeLocalField("Begins", [Optional()], format=["%Y-%m-%dT%H:%M", "%Y-%m-%dT%H:%M:%S"])
    launches = DateTimeLocalField("Launch", [Optional()], format=["%Y-%m-%dT%H:%M", "%Y-%m-%dT%H:%M:%S"])
    day_begins = TimeField("Works from", [Optional()], default=time(8), format=["%H:%M", "%H:%M:%S"])
    day_ends = TimeField("Works until", [Optional()], default=time(17), format=["%H:%M", "%H:%M:%S"])
    break_begins = TimeField("Break from", [Optional()], default=time(12), format=["%H:%M", "%H:%M:%S"])
    break_ends = TimeField("Break until", [Optional()], default=time(12, 30), format=["%H:%M", "%H:%M:%S"])
    tea_begins = TimeField("Second break from", [Optional()], format=["%H:%M", "%H:%M:%S"])
    tea_ends = TimeField("Second break until", [Optional()], format=["%H:%M", "%H:%M:%S"])
    weekends = BooleanField("Saturdays and Sundays too")
    note = TextAreaField("Note", [Length(max=2000)])

    def hours(self) -> Hours | None:
        """When the yard works; None where nobody said: then somebody coats at any hour.

        Raises
        ------
        Refused
            The day ends before it begins, or a break lies outside it.
        """
        breaks = [(self.break_begins.data, self.break_ends.data), (self.tea_begins.data, self.tea_ends.data)]
        return hours_of(self.day_begins.data, self.day_ends.data, breaks, weekends=bool(self.weekends.data))

    def asked_pieces(self) -> list[dict[str, Any]]:
        """Each piece that is there, as the service takes it, with the number of its row."""
        return [
            {
                **row.data,
                "name": row.data["name"] or "",
                "allowed_by": row.data["allowed_by"] or "",
                "area_m2_typed": row.form["area_m2"].typed,
                "row": number,
            }
            for number, row in enumerate(self.pieces.entries)
            if row.form["kind"].data
        ]

    def moment(self, name: str) -> datetime | None:
        """A time of the yard's own clock on the wall."""
        typed: datetime | None = self[name].data
        return None if typed is None else typed.astimezone()

    def tell(self, refusal: Any) -> None:
        """Say a refusal beside its box, also within a piece."""
        _, number, name = [*(refusal.argument or "").split("-"), "", ""][:3]
        if number.isdigit() and int(number) < len(self.pieces):
            box = self.pieces.entries[int(number)].form[name]
            said = refusal.said if refusal.said[:1].isupper() or refusal.said[:1] == "`" else None
            box.errors = [*box.errors, said or f"{box.label.text} {refusal.said}"]
            return
        super().tell(refusal)

    def problems(self) -> list[str]:
        """Everything that was typed and can't stand; what is only missing is not told while somebody types."""
        rows = [box for row in self.pieces.entries for box in row.form]
        told = [
            box
            for box in [*self, *rows]
            if box.name not in ("csrf_token", "pieces") and box.raw_data not in (None, [], [""])
        ]
        return [*self.overall, *(said for box in told for said in box.errors)]
