"""One blade or piece as the acts have left it: its coats, its window, its faults."""

from dataclasses import dataclass, field, replace

from yardapp.coating.faults import Fault
from yardapp.coating.system import System
from yardapp.coating.windows import Finger, Opening, Strict, opening


@dataclass(frozen=True, kw_only=True)
class Done:
    """One step that is done on this blade; `is_start_noted` False: its start was reckoned back from its end."""

    step: int
    name: str
    started_s: float
    done_s: float
    is_start_noted: bool = True
    who: str = ""
    batch: str = ""
    metal_c: float | None = None


@dataclass(frozen=True, kw_only=True)
class UnitRun:
    """Where one blade stands. `next`: the step that it waits for, None when its last coat is on.

    `is_free`: a remedy was done, so no window binds its next step.
    """

    key: str
    label: str
    work_s: float
    next: int | None
    started_s: float | None = None
    done: tuple[Done, ...] = ()
    undone: tuple[Done, ...] = ()
    finger: Finger | None = None
    strict: Strict = field(default_factory=Strict)
    is_free: bool = False
    skipped: tuple[int, ...] = ()
    faults: tuple[Fault, ...] = ()

    @property
    def last(self) -> Done | None:
        """The step done last."""
        return self.done[-1] if self.done else None

    @property
    def open_faults(self) -> tuple[Fault, ...]:
        """Faults whose remedy nobody has noted."""
        return tuple(fault for fault in self.faults if not fault.remedied)

    def coats(self, system: System) -> tuple[Done, ...]:
        """The coats that are on it."""
        return tuple(one for one in self.done if system.steps[one.step].is_coat)

    def opening(self, system: System) -> Opening:
        """The window that binds its next step; an empty one where none does."""
        if self.is_free or self.last is None or self.next is None or system.step_after(self.last.step) != self.next:
            return Opening()
        test = system.test_after(self.last.step)
        return opening(
            system.steps[self.last.step].window,
            self.strict,
            self.last.started_s,
            self.last.done_s,
            self.finger,
            test.again_s if test else 0.0,
        )

    def with_faults(self, *faults: Fault) -> "UnitRun":
        """The same with more faults."""
        return replace(self, faults=(*self.faults, *faults))
