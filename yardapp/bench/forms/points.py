"""A box for the points of an outline: two figures a line, pasted from a spreadsheet or typed."""

import re
from typing import Any, ClassVar

from wtforms import TextAreaField

from yardapp.quantities import Unreadable, read

AT_MOST, LONGEST = 400, 12_000
BETWEEN = re.compile(r"\s*\t\s*|\s*;\s*|,\s+|\s{2,}|\s+")


class PointsField(TextAreaField):  # type: ignore[misc, unused-ignore]
    """Points in metres; `unit` is what a bare number counts. `.data` is None where nothing was typed."""

    data: Any
    unit: ClassVar[str] = "mm"
    typed = ""

    def process_data(self, value: Any) -> None:
        """Points of a record: nobody has typed anything yet."""
        self.data, self.typed = value, ""

    def process_formdata(self, valuelist: list[str]) -> None:
        """Each line, read as two sizes; the first line may be a heading."""
        self.typed = valuelist[0] if valuelist else ""
        self.data = None
        lines = [line.strip() for line in self.typed.splitlines() if line.strip()]
        if not lines:
            return
        if len(lines) > AT_MOST or len(self.typed) > LONGEST:
            raise ValueError(f"That is more than one outline takes: {AT_MOST} points at most.")
        if not any(mark.isdigit() for mark in lines[0]):
            lines = lines[1:]
        self.data = [self._point(number, line) for number, line in enumerate(lines, 1)]

    def _point(self, number: int, line: str) -> tuple[float, float]:
        parts = [part for part in BETWEEN.split(line) if part]
        if len(parts) != 2:
            raise ValueError(f"Point {number}, `{line[:40]}`: two figures a line, across and up.")
        try:
            x, y = (read(part, "length", self.unit, at_least=-3.0, at_most=3.0, what="coordinate") for part in parts)
        except Unreadable as refusal:
            raise ValueError(f"Point {number}: {refusal.said}") from refusal
        return x.value, y.value

    def _value(self) -> str:
        if self.typed or self.data is None:
            return self.typed
        return "\n".join(f"{x * 1000:.6g} {y * 1000:.6g}" for x, y in self.data)
