"""What may be typed of a part in the hand: each kind has the few figures that matter."""

from functools import lru_cache
from typing import Any

from wtforms import FileField, HiddenField, SelectField, StringField, TextAreaField
from wtforms.validators import Length

from yardapp.fields import LengthField, MassField, RatioField
from yardapp.forms import YardForm, options
from yardapp.gear.figures import KINDS, WORDS, FigureName, figures_of
from yardapp.gear.forms import BLANK, number_or_none

AT_MOST_M = 3.0
HINTS = {
    "thread_pitch_m": "Eight to the inch is 1/8 in.",
    "left_ratio": "0.5 is half of it, by eye.",
    "bore_m": "The shaft or housing that it fits.",
}
WHERE = "Needed, unless it belongs to something with a tag."


class LogPartForm(YardForm):
    """A part in the hand; the figures of its kind stand between photo and place."""

    photo = FileField("Photo")
    photo_kept = HiddenField()
    place = StringField("Where put", [Length(max=120)])
    with_tag = StringField("Comes off and goes on with", [Length(max=20)], description="The tag of the propeller, say")
    came_off_id = SelectField("Came off", coerce=number_or_none, validate_choice=False)
    tag = StringField("Blank tag on it", [Length(max=20)], description=BLANK)
    note = TextAreaField("Note", [Length(max=2000)])


@lru_cache(maxsize=len(KINDS))
def part_form(kind: str) -> type[LogPartForm]:
    """The form for one kind of part."""
    boxes = {figure.name: _box(figure) for figure in figures_of(kind)}
    return type(f"Log{kind.capitalize()}Form", (LogPartForm,), boxes)


def _box(figure: FigureName) -> Any:
    hint = HINTS.get(figure.name, "")
    if figure.is_word:
        choices = [("", "not looked at"), *((word, word.capitalize()) for word in WORDS[figure.name])]
        return SelectField(figure.label, choices=options(choices), default="")
    if figure.kind == "mass":
        return MassField(figure.label, at_most=1e4, description=hint)
    if figure.kind == "number":
        return RatioField(figure.label, at_least=0.0, at_most=1.0, description=hint)
    return LengthField(figure.label, what=figure.label.lower(), at_most=AT_MOST_M, description=hint)
