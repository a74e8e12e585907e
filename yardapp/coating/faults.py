"""What went against the sheet, on which blade: four faults, each with the sheet's own remedy, and what nobody knows."""

from dataclasses import dataclass, replace

from yardapp.coating.system import PAST_POT_LIFE, TOO_EARLY, TOO_LATE, WRONG_WEATHER, System

FAULTS = (TOO_EARLY, TOO_LATE, WRONG_WEATHER, PAST_POT_LIFE)
NO_WEATHER, NO_MIX, NO_WINDOW = "weather unknown", "mix unknown", "window unknown"
UNKNOWNS = (NO_WEATHER, NO_MIX, NO_WINDOW)


@dataclass(frozen=True, kw_only=True)
class Fault:
    """One fault, or one thing that nobody can vouch for; `act` None: no tap did it, the clock did."""

    kind: str
    unit: str
    step: int
    at_s: float
    said: str
    remedy: str
    act: int | None = None
    remedied: bool = False

    @property
    def is_unknown(self) -> bool:
        """Whether it is not a fault but something that was not measured: not passed either."""
        return self.kind in UNKNOWNS

    def mended(self) -> "Fault":
        """The same, with its remedy done."""
        return replace(self, remedied=True)


def fault_of(
    system: System, kind: str, unit: str, step: int, at_s: float, said: str, *, asks: int | None = None, act: int | None
) -> Fault:
    """A fault with the remedy of the step whose window or coat it was (`asks`, else the step itself)."""
    remedy = system.remedy(step if asks is None else asks, kind)
    return Fault(kind=kind, unit=unit, step=step, at_s=at_s, said=said, remedy=remedy, act=act)
