"""What may be drawn over a photo, and which two are held side by side."""

from wtforms import IntegerField, RadioField, SelectField, StringField
from wtforms.validators import InputRequired, Length, NumberRange

from yardapp.forms import YardForm, options

ON_IT = NumberRange(min=0, max=100, message="0 to 100 %% of the photo.")


def _share(label: str, of: str) -> IntegerField:
    return IntegerField(label, [InputRequired(f"How far from the {of}, in %?"), ON_IT])


class PhotoMarkForm(YardForm):
    """An arrow or a circle, in per cent of the photo's width and height."""

    kind = RadioField("Draw", choices=options([("arrow", "An arrow"), ("circle", "A circle")]), default="arrow")
    from_x = _share("From, across", "left")
    from_y = _share("From, down", "top")
    to_x = _share("To, across", "left")
    to_y = _share("To, down", "top")
    words = StringField("What it shows", [Length(max=80)])

    def ratios(self) -> dict[str, float]:
        """Both ends as shares of the photo."""
        return {f"{name}_ratio": (self[name].data or 0) / 100 for name in ("from_x", "from_y", "to_x", "to_y")}


class CaptionForm(YardForm):
    """What a photo shows, said anew."""

    caption = StringField("What it shows", [InputRequired("What does it show?"), Length(max=120)])


class SideBySideForm(YardForm):
    """Two photos of one thing. Nothing is saved."""

    class Meta(YardForm.Meta):
        """It only asks, so it needs no token."""

        csrf = False

    before = SelectField("Before", validate_choice=False)
    after = SelectField("After", validate_choice=False)
