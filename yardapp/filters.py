"""What templates write figures, dates and sides with; no page does arithmetic or says a unit of its own.

A filter that is not told the system takes it from the page's own `system`, "mm" where the page has none.
"""

from collections.abc import Callable, Sized
from datetime import UTC, date, datetime
from typing import TYPE_CHECKING, Any

from jinja2 import pass_context
from jinja2.runtime import Context

from yardapp.quantities import NOT_KNOWN, Kind, System, both, exact, plus_minus, show

if TYPE_CHECKING:
    from flask import Flask

# The last word of a name is its unit, and the unit tells the kind; the longest ending counts.
ENDINGS: dict[str, Kind] = {
    "_m": "length",
    "_rad": "angle",
    "taper": "taper",
    "_w": "power",
    "_rps": "rotation",
    "_mps": "speed",
    "_kg": "mass",
    "_ratio": "number",
    "_factor": "number",
    "_number": "number",
    "_count": "count",
    "_n": "force",
    "_nm": "torque",
    "_pa": "pressure",
    "_m2": "area",
    "_m3": "volume",
    "_kgpm3": "density",
    "_c": "temperature",
    "_s": "duration",
}
MINUTE_S, HOUR_S, DAY_S = 60, 3600, 86400
DAYS_TOLD_AS_AGO = 14


def kind_of(name: str) -> Kind:
    """The kind of quantity that a figure's name ends in; KeyError for a name without a unit."""
    fits = [ending for ending in ENDINGS if name.endswith(ending)]
    if not fits:
        raise KeyError(f"{name} ends in no unit that is known here")
    return ENDINGS[max(fits, key=len)]


def hand(side: str | None) -> str:
    """right → right hand."""
    return f"{side} hand" if side else "hand not known"


def day(moment: date | None) -> str:
    """14 Oct 2026, in the yard's own time."""
    if moment is None:
        return NOT_KNOWN
    local = _local(moment) if isinstance(moment, datetime) else moment
    return f"{local.day} {local:%b %Y}"


def clock(moment: datetime | None) -> str:
    """14:32, in the yard's own time."""
    return NOT_KNOWN if moment is None else f"{_local(moment):%H:%M}"


def ago(moment: datetime | None, now: datetime | None = None) -> str:
    """How long ago, in the words a person would use; the day itself from a fortnight on."""
    if moment is None:
        return NOT_KNOWN
    seconds = ((now or datetime.now(UTC)).astimezone(UTC) - _aware(moment)).total_seconds()
    if abs(seconds) < MINUTE_S:
        return "just now"
    if abs(seconds) >= DAYS_TOLD_AS_AGO * DAY_S:
        return day(moment)
    span = _span(abs(seconds))
    return f"{span} ago" if seconds > 0 else f"in {span}"


def _span(seconds: float) -> str:
    one, name = next(
        (one, name) for one, name in ((DAY_S, "day"), (HOUR_S, "hour"), (MINUTE_S, "minute")) if seconds >= one
    )
    count = int(seconds // one)
    return f"{count} {name}{'s' if count > 1 else ''}"


def _aware(moment: datetime) -> datetime:
    """A moment that a database gave back without its zone was kept as UTC."""
    return moment if moment.tzinfo else moment.replace(tzinfo=UTC)


def _local(moment: datetime) -> datetime:
    return _aware(moment).astimezone()


def _system(page: Context, system: System | None) -> System:
    return system or ("in" if page.get("system") == "in" else "mm")


@pass_context
def figure(page: Context, value: float | None, name: str, system: System | None = None, u: float | None = None) -> str:
    """A figure as its name says it is: `{{ value | figure("diameter_m", system, u) }}`."""
    return show(value, kind_of(name), _system(page, system), u=u)


@pass_context
def figure_both(page: Context, value: float | None, name: str, system: System | None = None) -> str:
    """A figure in the page's system and in the other, by its name."""
    return both(value, kind_of(name), _system(page, system))


@pass_context
def exactly(page: Context, value: float | None, name: str, system: System | None = None) -> str:
    """Text that a box reads back to the same figure, by its name."""
    return exact(value, kind_of(name), _system(page, system))


@pass_context
def _plus_minus(page: Context, value: float | None, u: float | None, kind: Kind, system: System | None = None) -> str:
    return plus_minus(value, u, kind, _system(page, system))


@pass_context
def _both(page: Context, value: float | None, kind: Kind, system: System | None = None) -> str:
    return both(value, kind, _system(page, system))


def _shows(kind: Kind) -> Callable[..., str]:
    """A filter for one kind of quantity: `{{ sheet.rise_m | length }}` or `length(u=sheet.u_rise_m)`."""

    @pass_context
    def shown(page: Context, value: float | None, system: System | None = None, u: float | None = None) -> str:
        return show(value, kind, _system(page, system), u=u)

    return shown


_length_of_figure = _shows("length")


@pass_context
def length(page: Context, value: Any, system: System | None = None, u: float | None = None) -> str | int:
    """A size; of a list its length still, as templates and their libraries expect of this name."""
    if isinstance(value, Sized):
        return len(value)
    return _length_of_figure(page, value, system, u)


FILTERS: dict[str, Callable[..., Any]] = {
    "length": length,
    "angle": _shows("angle"),
    "taper": _shows("taper"),
    "power": _shows("power"),
    "rotation": _shows("rotation"),
    "speed": _shows("speed"),
    "mass": _shows("mass"),
    "ratio": _shows("number"),
    "whole": _shows("count"),
    "temperature": _shows("temperature"),
    "duration": _shows("duration"),
    "volume": _shows("volume"),
    "area": _shows("area"),
    "plus_minus": _plus_minus,
    "both": _both,
    "figure": figure,
    "figure_both": figure_both,
    "exactly": exactly,
    "quantity": kind_of,
    "hand": hand,
    "day": day,
    "clock": clock,
    "ago": ago,
}


def register(app: "Flask") -> None:
    """Let the app's templates use them."""
    app.jinja_env.filters.update(FILTERS)
