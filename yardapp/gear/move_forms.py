"""What may be typed about where a thing goes, what belongs together, and where the bins are."""

from wtforms import BooleanField, DateField, IntegerField, RadioField, SelectField, StringField
from wtforms.validators import InputRequired, Length, NumberRange, Optional

from yardapp.fields import CountField, LengthField, MassField
from yardapp.forms import YardForm, options
from yardapp.gear.forms import HANDS, number_or_none

# The moves as a page offers them, in the order of a day in the yard.
MOVE_WORDS = {
    "moved": "Put somewhere else",
    "went on": "Went on a boat",
    "came off": "Came off a boat",
    "to shop": "Went to a shop",
    "back from shop": "Came back from the shop",
    "lent": "Lent to somebody",
    "back from loan": "Came back from the loan",
    "sold": "Sold",
    "scrapped": "Scrapped",
    "lost": "Lost",
    "stolen": "Stolen",
    "found": "Found again",
    "came back": "Came back to the yard",
}
WHY = "Say why, in a few words: it is read years later."


class MoveForm(YardForm):
    """From one place to another; a thing is in one place at a time."""

    kind = RadioField("What happened", [InputRequired("What happened to it?")], choices=options(MOVE_WORDS.items()))
    place = StringField("Where, which shop, to whom", [Length(max=100)])
    drive_id = SelectField("Boat and shaft", coerce=number_or_none, validate_choice=False)
    due_on = DateField("Expected back", [Optional()])
    done_on = DateField("When", [Optional()])
    is_alone = BooleanField("This one alone: it leaves its set")
    note = StringField("Note", [Length(max=300)])


class UndoForm(YardForm):
    """A wrong move, undone."""

    why = StringField("Why was it wrong?", [InputRequired(WHY), Length(max=300)])


class ChaseForm(YardForm):
    """Somebody was asked where it is."""

    said = StringField("Who was asked, and what did they say?", [InputRequired("What did they say?"), Length(max=300)])
    due_on = DateField("Promised for now", [Optional()])


class SetForm(YardForm):
    """What belongs together."""

    tags = StringField(
        "Tags that belong to it", [InputRequired("Which others? Type or scan their tags."), Length(max=300)]
    )
    name = StringField("Name of the set", [Length(max=80)])


class LeaveForm(YardForm):
    """One thing leaves its set."""

    tag = SelectField("Which", validate_choice=True)
    why = StringField("Why", [Length(max=300)])


class RackForm(YardForm):
    """A rack on the map."""

    rack = StringField("Rack", [InputRequired("What is it called? A letter will do."), Length(max=40)])
    shelves = IntegerField("Shelves", [Optional(), NumberRange(min=0, max=40, message="None to forty.")])
    bins = IntegerField(
        "Bins on each", [InputRequired("How many bins?"), NumberRange(min=1, max=200, message="One to two hundred.")]
    )


class MergeForm(YardForm):
    """Two tags on one thing."""

    other_tag = StringField("The other tag", [InputRequired("Which other tag hangs on it?"), Length(max=20)])
    where = RadioField(
        "Where is it?",
        choices=options([("kept", "Where this tag says"), ("other", "Where the other tag says")]),
        default="kept",
    )
    why = StringField("How do you know?", [InputRequired(WHY), Length(max=300)])


class PartForm(YardForm):
    """Two tags were merged by mistake."""

    why = StringField("Why were they not one?", [InputRequired(WHY), Length(max=300)])


class SeenForm(YardForm):
    """What somebody sees at the thing that bears this tag."""

    hand = RadioField("Hand", choices=options(HANDS), default="")
    blades = CountField("Blades", [Optional(), NumberRange(min=2, max=7, message="Two to seven blades.")])
    diameter_m = LengthField("Diameter", what="diameter", at_least=0.008, at_most=12.0)
    mass_kg = MassField("Weight", at_least=0.01, at_most=1e5)
    stamp = StringField("Stamp", [Length(max=80)])


class SwapForm(SeenForm):
    """Both were looked at; two people swap the tags."""

    other_tag = StringField("The other tag", [InputRequired("Which one is the other?"), Length(max=20)])
    other_hand = RadioField("Hand", choices=options(HANDS), default="")
    other_blades = CountField("Blades", [Optional(), NumberRange(min=2, max=7, message="Two to seven blades.")])
    other_diameter_m = LengthField("Diameter", what="diameter", at_least=0.008, at_most=12.0)
    other_mass_kg = MassField("Weight", at_least=0.01, at_most=1e5)
    other_stamp = StringField("Stamp", [Length(max=80)])
    second_id = SelectField("Who looked with you", coerce=number_or_none, validate_choice=False)
    since_on = DateField("Crossed perhaps since", [Optional()])
    why = StringField("How it was noticed", [Length(max=300)])
