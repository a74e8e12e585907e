"""What can be seen of a thing whose tag is gone."""

from wtforms import RadioField, SelectField, StringField
from wtforms.validators import Length, NumberRange, Optional

from yardapp.fields import CountField, LengthField
from yardapp.forms import YardForm, options
from yardapp.gear.figures import KINDS
from yardapp.gear.forms import HANDS


class UntaggedForm(YardForm):
    """What is seen of it. Nothing is saved."""

    class Meta(YardForm.Meta):
        """It only asks, so it needs no token."""

        csrf = False

    kind = SelectField(
        "It is a", choices=options((kind, one.label) for kind, one in KINDS.items()), default="propeller"
    )
    hand = RadioField("Hand, by look", choices=options(HANDS), default="")
    diameter_m = LengthField("Diameter", what="diameter", at_least=0.005, at_most=12.0)
    blades = CountField("Blades", [Optional(), NumberRange(min=2, max=7, message="Two to seven blades.")])
    stamp = StringField("Any part of the stamp", [Length(max=80)])
