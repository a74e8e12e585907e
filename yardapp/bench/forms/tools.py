"""What may be typed about a tool of the bench."""

from wtforms import RadioField, StringField
from wtforms.validators import InputRequired, Length

from yardapp.fields import AngleField, LengthField
from yardapp.forms import RecordForm, options

REACH = "How far off may a reading with it be? Nineteen readings in twenty lie within it."
COMMON = [
    ("", "At each reading another: read by eye or touch"),
    ("yes", "At every reading the same: a template, a fixed gauge"),
]


class _ToolForm(RecordForm):
    is_common = RadioField("Its error is", choices=options(COMMON), default="")
    source = StringField(
        "Where is that known from?",
        [Length(max=120)],
        description="Its certificate, a gauge block on such a day, common practice",
    )


class _ChangeToolForm(_ToolForm):
    is_used = RadioField("In use", choices=options([("yes", "In use"), ("", "Out of use")]), default="yes")


class _NamedToolForm(_ToolForm):
    name = StringField("Name", [InputRequired("What is it called?"), Length(max=60)])


def _length() -> LengthField:
    return LengthField("±", [InputRequired(REACH)], description=REACH, default_unit="mm", at_most=0.1, what="±")


def _angle() -> AngleField:
    return AngleField("±", [InputRequired(REACH)], description=REACH, default_unit="deg", at_most=0.5, what="±")


class ChangeLengthToolForm(_ChangeToolForm):
    """A tool that reads lengths."""

    plus_minus = _length()


class ChangeAngleToolForm(_ChangeToolForm):
    """A tool that reads angles."""

    plus_minus = _angle()


class NewLengthToolForm(_NamedToolForm):
    """One more tool that reads lengths."""

    plus_minus = _length()


class NewAngleToolForm(_NamedToolForm):
    """One more tool that reads angles."""

    plus_minus = _angle()


CHANGES = {"length": ChangeLengthToolForm, "angle": ChangeAngleToolForm}
NEW = {"length": NewLengthToolForm, "angle": NewAngleToolForm}
