"""One figure read several times over: the mean stands for it, and scatter is kept apart from what the tools share."""

from collections.abc import Callable, Mapping
from dataclasses import asdict, dataclass, field, replace
from functools import wraps
from typing import Any, TypeVar

from yardapp import quantities
from yardapp.bench.sums import Known, Outcome
from yardapp.bench.words import label_of
from yardapp.filters import kind_of
from yardapp.formulas.repeats import repeated, stray

FAR_OFF = 0.2  # of the middle of the others: a slip of the eye


@dataclass(frozen=True, kw_only=True)
class Reading:
    """What every reading may carry: `repeats`, each single reading of a figure that was read several times over.

    Settled, they stand under `scatter` instead, each with its share of the uncertainty (k = 1). `common` names the
    figures whose tool errs alike at every reading, as one template on every blade does.
    """

    repeats: Mapping[str, tuple[float, ...]] = field(default_factory=dict)
    scatter: Mapping[str, dict[str, Any]] = field(default_factory=dict)
    common: tuple[str, ...] = ()


AnyReading = TypeVar("AnyReading", bound=Reading)


def settled(reading: AnyReading) -> AnyReading:
    """The same with each repeated figure's mean, and the tool's and the scatter's uncertainty put together."""
    if not reading.repeats:
        return reading
    figures: dict[str, Any] = {}
    scatter: dict[str, dict[str, Any]] = {}
    for name, several in reading.repeats.items():
        u_tool = getattr(reading, f"u_{name}")
        found = repeated(several, u_tool or 0.0)
        figures |= {name: found.mean, f"u_{name}": None if u_tool is None else found.u}
        scatter[name] = {**asdict(found), "readings": list(several), "u_tool": u_tool}
    return replace(reading, **figures, repeats={}, scatter=scatter)


def repeatable(work_out: Callable[[Any, Known | None], Outcome]) -> Callable[..., Outcome]:
    """Let a sum take repeated readings, and say which part of the ± is common to them and which is separate."""

    @wraps(work_out)
    def worked(reading: Any, known: Known | None = None) -> Outcome:
        reading = settled(reading)
        outcome = work_out(reading, known)
        if not reading.scatter:
            return replace(outcome, u_common=outcome.u, u_separate=None if outcome.u is None else 0.0)
        return replace(
            outcome,
            u_common=work_out(_of_tools(reading), known).u,
            u_separate=work_out(_of_scatter(reading), known).u,
            remarks=(*outcome.remarks, *_strays(reading)),
        )

    return worked


def _of_tools(reading: AnyReading) -> AnyReading:
    """As if no reading had scattered."""
    return replace(reading, **{f"u_{name}": one["u_tool"] for name, one in reading.scatter.items()})


def of_common(reading: AnyReading) -> AnyReading:
    """As if only those tools erred that err alike at every reading."""
    names = [name for name in asdict(reading) if name.startswith("u_") and getattr(reading, name) is not None]
    still: dict[str, Any] = dict.fromkeys(names, 0.0)
    tools = {f"u_{name}": _u_of_tool(reading, name) for name in reading.common if f"u_{name}" in still}
    return replace(reading, **(still | tools))


def _u_of_tool(reading: Reading, name: str) -> Any:
    scattered = reading.scatter.get(name)
    return scattered["u_tool"] if scattered else getattr(reading, f"u_{name}")


def _of_scatter(reading: AnyReading) -> AnyReading:
    """As if every tool were without fault."""
    known = [name for name in asdict(reading) if name.startswith("u_") and getattr(reading, name) is not None]
    still = dict.fromkeys(known, 0.0)
    return replace(reading, **(still | {f"u_{name}": one["u_scatter"] for name, one in reading.scatter.items()}))


def _strays(reading: Reading) -> list[str]:
    """A reading that lies far off its fellows, in words."""
    said = []
    for name, one in reading.scatter.items():
        place = stray(one["readings"], FAR_OFF)
        if place is not None:
            others = [value for number, value in enumerate(one["readings"]) if number != place]
            said.append(
                f"Check {label_of(name).lower()}: {_both(name, one['readings'][place])}, {_span(name, others)}."
            )
    return said


def _both(name: str, value: float) -> str:
    return quantities.both(value, kind_of(name))


def _span(name: str, others: list[float]) -> str:
    low, high = min(others), max(others)
    return f"the others {_both(name, low)}" + ("" if low == high else f" to {_both(name, high)}")
