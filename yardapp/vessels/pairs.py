"""Boxes of pairs, a pair a line: speed and power of a hull, turns and power of an engine."""

import re
from typing import Any, ClassVar

from wtforms import TextAreaField

from yardapp.quantities import Kind, Unreadable, read
from yardapp.quantities.units import factor, named

_GAPS = re.compile(r"\s*[,;:\t]\s*|\s{2,}| at | = ")
_SPACES = re.compile(r"\s+")


class PairsField(TextAreaField):  # type: ignore[misc, unused-ignore]
    """Pairs of a speed and a power, a pair a line: `6 kn, 8 kW`. `.data` is pairs in SI, `.typed` the text."""

    first: ClassVar[Kind] = "speed"
    unit: ClassVar[str] = "kn"
    wanted: ClassVar[str] = "a speed and a power. Try 6 kn, 8 kW"
    typed = ""

    def process_data(self, value: Any) -> None:
        """Pairs of the record, written in the unit of the box and kilowatts."""
        self.data = [tuple(pair) for pair in value or ()]

    def process_formdata(self, valuelist: list[str]) -> None:
        """What was typed, line by line; the line that can't be read is named."""
        self.typed = valuelist[0].replace("\x00", "") if valuelist else ""
        self.data = [self._pair(line.strip()) for line in self.typed.splitlines() if line.strip()]

    def _value(self) -> str:
        if self.typed:
            return self.typed
        one = float(factor(named(self.first, self.unit)))
        return "\n".join(f"{first / one:.6g} {self.unit}, {power / 1000:.6g} kW" for first, power in self.data or ())

    def _pair(self, line: str) -> tuple[float, float]:
        """The first cut of the line that gives a speed before it and a power behind it."""
        for cut in (*_GAPS.finditer(line), *_SPACES.finditer(line)):
            try:
                first = read(line[: cut.start()], self.first, self.unit, at_least=0.0)
                power = read(line[cut.end() :], "power", None, at_least=0.0)
            except Unreadable:
                continue
            return first.value, power.value
        raise ValueError(f"`{line[:40]}` is not {self.wanted}: a pair a line, each with its unit.")


class EnginePairsField(PairsField):
    """Turns of the engine and its power at full throttle, a pair a line: `2000 rpm, 20 kW`."""

    first = "rotation"
    unit = "rpm"
    wanted = "an engine speed and a power. Try 2000 rpm, 20 kW"
