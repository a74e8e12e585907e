"""The boxes of a maker's table: its own, and one set a place. What they say together the engine judges."""

from collections.abc import Mapping, Sequence

from wtforms import (
    BooleanField,
    FieldList,
    FileField,
    Form,
    FormField,
    IntegerField,
    SelectField,
    StringField,
    TextAreaField,
)
from wtforms.validators import InputRequired, Length
from wtforms.widgets import HiddenInput

from yardapp.forms import RecordForm, YardForm, options
from yardapp.marks.shaping import MEANINGS
from yardapp.stamps.tables import THINGS, WRITTEN

WRITTEN_SAID = {
    "digits": "figures",
    "letters": "letters",
    "list": "one of a list",
    "literal": "always the same text",
    "size": "a size: 22, 22.5, 22-1/2",
    "any": "anything",
}
MEANS_SAID = {
    "number": "the number itself",
    "list": "a list of codes",
    "run": "letters that count up",
    "special": "only special words",
    "text": "free text",
    "nothing": "nothing",
}
UNITS = ("", "mm", "cm", "m", "in", "count", "ratio", "percent", "year")


def _plain(label: str, **more: object) -> StringField:
    return StringField(label, [Length(max=400)], render_kw={"autocomplete": "off", **more})


class _Known(Form):
    """The boxes that a table and each of its places share."""

    said_by = _plain("Who said it")
    said_on = _plain("When (year-month-day)")
    document = _plain("Document")
    certainty = _plain("How sure, %", inputmode="decimal")
    year_from = _plain("From year", inputmode="numeric")
    year_to = _plain("To year", inputmode="numeric")
    serial_from = _plain("From serial", inputmode="numeric")
    serial_to = _plain("To serial", inputmode="numeric")


class PlaceBoxes(_Known):
    """One place of a mark."""

    tells = SelectField("It tells", choices=options((one, one.replace("_", " ")) for one in THINGS), default="nothing")
    written = SelectField("Written as", choices=options((one, WRITTEN_SAID[one]) for one in WRITTEN))
    title = _plain("Called")
    literal = _plain("The text")
    shortest = _plain("Shortest", inputmode="numeric")
    longest = _plain("Longest", inputmode="numeric")
    separators = _plain("Before it may stand")
    optional = BooleanField("It may be missing")
    means = SelectField("It means", choices=options((one, MEANS_SAID[one]) for one in MEANINGS), default="nothing")
    unit = SelectField("Unit", choices=options((one, one or "none") for one in UNITS))
    rounded_to = _plain("Rounded to", inputmode="decimal")
    scale = _plain("Times", inputmode="decimal")
    offset = _plain("Plus", inputmode="decimal")
    entries = TextAreaField("The list", render_kw={"rows": 6, "spellcheck": "false"})
    first = _plain("First letter")
    value = _plain("Its value", inputmode="decimal")
    step = _plain("Step", inputmode="decimal")
    last = _plain("Last letter")
    without = _plain("Letters left out")
    specials = TextAreaField("Special codes", render_kw={"rows": 2, "spellcheck": "false"})


class TableForm(_Known, RecordForm):
    """A whole table."""

    maker = StringField("Maker", [InputRequired("Whose marks are they?"), Length(max=120)])
    title = StringField("Which marks of theirs", [Length(max=120)])
    struck = SelectField(
        "Struck", choices=options([("new", "by the maker, when it was made"), ("later", "later, by a shop")])
    )
    notes = TextAreaField("Notes", [Length(max=4000)], render_kw={"rows": 2})
    why = StringField("Why this version", [Length(max=300)])
    samples = TextAreaField(
        "Sample stamps, one a line", [Length(max=4000)], render_kw={"rows": 4, "spellcheck": "false"}
    )
    places = FieldList(FormField(PlaceBoxes), "Places", max_entries=40)
    place_faults: Mapping[int | None, Sequence[str]] = {}


class VersionForm(RecordForm):
    """A tap on one version of a table."""

    number = IntegerField(widget=HiddenInput())


class ImportForm(YardForm):
    """A table from another yard."""

    file = FileField("The file")
    text = TextAreaField("Or paste it here", render_kw={"rows": 6, "spellcheck": "false"})
    is_next = BooleanField("If the yard has a table of that maker and title, make this its next version")
