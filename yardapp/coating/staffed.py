"""From when a coat can be begun: within the yard's hours, or after them for as long as somebody is there."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property
from itertools import islice

from yardapp.coating.hours import Hours
from yardapp.coating.running import Run
from yardapp.coating.scheduling import Task
from yardapp.coating.system import Product

STAYS_S = 3600.0  # common practice, no source: who has just tapped is still there an hour later
AHEAD = 100  # stretches of work that are looked up at once; a start beyond them is still found, only slower


@dataclass(frozen=True)
class Staffed:
    """Hours that were planned, and until when somebody is known to be at the boat whatever they say."""

    hours: Hours | None
    from_s: float
    until_s: float

    def start_s(self, at_s: float, task: Task, product: Product | None) -> float:
        """The soonest start from a moment on. What is put off to another stretch has its product stirred anew there.

        Work that fits into no stretch is not put off: it has to be done at some hour.
        """
        if self.hours is None or self.is_staffed(at_s, at_s + task.work_s):
            return at_s
        stirring_s = product.stirring_s if product else 0.0
        lead_s = stirring_s + product.induction_s if product else 0.0
        found_s = self.hours.first_fit_s(at_s, task.work_s, stirring_s=stirring_s, lead_s=lead_s)
        return at_s if found_s is None else found_s

    def is_staffed(self, begins_s: float, ends_s: float) -> bool:
        """Whether a span lies within a stretch of work, or begins while somebody is there."""
        if self.hours is None or begins_s <= self.until_s:
            return True
        return any(begun_s <= begins_s and ends_s <= ended_s for begun_s, ended_s in self._stretches)

    @cached_property
    def _stretches(self) -> tuple[tuple[float, float], ...]:
        return () if self.hours is None else tuple(islice(self.hours.stretches(self.from_s), AHEAD))

    def edges_s(self) -> Iterator[float]:
        """The moments at which it turns by itself."""
        if self.hours is not None:
            yield self.until_s
            yield from (edge for stretch in self._stretches[:2] for edge in stretch)


def staffed(run: Run, now_s: float) -> Staffed:
    """A job's hours; who tapped outside them is there, and stays for a while."""
    hours, last_s = run.job.hours, run.last_s
    is_late = hours is not None and last_s is not None and not hours.holds(last_s, last_s)
    return Staffed(hours, now_s, last_s + STAYS_S if is_late and last_s is not None else float("-inf"))
