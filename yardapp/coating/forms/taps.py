"""Forms of one button, and the taps beside the boat."""

from datetime import UTC, datetime
from typing import Any

from wtforms import DateTimeLocalField, IntegerField, SelectField, StringField
from wtforms.validators import InputRequired, Length, NumberRange, Optional

from yardapp.fields import QuantityField, RatioField, TemperatureField, VolumeField
from yardapp.forms import RecordForm, YardForm, options

WHY = "Say why, in a few words: it is read years later."
WEATHER = ("air_c", "metal_c", "relative_humidity", "wet_bulb_c")
POT = ("product", "batch", "volume_m3")
REST = ("product", "volume_m3", "fate")
FATES = ("thrown out", "back in its tin", "used elsewhere")
BOXES = {"weather": WEATHER, "people": ("people",), "stirring": POT, "mixed": POT, "left over": REST}


class PlainForm(YardForm):
    """A button and nothing else."""


class TakeForm(YardForm):
    """A system that comes with yardapp, by name."""

    name = StringField()  # the value of the button itself, so no hidden box


class OfferForm(YardForm):
    """Whether a system is offered for new jobs."""

    is_used = StringField()


class BringBackForm(RecordForm):
    """An earlier version, to be the newest again."""

    number = IntegerField("Version", [InputRequired("Which version?")])


class Readings(YardForm):
    """What may be read or said with an act; every box may stay empty."""

    air_c = TemperatureField("Air", default_unit="°C")
    metal_c = TemperatureField("Metal", default_unit="°C")
    relative_humidity = RatioField("Humidity", default_unit="%", at_least=0.0, at_most=1.0)
    wet_bulb_c = TemperatureField("Wet bulb", default_unit="°C")
    product = SelectField("Product", validate_choice=False, choices=options([]))
    batch = StringField("Batch", [Length(max=40)])
    volume_m3 = VolumeField("How much", default_unit="l", at_least=0.0, at_most=1.0)
    fate = SelectField("What became of it", validate_choice=False, choices=options((one, one) for one in FATES))
    people = IntegerField("People coating", [Optional(), NumberRange(min=1, max=6, message="1 to 6.")])
    note = StringField("Note", [Length(max=300)])

    def figures(self, kind: str) -> dict[str, Any]:
        """What an act of that kind keeps; beside each figure, what was typed."""
        said: dict[str, Any] = {}
        for name in BOXES.get(kind, ()):
            box = self[name]
            if box.data not in (None, ""):
                said[name] = box.data
                if isinstance(box, QuantityField):
                    said[f"{name}_typed"] = box.typed
        return said


class TapForm(Readings):
    """One tap: `tap` is the act, the blade or piece, the step, the product, its millilitres, as `too dry|1.2|4||`.

    `at` is the moment of the act itself, when it was sent late.
    """

    tap = StringField()  # the value of the button itself, so no hidden box
    at = StringField()

    def act(self) -> dict[str, Any]:
        """The tap as the service takes it."""
        kind, unit, step, product, amount_ml = [*(self.tap.data or "").split("|"), "", "", "", ""][:5]
        figures = self.figures(kind) | ({"product": product} if product else {}) | _amount(amount_ml)
        return {
            "kind": kind,
            "unit": unit,
            "step": int(step) if step.isdigit() and len(step) < 4 else None,
            "at": self._at(),
            "figures": figures,
            "note": self.note.data or "",
        }

    @property
    def undoes(self) -> int | None:
        """The act that this tap takes back."""
        kind, _, number = (self.tap.data or "").partition("|")
        return int(number) if kind == "undo" and number.isdigit() and len(number) < 10 else None

    def _at(self) -> datetime | None:
        try:
            return datetime.fromtimestamp(float(self.at.data), UTC) if self.at.data else None
        except (ValueError, OverflowError, OSError):
            return None


def _amount(amount_ml: str) -> dict[str, Any]:
    """The amount that stands on the button itself."""
    if not (amount_ml.isdigit() and 0 < int(amount_ml[:6]) < 100_000):
        return {}
    return {"volume_m3": int(amount_ml[:6]) * 1e-6, "volume_m3_typed": f"{int(amount_ml[:6])} ml"}


class CorrectForm(Readings):
    """Another row in the place of a wrong one."""

    at = DateTimeLocalField("When it was done", [Optional()], format=["%Y-%m-%dT%H:%M:%S", "%Y-%m-%dT%H:%M"])
    why = StringField("Why", [InputRequired(WHY), Length(max=300)])

    def moment(self) -> datetime | None:
        """A time of the yard's own clock on the wall."""
        return None if self.at.data is None else self.at.data.astimezone()
