"""What the page says aloud: a window about to shut, a pot about to die, weather to be read, a launch too soon."""

from collections.abc import Iterator, Sequence

from yardapp.coating.ops import Op
from yardapp.coating.phases import OPEN, TEST, WAITING
from yardapp.coating.pots import PotStanding
from yardapp.coating.running import Run
from yardapp.coating.turns import SOON_S, Places
from yardapp.coating.weather import Gate


def launch_ok(run: Run, likely_s: float | None) -> bool | None:
    """Whether it will be cured by the launch; None where no launch is set, or nobody can tell."""
    if run.job.launch_s is None or likely_s is None:
        return None
    return likely_s <= run.job.launch_s


def warnings(
    run: Run,
    places: Places,
    ops: Sequence[Op],
    pots: Sequence[PotStanding],
    judged: Gate,
    likely_s: float | None,
    now_s: float,
) -> Iterator[str]:
    """What should be heard across the yard, the most pressing first."""
    for unit, window, phase in places:
        left_s = (window.shuts_s or 0.0) - now_s
        if phase in (OPEN, TEST, WAITING) and window.shuts_s is not None and left_s <= SOON_S:
            yield f"{unit.label}: {_minutes(left_s)} left for {run.job.system.steps[unit.next or 0].name}."
    for op in ops:
        if not op.met and op.shuts_s is not None and op.shuts_s > now_s:
            late_s = op.start_s - op.shuts_s
            yield f"With {run.people} coating, {op.name} on {op.label} would come {_minutes(late_s)} too late."
    for pot in pots:
        if not _is_wanted(run, pot.product, ops):
            continue
        if pot.state == "ready" and pot.good_until_s is not None and pot.good_until_s - now_s <= SOON_S:
            yield f"{pot.product} is good for {_minutes(pot.good_until_s - now_s)} more."
        elif pot.state == "past":
            yield f"{pot.product}: {pot.said}"
    if ops and judged.verdict == "go" and judged.due_s is not None and judged.due_s - now_s <= SOON_S:
        yield f"Read the weather: the last reading grows too old in {_minutes(judged.due_s - now_s)}."
    if launch_ok(run, likely_s) is False:
        yield "It will not be cured by the launch that is planned."


def _is_wanted(run: Run, product: str, ops: Sequence[Op]) -> bool:
    return any(run.job.system.steps[op.step].product == product for op in ops)


def _minutes(duration_s: float) -> str:
    minutes = max(1, round(duration_s / 60))
    return f"{minutes} min" if minutes < 120 else f"{round(minutes / 60)} h"
