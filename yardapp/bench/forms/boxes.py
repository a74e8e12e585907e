"""What every bench sheet has: readings with a tool and a ± each, a note, and on a correction the reason."""

from collections.abc import Mapping
from math import isclose
from typing import Any, ClassVar

from wtforms import HiddenField, SelectField, StringField
from wtforms.validators import InputRequired, Length

from yardapp.bench.tools import TOOLS, K
from yardapp.fields import AngleField, CountField, LengthField, QuantityField
from yardapp.forms import YardForm, options
from yardapp.quantities import show

OWN = "plus_minus_"
WHY = "Say why, in a few words: it is read years later."


def tool_box(label: str, *names: str) -> Any:
    """The tool that readings were taken with; the common one comes first."""
    return SelectField(label, choices=options((name, name.capitalize()) for name in names), default=names[0])


def own_length(of: str) -> LengthField:
    """The ± of one length, where the person trusts it otherwise than the tool says."""
    return LengthField(f"± of {of}", at_most=0.1, what="±")


def own_angle(of: str) -> AngleField:
    """The ± of one angle."""
    return AngleField(f"± of {of}", default_unit="deg", at_most=0.5, what="±")


class BenchForm(YardForm):
    """One sheet. `TOOL_OF` says which tool box speaks for each reading."""

    TOOL_OF: ClassVar[dict[str, str]] = {}
    ABOUT: ClassVar[str] = ""  # this way of measuring, in a few words

    way = HiddenField()
    note = StringField("Note", [Length(max=300)])
    why = StringField("Why is it corrected?", [InputRequired(WHY), Length(max=300)])

    def reading(self) -> dict[str, Any]:
        """What was read, as the service takes it: each figure with its standard uncertainty (k = 1)."""
        said: dict[str, Any] = {}
        for name in self.TOOL_OF:
            said[name] = self[name].data
            said[f"u_{name}"] = None if said[name] is None else self.half_width(name) / K
        return said

    def half_width(self, name: str) -> float:
        """The ± of one reading: the person's own, else the tool's."""
        own = self[f"{OWN}{name}"].data
        tool = self[self.TOOL_OF[name]].data
        return float(own if own is not None else TOOLS[tool].plus_minus)

    def usual(self, name: str) -> str:
        """The ± that the chosen tool stands for, as it may be typed."""
        chosen = self[self.TOOL_OF[name]].data
        tool = TOOLS.get(chosen)
        return show(tool.plus_minus, tool.kind) if tool else ""

    def own_filled(self) -> bool:
        """Whether any ± of the person's own was typed."""
        return any(self[f"{OWN}{name}"].typed or self[f"{OWN}{name}"].errors for name in self.TOOL_OF)

    def boxes(self) -> dict[str, Any]:
        """Everything that stood in the boxes, as typed, for the sheet to keep."""
        said = self.readings()
        said |= {f"{name}_tool": said[tool] for name, tool in self.TOOL_OF.items() if said[name] is not None}
        return {name: text for name, text in said.items() if name not in ("why", "note") and text not in (None, "")}

    def still_to_read(self) -> list[Any]:
        """The boxes that are needed and still empty."""
        order = list(self.TOOL_OF)
        missing = [field for field in self if _is_missing(field) and field.name != "why"]
        return sorted(missing, key=lambda field: order.index(field.name) if field.name in order else len(order))

    def misread(self) -> list[Any]:
        """The boxes that hold something which can't stand."""
        return [field for field in self if field.errors and not _is_missing(field) and field.name != "csrf_token"]

    def retype(self, kept: Mapping[str, Any], note: str) -> None:
        """Fill every box as it was typed on a kept sheet."""
        for field in self:
            if isinstance(field, QuantityField):
                _retype(field, str(kept.get(f"{field.name}_typed") or ""), kept.get(field.name))
            elif field.name in kept:
                field.data = kept[field.name]
        self.note.data = note
        for name, tool in self.TOOL_OF.items():
            own = self[f"{OWN}{name}"]
            if kept.get(f"u_{name}") and not own.typed and kept.get(tool) is None:
                own.process_data(kept[f"u_{name}"] * K)  # kept without a tool: its ± stood in no box


def _is_missing(field: Any) -> bool:
    typed = field.typed if isinstance(field, QuantityField) else field.data
    return bool(field.errors) and bool(field.flags.required) and not str(typed or "").strip()


def _retype(field: QuantityField, typed: str, figure: float | None) -> None:
    """The text as typed; where this person's box would read it as another figure, the figure with its unit."""
    if typed:
        field.raw_data = [typed]
        try:
            field.process_formdata([typed])
        except ValueError:
            field.data = None
    if figure is not None and not (field.data is not None and isclose(field.data, figure, rel_tol=1e-9)):
        field.raw_data = None
        field.process_data(figure)


def blades_box(*needed: Any) -> CountField:
    """How many blades; the register's own count stands there already."""
    return CountField("Blades", [*needed], at_least=2, at_most=7, what="number of blades")
