"""Product in stock."""

from wtforms import DateField, StringField
from wtforms.validators import InputRequired, Length, Optional

from yardapp.fields import VolumeField
from yardapp.forms import RecordForm


class TinForm(RecordForm):
    """One tin, kit or rest of one."""

    product = StringField("Product", [InputRequired("Which product is it? As its sheet calls it."), Length(max=80)])
    part = StringField("Part", [Length(max=80)], description="Base, hardener; empty for the whole.")
    volume_m3 = VolumeField(
        "What is in it now",
        [InputRequired("How much is in it? 0 when it is used up.")],
        default_unit="l",
        at_least=0.0,
        at_most=1.0,
        description="250 ml, or 0.25 l; 0 when it is used up",
    )
    batch = StringField("Batch", [Length(max=40)])
    expires_on = DateField("Good until", [Optional()])
    opened_on = DateField("Opened on", [Optional()], description="Empty: not opened yet.")
    place = StringField("Where it stands", [Length(max=120)])
    note = StringField("Note", [Length(max=300)])
