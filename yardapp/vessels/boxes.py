"""Boxes that only boats have, and a record's form that shows the other person's save in one's own units."""

from collections.abc import Mapping
from math import isclose
from typing import Any

from yardapp.fields import SHORT_ENOUGH, LengthField, QuantityField
from yardapp.forms import RecordForm
from yardapp.quantities import exact_in, read, unit_for

SAME = 1e-9


def tidy(text: str | None) -> str:
    """One line of text, its spaces made single."""
    return " ".join((text or "").replace("\x00", "").split())


def tidy_lines(text: str | None) -> str:
    """Several lines of text, ended alike whichever device they came from."""
    return "\n".join((text or "").replace("\x00", "").splitlines()).strip()


def number_or_none(value: Any) -> int | None:
    """The chosen number; an empty choice is none."""
    return int(value) if str(value or "").isdigit() and int(value) < 2**31 else None


class BoatLengthField(LengthField):
    """A boat's length: a bare number is metres, or feet where the person works in inches."""

    def __init__(self, *args: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        self.default_unit = "ft" if getattr(self.meta, "system", None) == "in" else "m"


class MergedForm(RecordForm):
    """A record that two may save at once; what the other wrote is shown in this person's units and words."""

    def superseded(self, theirs: Mapping[str, str], version: int, by: str) -> None:
        """Somebody saved first: show both, box by box of this form."""
        shown = {name: self._as_i_write(name, text) for name, text in theirs.items() if name in self._fields}
        super().superseded(shown, version, by)

    def _as_i_write(self, name: str, text: str) -> str:
        """The same figure is no quarrel, however it was written."""
        box = self._fields[name]
        if not isinstance(box, QuantityField) or not text:
            return text
        value = read(text, box.kind, at_least=0.0).value
        if box.data is not None and isclose(box.data, value, rel_tol=SAME):
            return box.typed
        ours = exact_in(value, box.kind, box.default_unit or unit_for(box.kind, box.system))
        if len(ours) <= SHORT_ENOUGH:
            return ours
        return min(ours, *(exact_in(value, box.kind, unit_for(box.kind, system)) for system in ("mm", "in")), key=len)

    def conflicts(self) -> list[dict[str, str]]:
        """Each box in which the two differ; of a list, the words that the page shows."""
        return [{**row, **self._in_words(row)} for row in super().conflicts()]

    def _in_words(self, row: dict[str, str]) -> dict[str, str]:
        words = {
            str(choice.value): choice.label for choice in getattr(self._fields[row["name"]], "choices", None) or ()
        }
        mine, theirs = row["mine"], row["theirs"]
        shown = {"mine": words.get(mine, mine), "theirs": words.get(theirs, theirs)}
        return {**shown, "value_mine": mine, "value_theirs": theirs}
