"""What may be typed about a propeller's condition."""

from typing import Any

from wtforms import FileField, HiddenField, RadioField, SelectField, StringField
from wtforms.validators import InputRequired, Length

from yardapp.bench.faults import HEARD, KINDS, RADII, SEVERITIES, SIDES, near
from yardapp.fields import LengthField
from yardapp.forms import YardForm, options

RADIUS_CHOICES = [("", "Choose"), *((f"{radius:g}", near(radius)) for radius in RADII)]


def whole_or_none(value: Any) -> int | None:
    """The chosen blade; an empty choice is none."""
    return int(value) if str(value or "").isdigit() else None


def share_or_none(value: Any) -> float | None:
    """The chosen place along the blade."""
    try:
        return float(value)
    except (TypeError, ValueError):
        return None


class FaultForm(YardForm):
    """One fault, where it was seen."""

    kind = RadioField("What is it", [InputRequired("What is wrong?")], choices=options(KINDS.items()))
    side = RadioField("Where", [InputRequired("On which side?")], choices=options(SIDES.items()), default="face")
    blade = SelectField("Blade", coerce=whole_or_none, validate_choice=False)
    radius_ratio = SelectField(
        "How far out", coerce=share_or_none, choices=options(RADIUS_CHOICES), validate_choice=False
    )
    size_m = LengthField("Size", description="How long, wide or deep; the note says which", at_most=3.0, what="size")
    severity = RadioField("How bad", [InputRequired("How bad is it?")], choices=options(SEVERITIES.items()))
    note = StringField("Note", [Length(max=300)])
    photo = FileField("Photo")
    photo_kept = HiddenField()
    reopens = HiddenField()

    def offer_blades(self, blades: int | None) -> None:
        """The blades that it has, or might have."""
        numbers = [(str(number), str(number)) for number in range(1, (blades or 7) + 1)]
        self.blade.choices = options([("", "Choose"), *numbers])

    def said(self) -> dict[str, Any]:
        """What was filled in, as the service takes it."""
        names = ("kind", "side", "blade", "radius_ratio", "size_m", "severity")
        typed = {"size_m_typed": self.size_m.typed, "note": self.note.data or ""}
        return {name: self[name].data for name in names} | typed | {"reopens_id": whole_or_none(self.reopens.data)}


class CloseForm(YardForm):
    """How a fault was put right."""

    how = StringField(
        "How was it put right?",
        [InputRequired("Say how it was put right, or why it no longer counts."), Length(max=300)],
    )


class RingForm(YardForm):
    """How it rang when it was tapped."""

    heard = RadioField(
        "Tapped with wood, hung free", [InputRequired("How did it sound?")], choices=options(HEARD.items())
    )
    ring_blade = SelectField("Which blade was dull", coerce=whole_or_none, validate_choice=False)
    ring_note = StringField("Note", [Length(max=300)])

    def offer_blades(self, blades: int | None) -> None:
        """The blades that it has, or might have."""
        numbers = [(str(number), str(number)) for number in range(1, (blades or 7) + 1)]
        self.ring_blade.choices = options([("", "All, or none"), *numbers])
