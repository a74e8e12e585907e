"""How a coating looked at haul-out, and photos."""

from wtforms import DateField, FileField, RadioField, SelectField, StringField
from wtforms.validators import InputRequired, Length, Optional

from yardapp.coating.history import RATINGS
from yardapp.forms import YardForm, options

MOST_BLADES = 7


def looks(label: str) -> RadioField:
    """The scale, in words."""
    return RadioField(label, choices=options((word, word.capitalize()) for word in RATINGS), validators=[Optional()])


class PhotoForm(YardForm):
    """One photo of a job."""

    photo = FileField("Photo")
    unit = SelectField("Of", validate_choice=False, choices=options([]))
    caption = StringField("What it shows", [Length(max=120)])


class CorrectRatingForm(YardForm):
    """Another word in the place of a wrong one."""

    word = RadioField(
        "It looked", [InputRequired("How did it look?")], choices=options((word, word.capitalize()) for word in RATINGS)
    )
    note = StringField("Note", [Length(max=300)])
    at = DateField("When it was looked at", [Optional()])
    why = StringField("Why", [InputRequired("Say why, in a few words: it is read years later."), Length(max=300)])


class DocumentForm(YardForm):
    """A data sheet as it came."""

    document = FileField("PDF or photo")


class RatingForm(YardForm):
    """A word for each blade; of a thing without blades, one."""

    word_1 = looks("Blade 1")
    word_2 = looks("Blade 2")
    word_3 = looks("Blade 3")
    word_4 = looks("Blade 4")
    word_5 = looks("Blade 5")
    word_6 = looks("Blade 6")
    word_7 = looks("Blade 7")
    at = DateField("When it was looked at", [Optional()], description="Empty means today.")
    note = StringField("Note", [Length(max=300)])
    photo = FileField("Photo")

    def of(self, blades: int, name: str) -> "RatingForm":
        """Leave one scale for each blade."""
        for number in range(max(blades, 1) + 1, MOST_BLADES + 1):
            del self[f"word_{number}"]
        if not blades:
            self["word_1"].label.text = name
        return self

    def words(self, blades: int) -> dict[int | None, str]:
        """What was said, by blade."""
        said = {number: self[f"word_{number}"].data for number in range(1, max(blades, 1) + 1)}
        return {(number if blades else None): word for number, word in said.items() if word}
