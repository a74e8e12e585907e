"""What every bench sheet has: readings with a tool and a ± each, a note, and on a correction the reason."""

from collections.abc import Mapping
from dataclasses import replace
from math import isclose
from typing import Any, ClassVar

from wtforms import HiddenField, SelectField, StringField
from wtforms.validators import InputRequired, Length

from yardapp.bench.tools import TOOLS, K, Tool, offered
from yardapp.fields import AngleField, CountField, LengthField, QuantityField
from yardapp.forms import YardForm, options
from yardapp.quantities import show

OWN = "plus_minus_"
FILLED_IN = frozenset({"radius_m"})  # readings that the register answers beforehand
TOKENS = frozenset({"csrf_token", "once"})
UNITS = ("mm", "in")
WHY = "Say why, in a few words: it is read years later."
NO_TOOL = ("", "None of the list")


class ToolField(SelectField):  # type: ignore[misc, unused-ignore]
    """The tool that readings were taken with: one of the yard's list, the usual ones first."""

    data: str | None
    raw_data: list[str] | None

    def __init__(self, label: str, *, usual: tuple[str, ...], **said: Any) -> None:
        self.usual = usual
        names = offered(TOOLS, TOOLS[usual[0]].kind, usual)
        super().__init__(label, default=usual[0], choices=_choices(names), **said)

    def offer(self, tools: Mapping[str, Tool]) -> None:
        """Offer what is in use of this kind, and what stands in the box already."""
        names = offered(tools, TOOLS[self.usual[0]].kind, self.usual)
        self.choices = _choices(names)
        if self.raw_data is None and self.data not in names:
            self.data = names[0] if names else ""


def _choices(names: list[str]) -> Any:
    return options([(name, name.capitalize()) for name in names] or [NO_TOOL])


def tool_box(label: str, *names: str) -> Any:
    """The tool that readings were taken with; the common one comes first."""
    return ToolField(label, usual=names)


def own_length(of: str) -> LengthField:
    """The ± of one length, where the person trusts it otherwise than the tool says."""
    return LengthField(f"± of {of}", at_most=0.1, what="±")


def own_angle(of: str) -> AngleField:
    """The ± of one angle."""
    return AngleField(f"± of {of}", default_unit="deg", at_most=0.5, what="±")


class BenchForm(YardForm):
    """One sheet. `TOOL_OF` says which tool box speaks for each reading, `OWN_OF` which box of its own ± it has.

    `tools` is the yard's list, to be given with `take` before anything is judged.
    """

    TOOL_OF: ClassVar[dict[str, str]] = {}
    OWN_OF: ClassVar[dict[str, str]] = {}
    BEGUN_BY: ClassVar[tuple[str, ...]] = ()  # boxes besides the readings that begin a sheet when they are filled
    ABOUT: ClassVar[str] = ""  # this way of measuring, in a few words
    tools: Mapping[str, Tool] = TOOLS

    way = HiddenField()
    unit = HiddenField()  # the system in which a bare figure on this sheet is read: that of whoever began it
    note = StringField("Note", [Length(max=300)])
    why = StringField("Why is it corrected?", [InputRequired(WHY), Length(max=300)])

    def __init__(self, formdata: Any = None, *args: Any, meta: Any = None, **given: Any) -> None:
        sent: Mapping[str, str] = formdata or {}
        if sent.get("unit") in UNITS:
            meta = {**(meta or {}), "system": sent["unit"]}
        super().__init__(formdata, *args, meta=meta, **given)
        if not self["unit"].data:
            self["unit"].data = getattr(self.meta, "system", None) or UNITS[0]

    def open(self, typed: Mapping[str, str]) -> None:
        """Fill every box with what was typed into it before."""
        if typed.get("unit") in UNITS:
            self.meta.system = typed["unit"]
        for field in self:
            if field.name in typed and field.name not in TOKENS:
                _open(field, typed[field.name])

    def all_typed(self) -> dict[str, str]:
        """What stands in every box of the sheet, by name, as it was typed."""
        return {field.name: _text_of(field) for field in self if field.name not in TOKENS}

    def take(self, tools: Mapping[str, Tool], kept: Mapping[str, Any] | None = None) -> None:
        """The yard's tools as they are today; those that a `kept` sheet was read with, as they were on its day."""
        self.tools = {**tools, **self._of_its_day(tools, kept or {})}
        for field in self:
            if isinstance(field, ToolField):
                field.offer(self.tools)

    def _of_its_day(self, tools: Mapping[str, Tool], kept: Mapping[str, Any]) -> dict[str, Tool]:
        named = {str(kept[f"{name}_tool"]): name for name in self.TOOL_OF if kept.get(f"{name}_tool")}
        then = {tool: kept.get(f"{name}_tool_plus_minus") for tool, name in named.items() if tool in tools}
        return {
            tool: replace(tools[tool], is_used=True, plus_minus=reach or tools[tool].plus_minus)
            for tool, reach in then.items()
        }

    def reading(self) -> dict[str, Any]:
        """What was read, as the service takes it: each figure with its tool's standard uncertainty (k = 1)."""
        said: dict[str, Any] = {}
        for name in self.TOOL_OF:
            half_width = self.half_width(name)
            said[name] = self[name].data
            said[f"u_{name}"] = None if said[name] is None or half_width is None else half_width / K
        return said | {"repeats": self.repeats(), "common": self.common()}

    def common(self) -> tuple[str, ...]:
        """The figures that were read with a tool which errs alike at every reading."""
        tools = {name: self.tools.get(self[box].data) for name, box in self.TOOL_OF.items()}
        return tuple(name for name, tool in tools.items() if tool and tool.is_common and self[name].data is not None)

    def repeats(self) -> dict[str, tuple[float, ...]]:
        """The figures that were read several times over, each reading of each."""
        several = {name: getattr(self[name], "several", ()) for name in self.TOOL_OF}
        return {name: tuple(values) for name, values in several.items() if len(values) > 1}

    def own_of(self, name: str) -> Any:
        """The box for a person's own ± of one reading."""
        return self[f"{OWN}{self.OWN_OF.get(name, name)}"]

    def own_boxes(self) -> dict[str, str]:
        """Each box for an own ± by name, and the ± that stands for it while it is empty."""
        return {self.own_of(name).name: self.usual(name) for name in self.TOOL_OF}

    def half_width(self, name: str) -> float | None:
        """The ± of one reading: the person's own, else the tool's."""
        own, tool = self.own_of(name).data, self.tools.get(self[self.TOOL_OF[name]].data)
        if own is not None:
            return float(own)
        return tool.plus_minus if tool else None

    def usual(self, name: str) -> str:
        """The ± that the chosen tool stands for, as it may be typed."""
        tool = self.tools.get(self[self.TOOL_OF[name]].data)
        return show(tool.plus_minus, tool.kind) if tool else ""

    def own_filled(self) -> bool:
        """Whether any ± of the person's own was typed."""
        return any(self.own_of(name).typed or self.own_of(name).errors for name in self.TOOL_OF)

    def boxes(self) -> dict[str, Any]:
        """Everything that stood in the boxes, as typed, for the sheet to keep."""
        said = self.readings()
        read = {name: said[tool] for name, tool in self.TOOL_OF.items() if said[name] is not None and said[tool]}
        said |= {f"{name}_tool": tool for name, tool in read.items()}
        said |= {f"{name}_tool_plus_minus": self.tools[tool].plus_minus for name, tool in read.items()}
        return {name: text for name, text in said.items() if name not in ("why", "note") and text not in (None, "")}

    def is_begun(self) -> bool:
        """Whether anything was read yet; what the register filled in does not count."""
        read = (self[name] for name in self.TOOL_OF if name not in FILLED_IN)
        return any(field.typed or field.errors for field in read) or any(self[name].data for name in self.BEGUN_BY)

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
            if field.name == "unit":
                continue  # this person's own: what was typed otherwise stands there with its unit
            if isinstance(field, QuantityField):
                _retype(field, str(kept.get(f"{field.name}_typed") or ""), kept.get(field.name))
            elif field.name in kept:
                field.data = kept[field.name]
        self.note.data = note
        for name, tool in self.TOOL_OF.items():
            own = self.own_of(name)
            if kept.get(f"u_{name}") and not own.typed and kept.get(tool) is None:
                own.process_data(kept[f"u_{name}"] * K)  # kept without a tool: its ± stood in no box


def _is_missing(field: Any) -> bool:
    typed = field.typed if isinstance(field, QuantityField) else field.data
    return bool(field.errors) and bool(field.flags.required) and not str(typed or "").strip()


def _is_read(field: Any) -> bool:
    """Whether a box reads its text, and keeps it as it was typed."""
    return hasattr(field, "typed")


def _open(field: Any, text: str) -> None:
    """The text in its box again, read as when it was typed; what can't be read is told when the form is judged."""
    if not _is_read(field):
        field.data = text
        return
    field.raw_data, field.process_errors = [text], []
    try:
        field.process_formdata([text])
    except ValueError as wrong:
        field.data, field.process_errors = None, [str(wrong)]


def _text_of(field: Any) -> str:
    text = field._value() if _is_read(field) else field.data
    return "" if text is None else str(text).strip().replace("\r\n", "\n")


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
