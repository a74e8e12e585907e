"""What may be typed about labels."""

from wtforms import DecimalField, IntegerField, SelectField, StringField
from wtforms.validators import InputRequired, Length, NumberRange, Optional

from yardapp.forms import YardForm, options
from yardapp.gear.figures import KINDS
from yardapp.gear.label_stocks import STOCKS

AT_MOST_MM = 10


class PaperForm(YardForm):
    """Which paper labels go on, and from where. Nothing is saved by it."""

    class Meta(YardForm.Meta):
        """It only asks, so it needs no token."""

        csrf = False

    stock = SelectField("Paper", choices=options((key, one.label) for key, one in STOCKS.items()), default="24")
    start = IntegerField(
        "First free position",
        [Optional(), NumberRange(min=1, max=65, message="Positions are counted from 1, row by row.")],
        default=1,
        description="On a part-used sheet; row by row from the top left",
    )
    right_mm = DecimalField("Shift right", [Optional(), NumberRange(min=-AT_MOST_MM, max=AT_MOST_MM)], places=1)
    down_mm = DecimalField("Shift down", [Optional(), NumberRange(min=-AT_MOST_MM, max=AT_MOST_MM)], places=1)


class SheetForm(PaperForm):
    """Which tags go on which paper."""

    tags = StringField(
        "Tags",
        [InputRequired("Which tags? P-0412, or P-0413 to P-0452."), Length(max=4000)],
        description="P-0412, S-0104, P-0413 to P-0452",
    )


class BlankTagsForm(YardForm):
    """So many tags of one kind, to be printed now and bound later."""

    kind = SelectField("For", choices=options((kind, one.plural) for kind, one in KINDS.items()), default="propeller")
    count = IntegerField(
        "How many",
        [InputRequired("How many?"), NumberRange(min=1, max=400, message="Between one and 400 at once.")],
        default=40,
    )
