"""A sum that can be opened: its inputs, its formula by name, and where the formula comes from."""

import inspect
import re
from collections.abc import Callable
from dataclasses import asdict, dataclass, field, fields
from typing import Any

from uncertainties import nominal_value, std_dev, ufloat

from yardapp.formulas.uncertainty import propagate

Figure = tuple[float, float | None]  # a value and its standard uncertainty (k = 1); None: nobody said


@dataclass(frozen=True, kw_only=True)
class Input:
    """One figure that went in; `name` is the formula's own parameter."""

    name: str
    value: float
    u: float | None = None


@dataclass(frozen=True, kw_only=True)
class Sum:
    """One figure that came out, in SI; `u` is k = 1, None when an input has none."""

    what: str
    value: float
    u: float | None
    formula: str
    source: str
    inputs: tuple[Input, ...]

    @property
    def figure(self) -> Figure:
        """Value and ±, as the input of another sum."""
        return self.value, self.u


def work_out(what: str, formula: Callable[..., Any], **inputs: Figure) -> Sum:
    """Put figures through a formula.

    Raises
    ------
    OutsideRange
        As the formula does.
    """
    came = propagate(formula, **{name: ufloat(value, u) if u else value for name, (value, u) in inputs.items()})
    is_known = all(u is not None for _, u in inputs.values())
    return Sum(
        what=what,
        value=float(nominal_value(came)),
        u=float(std_dev(came)) if is_known else None,
        formula=f"{formula.__module__}.{formula.__qualname__}",
        source=source_of(formula),
        inputs=tuple(Input(name=name, value=value, u=u) for name, (value, u) in inputs.items()),
    )


def source_of(formula: Callable[..., Any]) -> str:
    """What the formula's own text says of where it comes from."""
    said = re.search(r"^Source\n-+\n(.+?)(?:\n\n|\Z)", inspect.getdoc(formula) or "", re.DOTALL | re.MULTILINE)
    return " ".join(said[1].split()) if said else ""


@dataclass(frozen=True, kw_only=True)
class Near:
    """Which standard the readings are: its taper (None: none of them) and shaft end, by name."""

    taper: float | None = None
    end: str = ""
    nearest: str = ""
    source: str = ""


@dataclass(frozen=True, kw_only=True)
class Compared:
    """What somebody else said of the same figure, and whether both can be true."""

    what: str
    basis: str
    value: float
    u: float | None
    apart: float
    allowed: float
    agrees: bool
    is_sure: bool = True


@dataclass(frozen=True, kw_only=True)
class Outcome:
    """What came of one sheet. `answer` is the figure that the sheet is about."""

    answer: str
    sums: tuple[Sum, ...] = ()
    remarks: tuple[str, ...] = ()
    near: Near | None = None
    compared: tuple[Compared, ...] = ()
    # Of the answer's ± (k = 1): what every reading with these tools shares, and what averages out.
    u_common: float | None = None
    u_separate: float | None = None
    more: dict[str, Any] = field(default_factory=dict)  # what one method alone says, ready for JSON

    def sum_of(self, what: str) -> Sum | None:
        """The sum that gave this figure."""
        return next((one for one in self.sums if one.what == what), None)

    @property
    def value(self) -> float | None:
        """The answer, SI; None when the readings do not reach so far."""
        found = self.sum_of(self.answer)
        return found.value if found else None

    @property
    def u(self) -> float | None:
        """Its standard uncertainty, k = 1."""
        found = self.sum_of(self.answer)
        return found.u if found else None

    def kept(self) -> dict[str, Any]:
        """As a sheet keeps it: each figure by name with its `u_`, and all else that a page shows."""
        values = {one.what: one.value for one in self.sums}
        return values | {f"u_{one.what}": one.u for one in self.sums} | asdict(self)

    @classmethod
    def from_kept(cls, kept: dict[str, Any]) -> "Outcome":
        """The same again, from a sheet."""
        sums = (Sum(**{**one, "inputs": tuple(Input(**put) for put in one["inputs"])}) for one in kept["sums"])
        near = kept.get("near")
        return cls(
            answer=kept["answer"],
            sums=tuple(sums),
            remarks=tuple(kept["remarks"]),
            near=Near(**near) if near else None,
            compared=tuple(Compared(**one) for one in kept["compared"]),
            u_common=kept.get("u_common"),
            u_separate=kept.get("u_separate"),
            more=kept.get("more", {}),
        )


@dataclass(frozen=True, kw_only=True)
class Known:
    """What the register knows of the propeller that is on the bench; None: not known."""

    diameter_m: float | None = None
    u_diameter_m: float | None = None
    hand: str | None = None
    blades: int | None = None
    pitch_m: float | None = None
    u_pitch_m: float | None = None
    hub_diameter_m: float | None = None
    u_hub_diameter_m: float | None = None


def read(reading: object, name: str) -> Figure | None:
    """A figure of a reading with its ±, or None when it was not read."""
    value = getattr(reading, name)
    return None if value is None else (value, getattr(reading, f"u_{name}"))


def figures_read(reading: Any) -> dict[str, Any]:
    """Everything that was read, by name; what was not is left out."""
    read_of = ((one.name, getattr(reading, one.name)) for one in fields(reading))
    return {name: figure for name, figure in read_of if figure is not None and figure not in ({}, ())}
