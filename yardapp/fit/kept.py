"""What a kept verdict rested on, then and now. A verdict lasts as long as its premises. No database here."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, fields
from math import isclose
from typing import Any

from yardapp.fit.checks.check import Check, Compared, Need, Sum
from yardapp.fit.checks.readings import READINGS
from yardapp.fit.checks.readings_of_boat import FAULTS
from yardapp.fit.figures import DriveFigures, Figure, PropellerFigures

SAME = 1e-9
# What changes with the calendar, or names the thing, is no premise.
UNCOUNTED = frozenset({"propeller.measured_age_s", "propeller.tag", "propeller.watched_faults"})
ENGINE = "drive.engine"
ORDER = (
    *(f"propeller.{one.name}" for one in fields(PropellerFigures)),
    *(f"drive.{one.name}" for one in fields(DriveFigures)),
    ENGINE,
)


@dataclass(frozen=True, kw_only=True)
class Premise:
    """One figure or word as it was judged, and as it stands now; None is "not known"."""

    path: str
    label: str
    kind: str
    then: Any
    now: Any
    is_changed: bool
    is_rested_on: bool


def put_down(propeller: PropellerFigures, drive: DriveFigures, *, engine: str = "") -> dict[str, Any]:
    """Every input of a verdict by its path, as JSON keeps it; what was not known is left out.

    The engine's name is no figure, but another one of the same figures ends a verdict too.
    """
    named = {f"propeller.{one.name}": getattr(propeller, one.name) for one in fields(propeller)}
    named |= {f"drive.{one.name}": getattr(drive, one.name) for one in fields(drive)}
    named[ENGINE] = engine
    return {path: _plain(value) for path, value in named.items() if value not in (None, (), "")}


def _plain(value: Any) -> Any:
    if isinstance(value, Figure):
        return {"value": value.value, "u": value.u, "basis": value.basis}
    if isinstance(value, tuple):
        return [_plain(one) for one in value]
    return value


def premises(then: Mapping[str, Any], now: Mapping[str, Any], rests_on: Iterable[str]) -> list[Premise]:
    """Every input that was known then or is known now, in the order of the figures."""
    rested = frozenset(rests_on)
    known = [path for path in ORDER if (path in then or path in now) and path not in UNCOUNTED]
    return [_premise(path, then.get(path), now.get(path), path in rested) for path in known]


def _premise(path: str, then: Any, now: Any, is_rested_on: bool) -> Premise:
    reading = READINGS.get(path)
    label = reading.label if reading else _named(path)
    kind = reading.kind if reading else "words"
    # A fault that was found since ends a verdict for which nobody had looked, too.
    changed = not _is_same(then, now, is_rested_on or (path == FAULTS and bool(now)))
    return Premise(path=path, label=label, kind=kind, then=then, now=now, is_changed=changed, is_rested_on=is_rested_on)


def _named(path: str) -> str:
    side, name = path.split(".")
    words = name.removesuffix("_m").replace("_", " ")
    return f"{words} of the {side}"


def _is_same(then: Any, now: Any, is_rested_on: bool) -> bool:
    """The same figure. Its ± and what it rests on count where the verdict did; so does what was learnt since."""
    if then is None or now is None:
        return then is now or (then is None and not is_rested_on)
    if not (isinstance(then, dict) and isinstance(now, dict)):
        return bool(then == now)
    if not _close(then["value"], now["value"]):
        return False
    return not is_rested_on or (then["basis"] == now["basis"] and _close(then["u"], now["u"]))


def _close(one: float | None, other: float | None) -> bool:
    if one is None or other is None:
        return one is other
    return isclose(one, other, rel_tol=SAME, abs_tol=1e-15)


def changed(found: Iterable[Premise]) -> list[Premise]:
    """Those that no longer stand: the verdict ended with the first of them."""
    return [one for one in found if one.is_changed]


def checks_of(kept: Iterable[Mapping[str, Any]]) -> tuple[Check, ...]:
    """The checks as they were kept; what this edition of the app has no name for is left aside."""
    return tuple(_check(one) for one in kept)


def _check(said: Mapping[str, Any]) -> Check:
    nested: dict[str, Any] = {
        "compared": _each(Compared, said.get("compared", ())),
        "needs": _each(Need, said.get("needs", ())),
        "sums": tuple(_sum(one) for one in said.get("sums", ())),
        "rests_on": tuple(said.get("rests_on", ())),
    }
    return Check(**{**_own(Check, said), **nested})


def _sum(said: Mapping[str, Any]) -> Sum:
    return Sum(**{**_own(Sum, said), "inputs": _each(Compared, said.get("inputs", ()))})


def _each(kind: Any, said: Iterable[Mapping[str, Any]]) -> tuple[Any, ...]:
    return tuple(kind(**_own(kind, one)) for one in said)


def _own(kind: Any, said: Mapping[str, Any]) -> dict[str, Any]:
    names = {one.name for one in fields(kind)}
    return {name: value for name, value in said.items() if name in names}
