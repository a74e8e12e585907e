"""When the yard works: the stretches of a day in which somebody coats, stirs or touches; a cure runs on by itself."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta
from functools import lru_cache
from typing import Any

from yardapp.errors import Refused

HAIR_S = 1e-6
DAYS = 30  # further than anybody plans a coat
SATURDAY = 5


@dataclass(frozen=True, kw_only=True)
class Hours:
    """Start and end of the day and its breaks, on the yard's own clock; Saturday and Sunday only where it is said."""

    begins: time
    ends: time
    breaks: tuple[tuple[time, time], ...] = ()
    weekends: bool = False

    def first_fit_s(self, at_s: float, work_s: float, *, stirring_s: float = 0.0, lead_s: float = 0.0) -> float | None:
        """The soonest start from a moment on at which the work lies within one stretch; None: it fits into none.

        `lead_s`: how long before it its product is begun to be stirred, for `stirring_s`, within a stretch too.
        """
        start_s = self._placed_s(at_s, work_s)
        while start_s is not None and lead_s:
            stir_s = self._placed_s(start_s - lead_s, stirring_s)
            if stir_s is None or stir_s + lead_s <= start_s + HAIR_S:
                return start_s if stir_s is not None else None
            start_s = self._placed_s(stir_s + lead_s, work_s)
        return start_s

    def _placed_s(self, at_s: float, work_s: float) -> float | None:
        for begins_s, ends_s in self.stretches(at_s):
            start_s = max(at_s, begins_s)
            if start_s + work_s <= ends_s + HAIR_S:
                return start_s
        return None

    def stretches(self, at_s: float) -> Iterator[tuple[float, float]]:
        """Every stretch that is not over at a moment, from its day on."""
        first = datetime.fromtimestamp(at_s).astimezone().date()
        for number in range(DAYS):
            for begins_s, ends_s in _of_day(self, first + timedelta(days=number)):
                if ends_s > at_s:
                    yield begins_s, ends_s

    def holds(self, from_s: float, to_s: float) -> bool:
        """Whether a span lies within one stretch."""
        return self._placed_s(from_s, to_s - from_s) == from_s

    @property
    def said(self) -> str:
        """08:00 to 17:00, breaks 12:00 to 12:30, no weekends."""
        breaks = ", ".join(f"{begins:%H:%M} to {ends:%H:%M}" for begins, ends in self.breaks)
        days = "weekends too" if self.weekends else "no weekends"
        return ", ".join(
            part
            for part in (f"{self.begins:%H:%M} to {self.ends:%H:%M}", f"break {breaks}" if breaks else "", days)
            if part
        )


@lru_cache(maxsize=2048)
def _of_day(hours: Hours, day: date) -> tuple[tuple[float, float], ...]:
    if day.weekday() >= SATURDAY and not hours.weekends:
        return ()
    edges = [hours.begins, *(edge for one in hours.breaks for edge in one), hours.ends]
    moments = [datetime.combine(day, edge).astimezone().timestamp() for edge in edges]
    return tuple((begins, ends) for begins, ends in zip(moments[::2], moments[1::2], strict=True) if begins < ends)


def hours_of(
    begins: time | None, ends: time | None, breaks: Sequence[tuple[time | None, time | None]] = (), *, weekends: bool
) -> Hours | None:
    """Working hours from what was said; None: nobody said any.

    Raises
    ------
    Refused
        The day ends before it begins, or a break lies outside it or over another.
    """
    if begins is None and ends is None:
        return None
    if begins is None or ends is None or begins >= ends:
        raise Refused("The day ends after it begins: say both, as 08:00 and 17:00.", "day_ends")
    kept = sorted((one, two) for one, two in breaks if one is not None and two is not None)
    for (one, two), next_one in zip(kept, [*(begun for begun, _ in kept[1:]), ends], strict=True):
        if not begins <= one < two <= next_one:
            raise Refused("A break begins and ends within the day, after the one before.", "break_ends")
    return Hours(begins=begins, ends=ends, breaks=tuple(kept), weekends=weekends)


def to_json(hours: Hours | None) -> dict[str, Any] | None:
    """In plain values, for a column."""
    if hours is None:
        return None
    breaks = [[f"{begins:%H:%M}", f"{ends:%H:%M}"] for begins, ends in hours.breaks]
    begins, ends = f"{hours.begins:%H:%M}", f"{hours.ends:%H:%M}"
    return {"begins": begins, "ends": ends, "breaks": breaks, "weekends": hours.weekends}


def from_json(said: Mapping[str, Any] | None) -> Hours | None:
    """And back."""
    if not said:
        return None
    breaks = tuple((time.fromisoformat(begins), time.fromisoformat(ends)) for begins, ends in said["breaks"])
    begins, ends = time.fromisoformat(said["begins"]), time.fromisoformat(said["ends"])
    return Hours(begins=begins, ends=ends, breaks=breaks, weekends=bool(said["weekends"]))
