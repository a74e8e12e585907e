"""What may be typed about marks."""

from wtforms import FileField, HiddenField, SelectField, StringField
from wtforms.validators import InputRequired, Length

from yardapp.forms import YardForm, options

SPOTS = [
    ("", "not noted"),
    ("aft face of the hub", "Aft face of the hub"),
    ("forward face of the hub", "Forward face of the hub"),
    ("side of the hub", "Side of the hub"),
    ("root of a blade", "Root of a blade"),
]


STRUCK = [
    ("", "not known"),
    ("first", "The first on it: the maker's"),
    ("later", "Struck later, over or beside an older one"),
]
NEWER = [("", "not known"), ("first", "the first"), ("second", "the second")]
LOOK = {"autocomplete": "off", "autocapitalize": "characters", "spellcheck": "false"}
HINT = "As seen: ? for a character you can't read, * for several, [B8] for B or 8."


class MarkForm(YardForm):
    """One mark as it is seen."""

    stamp = StringField(
        "Mark, as it stands there",
        [InputRequired("What stands there? ? for a character you can't read."), Length(max=80)],
        description=HINT,
        render_kw=LOOK,
    )
    beside = StringField("A second mark on the same hub", [Length(max=80)], render_kw=LOOK)
    newer = SelectField("Which of the two is newer", choices=options(NEWER), default="")
    spot = SelectField("Where on it", choices=options(SPOTS), default="")
    struck = SelectField("When it was struck", choices=options(STRUCK), default="")
    photo = FileField("Photo of the mark")
    photo_kept = HiddenField()


class TakeForm(YardForm):
    """One tap: which reading of which mark."""

    stamp = StringField("Mark", [InputRequired(), Length(max=80)])
    which = StringField("Reading", [InputRequired(), Length(max=16)])
    spot = StringField("Where on it", [Length(max=40)])
