"""Size boxes that take one figure read several times over: `74, 74.5, 73.8 mm`."""

import re
from typing import TYPE_CHECKING, Any, ClassVar

from yardapp.fields import AngleField, LengthField, QuantityField
from yardapp.quantities import both

# A comma without a space may be a decimal one; a semicolon never is.
BETWEEN = re.compile(r"\s*;\s*|,\s+|\s*\n\s*")
UNIT = re.compile(r"[^\d\s.,/⁄½¼¾⅛⅜⅝⅞+-].*$")
AT_MOST = 30  # readings in one box
LONGEST = 400  # characters


_Box: Any = QuantityField if TYPE_CHECKING else object  # a kind of its own it is not


class _Repeated(_Box):  # type: ignore[misc, unused-ignore]
    """A box for one figure, read once or several times. `.data` is the mean, `.several` each reading, in SI."""

    data: float | None
    several: list[float]
    asks: ClassVar[str] = ""  # what a page calls this kind of box where it asks how its text is read

    def process_data(self, value: float | None) -> None:
        """A figure from the record: nobody has typed anything yet."""
        self.several = []
        super().process_data(value)

    def process_formdata(self, valuelist: list[str]) -> None:
        """What was typed, read; a unit that stands once, at the end, counts for all."""
        self.several = []
        typed = valuelist[0] if valuelist else ""
        parts = [part for part in BETWEEN.split(typed.strip()) if part]
        if len(parts) < 2:
            super().process_formdata(valuelist)
            self.several = [] if self.data is None else [self.data]
            return
        self.data, self.reading, self.typed = None, None, typed
        if len(parts) > AT_MOST or len(typed) > LONGEST:
            raise ValueError(f"That is more than one box takes: {AT_MOST} readings at most.")
        unit = UNIT.search(parts[-1])
        for part in parts:
            super().process_formdata([part if UNIT.search(part) or not unit else f"{part} {unit[0]}"])
            if self.data is not None:
                self.several.append(self.data)
        self.data, self.reading, self.typed = sum(self.several) / len(self.several), None, typed

    @property
    def understood(self) -> str:
        """What was read, in both systems; of several readings their mean."""
        if self.data is None or len(self.several) < 2:
            return str(super().understood)
        return f"{len(self.several)} readings, mean {both(self.data, self.kind, self.system)}"


class RepeatedLengthField(_Repeated, LengthField):  # type: ignore[misc, unused-ignore]
    """A size, read once or several times."""

    asks = "lengths"


class RepeatedAngleField(_Repeated, AngleField):  # type: ignore[misc, unused-ignore]
    """An angle, read once or several times."""

    asks = "angles"


REPEATED = {box.asks: box for box in (RepeatedLengthField, RepeatedAngleField)}
