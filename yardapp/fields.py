"""Form boxes that take a figure as it is said, keep what was typed, and give SI.

A box whose `default_unit` is None follows the person: a form built with `meta={"system": "mm"}` or `"in"` reads and
writes its boxes so; without one, a size is read by its magnitude.
"""

from collections.abc import Callable, Sequence
from typing import Any, ClassVar

from wtforms.fields import Field  # type: ignore[import-untyped, unused-ignore]
from wtforms.widgets import TextInput  # type: ignore[import-untyped, unused-ignore]

from yardapp.quantities import Kind, Read, System, Unreadable, both, exact_in, flip, read, unit_for

INCH_UNITS = ("in", "ft", "thou", "hp", "lb", "lbf ft", "psi", "in²", "ft²", "lb/in³", "°F")
FOLLOW_THE_PERSON: tuple[Kind, ...] = ("power", "mass", "torque", "temperature")
SHORT_ENOUGH = 12  # characters; 23.503937007874015 in is shown as the 597 mm that it is


class QuantityField(Field):  # type: ignore[misc, unused-ignore]
    """A box for one figure. `.data` is SI or None, `.typed` the text as typed, `.reading` what was understood."""

    widget = TextInput()
    raw_data: list[str] | None
    kind: ClassVar[Kind] = "number"

    def __init__(
        self,
        label: str | None = None,
        validators: Sequence[Callable[..., Any]] | None = None,
        *,
        default_unit: str | None = None,
        at_least: float | None = None,
        at_most: float | None = None,
        what: str | None = None,
        **options: Any,
    ) -> None:
        self.typed = ""
        self.reading: Read | None = None
        self.data: float | None = None
        self.default_unit, self.at_least, self.at_most = default_unit, at_least, at_most
        self.what = what
        super().__init__(label, validators, **options)

    def process_data(self, value: float | None) -> None:
        """A figure from the record: nobody has typed anything yet."""
        self.data, self.reading, self.typed = value, None, ""

    def process_formdata(self, valuelist: list[str]) -> None:
        """What was typed, read; a blank box is None and was never an error."""
        self.data, self.reading = None, None
        self.typed = valuelist[0] if valuelist else ""
        if not self.typed.strip():
            self.raw_data = []  # so that Optional and InputRequired see blanks as what they are
            return
        try:
            self.reading = self._read(self.typed)
        except Unreadable as refusal:
            raise ValueError(refusal.said) from refusal
        self.data = self._kept(self.reading.value)

    @property
    def understood(self) -> str:
        """What was read, in both systems; nothing when nothing was."""
        return both(self.data, self.kind, self.system) if self.data is not None else ""

    @property
    def other_reading(self) -> Read | None:
        """The same text under the other unit, when the unit was assumed."""
        return flip(self.reading) if self.reading else None

    @property
    def system(self) -> System:
        """The system this box writes: its own unit's, else the person's, else metric."""
        if self.default_unit:
            return "in" if self.default_unit in INCH_UNITS else "mm"
        return "in" if getattr(self.meta, "system", None) == "in" else "mm"

    def _value(self) -> str:
        """What stands in the box: the text as typed, else the record's figure."""
        if self.raw_data is not None or self.data is None:
            return self.typed
        ours = exact_in(self.data, self.kind, self.default_unit or unit_for(self.kind, self.system))
        if len(ours) <= SHORT_ENOUGH:
            return ours
        other: System = "mm" if self.system == "in" else "in"
        return min(ours, exact_in(self.data, self.kind, unit_for(self.kind, other)), key=len)

    def _read(self, typed: str) -> Read:
        assume = self._assumed_unit(typed)
        return read(typed, self.kind, assume, at_least=self.at_least, at_most=self.at_most, what=self.what)

    def _assumed_unit(self, typed: str) -> str | None:
        """The box's unit, else the person's; for the rest `read` knows what to assume and says why."""
        if self.default_unit or getattr(self.meta, "system", None) is None:
            return self.default_unit
        return unit_for(self.kind, self.system) if self.kind in FOLLOW_THE_PERSON else None

    def _kept(self, value: float) -> float:
        return value


class LengthField(QuantityField):
    """A size, in metres."""

    kind = "length"

    def _assumed_unit(self, typed: str) -> str | None:
        """In a metric person's box a bare number is mm; a fraction stays inches."""
        if self.default_unit is None and getattr(self.meta, "system", None) == "mm":
            return None if any(mark in typed for mark in "/⁄½¼¾⅛⅜⅝⅞") else "mm"
        return self.default_unit


class AngleField(QuantityField):
    """An angle, in radians."""

    kind = "angle"


class TaperField(QuantityField):
    """A taper: change of diameter over length."""

    kind = "taper"


class PowerField(QuantityField):
    """A power, in watts; the unit must be typed unless the box or the person has one."""

    kind = "power"


class RotationField(QuantityField):
    """A speed of rotation, in revolutions a second."""

    kind = "rotation"


class SpeedField(QuantityField):
    """A speed through the water or over the ground, in metres a second."""

    kind = "speed"


class MassField(QuantityField):
    """A mass, in kilograms."""

    kind = "mass"


class RatioField(QuantityField):
    """A plain number: a reduction ratio, a blade area ratio."""

    kind = "number"


class CountField(QuantityField):
    """A whole number, kept as an int."""

    kind = "count"

    def _kept(self, value: float) -> int:
        return int(value)


class TorqueField(QuantityField):
    """A torque, in newton metres."""

    kind = "torque"


class PressureField(QuantityField):
    """A pressure or a stress, in pascals; its unit must be typed unless the box has one."""

    kind = "pressure"


class AreaField(QuantityField):
    """An area, in square metres; its unit must be typed unless the box has one."""

    kind = "area"


class VolumeField(QuantityField):
    """A volume, in cubic metres; a bare number is litres."""

    kind = "volume"


class DensityField(QuantityField):
    """A density, in kilograms a cubic metre."""

    kind = "density"


class TemperatureField(QuantityField):
    """A temperature, in degrees Celsius."""

    kind = "temperature"


class DurationField(QuantityField):
    """A length of time, in seconds; its unit must be typed unless the box has one."""

    kind = "duration"
