"""Two coaters and a caller who do what the page beside the boat says, at the times that it says."""

from collections.abc import Iterator
from contextlib import contextmanager
from datetime import UTC, datetime, timedelta
from typing import Any

from yardapp.coating import services as coating
from yardapp.coating.standing import Next, standing
from yardapp.db import Clock
from yardapp.example.yard import Yard

MOST_ACTS = 200
FORGOTTEN_S = 1500
FINE = {"air_c": 19.0, "metal_c": 18.0, "relative_humidity": 0.62}
POT_ML = {"Bronze primer": 120, "Clear coat": 100}


@contextmanager
def the_clock_at(moment: datetime) -> Iterator[None]:
    """What happened then is entered as it was then."""
    before = Clock.tells
    Clock.tells = staticmethod(lambda: moment)
    try:
        yield
    finally:
        Clock.tells = staticmethod(before)


def coat(
    yard: Yard, who: str, job_id: int, begun: datetime, *, until: datetime | None = None, late: str = ""
) -> datetime:
    """Run a job from a moment on, to its last coat or `until`; the blade `late` is forgotten when its touch is due.

    The moment of the last act.
    """
    at = begun
    for _ in range(MOST_ACTS):
        story = coating.story_of(yard.session, yard.who(who), job_id)
        there = standing(story.run, at.timestamp())
        if there.now is None or not there.waits:
            break
        then = max(at + timedelta(seconds=20), _moment_of(story, there.now, at, late))
        if until is not None and then > until:
            break
        at = then
        with the_clock_at(at):
            coating.act(yard.session, yard.who(who), job_id, _tap(story, there.now))
    return at


def _moment_of(story: coating.Story, coming: Next, at: datetime, late: str) -> datetime:
    """When it is done: as soon as it may be, a coat when its time is over, what was forgotten when its window is."""
    due_s = coming.from_s
    if coming.act == "done" and coming.by_s is not None:
        due_s = coming.by_s
    elif _is_before_the_coats(story, coming):
        works_s = sum(unit.work_s for unit in story.units) * story.system.steps[coming.step or 0].work_ratio
        due_s = at.timestamp() + works_s / story.job.people
    elif coming.act == "test" and coming.unit == late and coming.by_s is not None:
        due_s = coming.by_s + FORGOTTEN_S
    return datetime.fromtimestamp(due_s, UTC)


def _is_before_the_coats(story: coating.Story, coming: Next) -> bool:
    """What goes before the coats is tapped once, when it is done on all of them."""
    return coming.act == "started" and coming.step is not None and not story.system.steps[coming.step].is_coat


def _tap(story: coating.Story, coming: Next) -> coating.Tap:
    kind, figures = coming.act, dict[str, Any]()
    if _is_before_the_coats(story, coming):
        return coating.Tap(kind="done", step=coming.step)
    if kind == "weather":
        figures = dict(FINE)
    elif kind == "mixed":
        amount_ml = POT_ML[coming.product]
        figures = {"product": coming.product, "volume_m3": amount_ml * 1e-6, "volume_m3_typed": f"{amount_ml} ml"}
    elif kind == "stirring":
        figures = {"product": coming.product}
    elif kind == "test":
        kind = "tacky"
    return coating.Tap(kind=kind, unit=coming.unit, step=coming.step, figures=figures)
