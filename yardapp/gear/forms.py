"""What may be typed about gear."""

from typing import Any

from wtforms import (
    DateField,
    FileField,
    HiddenField,
    IntegerField,
    MultipleFileField,
    RadioField,
    SelectField,
    StringField,
    TextAreaField,
)
from wtforms.validators import InputRequired, Length, NumberRange, Optional

from yardapp.fields import CountField, LengthField, MassField, RatioField, TaperField
from yardapp.forms import RecordForm, YardForm, options
from yardapp.gear.figures import WORDS, WORK

BLANK = "If a tag printed beforehand is tied on already"
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


def yes_or_no(value: Any) -> str:
    """How a choice between the two is written, from a box or from the record."""
    return "yes" if value in (True, "yes") else "no"


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
    tag = StringField("Blank tag on it", [Length(max=20)], description=BLANK)
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
    tag = StringField("Blank tag on it", [Length(max=20)], description=BLANK)
    note = TextAreaField("Note", [Length(max=2000)])


class ChangeForm(RecordForm):
    """The record itself; figures change by evidence alone."""

    place = StringField("Where it is", [Length(max=120)])
    is_for_sale = RadioField(
        "For sale",
        choices=options([("yes", "For sale"), ("no", "Not for sale")]),
        coerce=yes_or_no,
        validate_choice=False,
    )
    note = TextAreaField("Note", [Length(max=2000)])

    def readings(self) -> dict[str, Any]:
        """Whether it is for sale as a yes, a no, or nothing said."""
        said = dict(super().readings())
        return said | {"is_for_sale": None if said["is_for_sale"] is None else said["is_for_sale"] == "yes"}


class WorkForm(YardForm):
    """A piece of work: its figures as found and as left are two facts."""

    kind = RadioField(
        "What was done",
        [InputRequired("What was done to it?")],
        choices=options((work, work.capitalize()) for work in WORK),
    )
    done_on = DateField("When", [Optional()])
    by_whom = StringField("By whom", [Length(max=120)], description="The shop, or who did it here")
    cost = StringField("Cost", [Length(max=40)], description="If wanted, as it stands on the bill")
    found_diameter_m = LengthField("Diameter as found", what="propeller diameter", at_least=0.008, at_most=12.0)
    diameter_m = LengthField("Diameter as left", what="propeller diameter", at_least=0.008, at_most=12.0)
    found_pitch_m = LengthField("Pitch as found", what="pitch", at_least=0.05, at_most=12.0)
    pitch_m = LengthField("Pitch as left", what="pitch", at_least=0.05, at_most=12.0)
    found_bore_large_m = LengthField("Bore, large end, as found", what="bore", at_least=0.005, at_most=0.6)
    bore_large_m = LengthField("Bore, large end, as left", what="bore", at_least=0.005, at_most=0.6)
    found_mass_kg = MassField("Weight as found", at_least=0.1, at_most=1e5)
    mass_kg = MassField("Weight as left", at_least=0.1, at_most=1e5)
    basis = RadioField(
        "Whose figures are these?",
        choices=options([("paper", "The shop’s, on paper"), ("measured", "Measured here")]),
        default="paper",
    )
    stamp = StringField("New stamp", [Length(max=80)], description="When it was stamped again")
    papers = MultipleFileField("Photos, or the shop’s papers as PDF")
    note = StringField("Why, and what else", [Length(max=300)])


class DeclineForm(YardForm):
    """What was offered, and who declined it."""

    offered = StringField("What was offered", [InputRequired("What was offered?"), Length(max=300)])
    declined_by = StringField(
        "Declined by", [InputRequired("Who declined it? A name is read years later."), Length(max=120)]
    )
    declined_on = DateField("When", [Optional()])
    why = StringField("Their reason", [Length(max=300)])


class EvidenceForm(YardForm):
    """One more statement about one figure."""

    basis = RadioField(
        "How is it known?", [InputRequired("How is it known?")], choices=options(BASES), default="measured"
    )
    length = LengthField("Figure", at_most=20.0)
    taper = TaperField("Figure")
    count = IntegerField("Figure", [Optional(), NumberRange(min=2, max=7, message="Two to seven blades.")])
    number = RatioField("Figure", at_least=0.0, at_most=1.5)
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
    """More photos: taken on the spot, or several at once."""

    camera = FileField("Take one now", render_kw={"capture": "environment"})
    photo = MultipleFileField("Photos, several at once")
    caption = StringField("What they show", [Length(max=120)])

    def sent(self) -> list[Any]:
        """The files that came along."""
        files = [self.camera.data, *(self.photo.data or [])]
        return [one for one in files if getattr(one, "filename", "")]


class PlainForm(YardForm):
    """A button and nothing else."""


WORD_CHOICES = {name: [(word, word.capitalize()) for word in words] for name, words in WORDS.items()} | {
    "hand": HANDS[:2]
}
