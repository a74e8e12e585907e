"""What may be typed about gear."""

from wtforms import DateField, FileField, HiddenField, IntegerField, RadioField, SelectField, StringField, TextAreaField
from wtforms.validators import InputRequired, Length, NumberRange, Optional

from yardapp.fields import CountField, LengthField, MassField, RatioField, TaperField
from yardapp.forms import RecordForm, YardForm, options
from yardapp.gear.figures import BLADE_KINDS, BORE_KINDS, MATERIALS, WORK

WHERE = "Where was it put? A rack, a bin, a corner of the shed."
BASES = [
    ("measured", "Measured"),
    ("stamped", "Stamped on it"),
    ("paper", "Written on paper: a bill, a drawing, a tag"),
    ("guessed", "Guessed"),
]
HANDS = [("right", "Right hand"), ("left", "Left hand"), ("", "Not looked at yet")]


def number_or_none(value: str | None) -> int | None:
    """The chosen number; an empty choice is nobody and nothing."""
    return int(value) if value and str(value).isdigit() else None


class LogForm(YardForm):
    """A propeller in the hand: six boxes, one of them needed."""

    photo = FileField("Photo")
    photo_kept = HiddenField()
    hand = RadioField("Hand, by look", choices=options(HANDS), default="")
    stamp = StringField(
        "Stamp, as it stands on the hub", [Length(max=80)], description="22 x 18 RH; ? for a character you can't read"
    )
    diameter_m = LengthField("Diameter", what="propeller diameter", at_least=0.1, at_most=12.0)
    blades = CountField("Blades", [Optional(), NumberRange(min=2, max=7, message="Two to seven blades.")])
    place = StringField("Where put", [InputRequired(WHERE), Length(max=120)])
    came_off_id = SelectField("Came off", coerce=number_or_none, validate_choice=False)
    note = TextAreaField("Note", [Length(max=2000)])


class LogShaftForm(YardForm):
    """A shaft in the hand."""

    photo = FileField("Photo")
    photo_kept = HiddenField()
    diameter_m = LengthField("Diameter", what="shaft diameter", at_least=0.008, at_most=0.6)
    length_m = LengthField("Length", what="shaft length", at_least=0.05, at_most=20.0)
    taper = TaperField("Taper")
    place = StringField("Where put", [InputRequired(WHERE), Length(max=120)])
    came_off_id = SelectField("Came off", coerce=number_or_none, validate_choice=False)
    note = TextAreaField("Note", [Length(max=2000)])


class ChangeForm(RecordForm):
    """The record itself; figures change by evidence alone."""

    place = StringField("Where it is", [Length(max=120)])
    note = TextAreaField("Note", [Length(max=2000)])


class MoveForm(YardForm):
    """From one place to another; it is in one place at a time."""

    kind = RadioField(
        "What happened",
        [InputRequired("What happened to it?")],
        choices=options(
            [
                ("moved", "Put somewhere else"),
                ("went on", "Went on a boat"),
                ("came off", "Came off a boat"),
                ("sold", "Sold"),
                ("scrapped", "Scrapped"),
                ("lost", "Lost"),
                ("found", "Found again"),
            ]
        ),
    )
    place = StringField("Where put", [Length(max=120)])
    drive_id = SelectField("Boat and shaft", coerce=number_or_none, validate_choice=False)
    note = StringField("Note", [Length(max=300)])


class WorkForm(YardForm):
    """Work that changed it: what was read before no longer speaks."""

    kind = RadioField(
        "What was done",
        [InputRequired("What was done to it?")],
        choices=options((work, work.capitalize()) for work in WORK),
    )
    done_on = DateField("When", [Optional()])
    diameter_m = LengthField("Diameter now", what="propeller diameter", at_least=0.1, at_most=12.0)
    pitch_m = LengthField("Pitch now", what="pitch", at_least=0.05, at_most=12.0)
    note = StringField("By whom, why", [Length(max=300)])


class EvidenceForm(YardForm):
    """One more statement about one figure."""

    basis = RadioField(
        "How is it known?", [InputRequired("How is it known?")], choices=options(BASES), default="measured"
    )
    length = LengthField("Figure", at_most=20.0)
    taper = TaperField("Figure")
    count = IntegerField("Figure", [Optional(), NumberRange(min=2, max=7, message="Two to seven blades.")])
    number = RatioField("Figure", at_least=0.1, at_most=1.5)
    mass = MassField("Figure", at_least=0.1, at_most=1e5)
    word = SelectField("Which", validate_choice=False)
    plus_minus = LengthField("±, as far as you trust it", at_most=1.0)
    note = StringField(
        "Where does it come from?", [Length(max=300)], description="Which paper, which tool, who said so"
    )


class CorrectForm(EvidenceForm):
    """Another statement in the place of one that was wrong."""

    is_withdrawn = RadioField(
        "What now",
        choices=options([("", "Put this in its place"), ("yes", "Withdraw it; nothing takes its place")]),
        default="",
    )
    why = StringField("Why", [InputRequired("Say why, in a few words: it is read years later."), Length(max=300)])


class PhotoForm(YardForm):
    """One more photo."""

    photo = FileField("Photo")
    caption = StringField("What it shows", [Length(max=120)])


class PlainForm(YardForm):
    """A button and nothing else."""


WORD_CHOICES = {
    "hand": HANDS[:2],
    "bore_kind": [(kind, kind.capitalize()) for kind in BORE_KINDS],
    "material": [(metal, metal.capitalize()) for metal in MATERIALS],
    "blade_kind": [(kind, kind.capitalize()) for kind in BLADE_KINDS],
}
