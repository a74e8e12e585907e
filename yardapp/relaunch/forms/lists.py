"""What may be typed about the yard's lists of lines and its policies."""

import re
from typing import Any

from wtforms import FloatField, HiddenField, IntegerField, RadioField, SelectField, StringField
from wtforms.validators import InputRequired, Length, NumberRange, Optional

from yardapp.forms import RecordForm, YardForm, options
from yardapp.relaunch.lines import FOLLOW_UP, PARTS, RELEASES, SETTLED_BY, SHEETS, UNITS, Line

PART_WORDS = {
    "to launch": "Before the slings",
    "afloat": "In the slings, afloat",
    "to owner": "Under way",
    FOLLOW_UP: "Afterwards",
}
SIGNS = [("1", "One person"), ("2", "Two people")]
STOPS = [("yes", "It stops her"), ("no", "She may go all the same")]
EACH = [("yes", "Of each drive"), ("no", "Of the boat")]


class LineForm(RecordForm):
    """One line of a list."""

    key = HiddenField()
    words = StringField(
        "What is asked",
        [InputRequired("What is asked? One short sentence."), Length(max=120)],
        description="{nut order} stands for what the yard goes by",
    )
    plain = StringField("In the owner's words", [Length(max=120)])
    part = RadioField("When", choices=options((part, PART_WORDS[part]) for part in PARTS), default=PARTS[0])
    by = SelectField("Settled by", choices=options(SETTLED_BY.items()), default="tick")
    bench_sheet = SelectField("Which bench sheet", choices=options([("", "none"), *SHEETS.items()]), default="")
    unit = SelectField("Figure in", choices=options([("", "no figure"), *((one, one) for one in UNITS)]), default="")
    at_least = FloatField("At least", [Optional()])
    at_most = FloatField("At most", [Optional()])
    signer = StringField("Who does it", [Length(max=40)], default="fitter")
    signs = RadioField("Who signs", choices=options(SIGNS), default="1")
    is_stop = RadioField("While it is open", choices=options(STOPS), default="yes")
    is_each = RadioField("Asked", choices=options(EACH), default="yes")
    after = SelectField(
        "Counted from", choices=options([("", "not a follow-up"), *((one, f"release {one}") for one in RELEASES)])
    )
    after_h = IntegerField("Due after, hours", [Optional(), NumberRange(min=0, max=9000)])
    by_h = IntegerField("Late after, hours", [Optional(), NumberRange(min=0, max=9000)])
    why = StringField("Why it is changed", [Length(max=300)])

    def line(self) -> Line:
        """The line as it was filled in."""
        texts: dict[str, Any] = {
            name: (self[name].data or "").strip() for name in ("words", "plain", "part", "by", "unit")
        }
        numbers: dict[str, Any] = {name: self[name].data for name in ("at_least", "at_most")}
        return Line(
            **texts,
            **numbers,
            sheet=self.bench_sheet.data or "",
            key=self.key.data or key_of(texts["words"]),
            signer=(self.signer.data or "").strip() or "fitter",
            signs=2 if self.signs.data == "2" else 1,
            is_stop=self.is_stop.data == "yes",
            is_each=self.is_each.data == "yes",
            after=self.after.data or "",
            after_h=self.after_h.data or 0,
            by_h=self.by_h.data or 0,
        )


def key_of(words: str) -> str:
    """A name for a new line, out of its words."""
    return re.sub(r"[^a-z0-9]+", "_", words.lower()).strip("_")[:40] or "line"


class TellListForm(RecordForm):
    """A button on a list: which line it moves or drops."""

    key = HiddenField()


class NewListForm(YardForm):
    """A list of the yard's own."""

    name = StringField("For which kind of drive or boat", [InputRequired("For which kind?"), Length(max=60)])
    like = SelectField("Begun on the lines of", validate_choice=False)


class PolicyForm(YardForm):
    """Which of the rival rules the yard goes by."""

    choice = RadioField("The yard goes by", [InputRequired("Which one?")], validate_choice=False)
    why = StringField("Why", [Length(max=300)])
