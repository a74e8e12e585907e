"""What may be typed about a fault."""

from typing import Any

from wtforms import DateField, FileField, HiddenField, RadioField, SelectField, StringField
from wtforms.validators import InputRequired, Length, Optional

from yardapp.forms import YardForm, options
from yardapp.relaunch.forms.launches import number_or_none

SEVERITIES = [("stop", "Stop: she may not go in"), ("watch", "Watch it"), ("note", "Note only")]
FOUND = [("haul-out", "At haul-out"), ("sheet", "On a sheet"), ("looking", "By looking"), ("trial", "Under way")]


class FaultForm(YardForm):
    """One fault of one thing, drive or boat."""

    tag = StringField(
        "Tag of the thing", [Length(max=200)], description="Leave empty where it is the drive or the boat"
    )
    drive_id = SelectField("Or a drive", coerce=number_or_none, validate_choice=False)
    vessel_id = SelectField("Or a boat", coerce=number_or_none, validate_choice=False)
    what = StringField("What is wrong", [InputRequired("What is wrong? A few words."), Length(max=120)])
    place = StringField("Where on it", [Length(max=120)])
    severity = RadioField("How bad", [InputRequired("How bad is it?")], choices=options(SEVERITIES))
    evidence = StringField("What shows it", [Length(max=300)], description="A reading, a sound, who saw it")
    how_found = RadioField("Found", choices=options(FOUND), default="looking")
    decides = StringField("Who decides", [Length(max=80)])
    photo = FileField("Photo")
    photo_kept = HiddenField()

    def said(self) -> dict[str, Any]:
        """What was filled in, as the service takes it."""
        words = {name: self[name].data or "" for name in ("what", "place", "severity", "evidence", "decides")}
        tag = (self.tag.data or "").strip().upper().rpartition("/")[2]
        found = self.how_found.data or "looking"
        return {**words, "found": found, "tag": tag, "drive_id": self.drive_id.data, "vessel_id": self.vessel_id.data}


class CloseForm(YardForm):
    """How a fault was put right."""

    how = StringField(
        "By what work?", [InputRequired("Say how it was put right, or why it no longer counts."), Length(max=300)]
    )


class AcceptForm(YardForm):
    """Who lets a fault stand, why, and until when."""

    name = StringField("Who accepts it", [InputRequired("Who accepts it? A name."), Length(max=80)])
    why = StringField("Why it may stay", [InputRequired("Why may it stay as it is?"), Length(max=300)])
    until = DateField("Look again on", [Optional()])


class DecidesForm(YardForm):
    """Who decides."""

    decider = StringField("Who decides", [InputRequired("Who decides?"), Length(max=80)])
