"""What may be typed about marks."""

from wtforms import SelectField, StringField
from wtforms.validators import InputRequired, Length

from yardapp.forms import YardForm, options

SPOTS = [
    ("", "not noted"),
    ("aft face of the hub", "Aft face of the hub"),
    ("forward face of the hub", "Forward face of the hub"),
    ("side of the hub", "Side of the hub"),
    ("root of a blade", "Root of a blade"),
]


class MarkForm(YardForm):
    """One mark as it is seen."""

    stamp = StringField(
        "Mark, as it stands there",
        [InputRequired("What stands there? ? for a character you can't read."), Length(max=80)],
        description="22 x 18 RH, 560x460 LH, D22 P18; ? for a character you can't read",
        render_kw={"autocomplete": "off", "autocapitalize": "characters", "spellcheck": "false"},
    )
    spot = SelectField("Where on it", choices=options(SPOTS), default="")
