"""What may be typed about a launch and its lines."""

from datetime import datetime
from typing import Any

from wtforms import DateTimeLocalField, FileField, HiddenField, RadioField, SelectField, StringField
from wtforms.validators import InputRequired, Length, Optional

from yardapp.fields import LengthField, RatioField, RotationField, TorqueField
from yardapp.forms import YardForm, options

ANSWERS = [("yes", "In order"), ("no", "Not in order"), ("ask", "Cannot tell")]
HANDS = [("right", "Right hand"), ("left", "Left hand")]
MOMENTS = ["%Y-%m-%dT%H:%M", "%Y-%m-%dT%H:%M:%S"]


def number_or_none(value: Any) -> int | None:
    """The chosen number; an empty choice is none."""
    text = str(value or "")
    return int(text) if text.isascii() and text.isdigit() and len(text) < 10 else None


class HourForm(YardForm):
    """The hour at which she is to go in."""

    planned = DateTimeLocalField("Goes in", [Optional()], format=MOMENTS)
    why = StringField("Why another hour", [Length(max=300)])

    def moment(self) -> datetime | None:
        """The time of the yard's own clock on the wall."""
        typed: datetime | None = self.planned.data
        return None if typed is None else typed.astimezone()


class PlanForm(YardForm):
    """Which boat, when, and on which lines."""

    vessel_id = SelectField("Boat", coerce=number_or_none, validate_choice=False)
    planned = DateTimeLocalField("Goes in", [Optional()], format=MOMENTS)
    list_name = SelectField("Lines", validate_choice=False, description="What is asked, by kind of drive")

    def moment(self) -> datetime | None:
        """The time of the yard's own clock on the wall."""
        typed: datetime | None = self.planned.data
        return None if typed is None else typed.astimezone()


class ScanForm(YardForm):
    """The tag at the shaft, and the hand that was seen."""

    tag = StringField("Tag on the propeller", [InputRequired("Which tag is on it?"), Length(max=200)])
    hand = RadioField("Hand, as seen", [InputRequired("Which hand do you see?")], choices=options(HANDS))
    scan_note = StringField("Note", [Length(max=300)])


class AnswerForm(YardForm):
    """In order, not in order, or cannot tell; with what shows it."""

    answer = RadioField("How is it", choices=options(ANSWERS), validate_choice=False)
    photo = FileField("Photo")
    photo_kept = HiddenField()
    note = StringField("Note", [Length(max=300)])

    def figure_said(self) -> dict[str, Any]:
        """The figure, where this line asks for one."""
        return {}


class _FigureForm(AnswerForm):
    unit = ""
    figure: Any

    def figure_said(self) -> dict[str, Any]:
        typed = self.figure.typed.strip()
        is_bare = typed and not any(letter.isalpha() or letter in "%\"'" for letter in typed)
        return {"figure": self.figure.data, "figure_typed": f"{typed} {self.unit}" if is_bare else typed}


class _LengthAnswer(_FigureForm):
    unit = "mm"
    figure = LengthField("Read", default_unit="mm", at_least=0.0, at_most=10.0)


class _TorqueAnswer(_FigureForm):
    unit = "N m"
    figure = TorqueField("Read", default_unit="N m", at_least=0.0, at_most=100000.0)


class _ShareAnswer(_FigureForm):
    unit = "%"
    figure = RatioField("Read", default_unit="%", at_least=0.0, at_most=1.0)


class _OhmAnswer(_FigureForm):
    unit = "ohm"
    figure = RatioField("Read", at_least=0.0, at_most=1e6)


class _RpmAnswer(_FigureForm):
    unit = "rpm"
    figure = RotationField("Read", default_unit="rpm", at_least=0.0, at_most=1000.0)


FIGURES: dict[str, type[AnswerForm]] = {
    one.unit: one for one in (_LengthAnswer, _TorqueAnswer, _ShareAnswer, _OhmAnswer, _RpmAnswer)
}


def answer_form(unit: str) -> type[AnswerForm]:
    """The form for a line that is read in `unit`; for any other, the plain one."""
    return FIGURES.get(unit, AnswerForm)


class GiveForm(YardForm):
    """Who does it."""

    name = StringField("Give it to", [InputRequired("Who does it?"), Length(max=80)])


class WhyForm(YardForm):
    """A reason."""

    why = StringField("Why", [InputRequired("Say why."), Length(max=300)])


class ReleaseForm(YardForm):
    """A word with a release, if one is wanted."""

    note = StringField("Note", [Length(max=300)])


class OverrideForm(YardForm):
    """Why she may go all the same."""

    reason = StringField(
        "Why she may go all the same",
        [InputRequired("Say why. It is printed on her sheet."), Length(max=300)],
        description="Printed on her sheet with your name",
    )


class BareForm(YardForm):
    """A button alone."""
