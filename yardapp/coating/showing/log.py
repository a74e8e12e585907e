"""The log of a job: every act, what went against the sheet, what was planned."""

from collections.abc import Callable, Sequence
from datetime import UTC, datetime
from typing import Any

from yardapp.coating.hours import from_json
from yardapp.coating.live_bars import live_bars
from yardapp.coating.services import Story
from yardapp.coating.showing.words import words_of
from yardapp.drawings.timeline import timeline
from yardapp.fields import QuantityField
from yardapp.filters import clock, day
from yardapp.quantities import show

TICKS = 5


def rows(story: Story, href: Callable[[int], str | None]) -> list[dict[str, Any]]:
    """Every row, newest first; what was put right is struck through."""
    standing = {act.id for act in story.standing_acts}
    return [_row(story, act, act.id in standing, href) for act in reversed(story.acts)]


def _row(story: Story, act: Any, is_standing: bool, href: Callable[[int], str | None]) -> dict[str, Any]:
    late = f"sent late, told at {when(act.noted)}" if act.is_late else ""
    why = f"in place of an earlier row: {act.why}" if act.why else ""
    return {
        "when": when(act.at),
        "who": ", ".join(part for part in (act.said_by, act.device) if part),
        "what": words_of(story, act) if act.kind != "undo" else "Taken back",
        "note": "; ".join(part for part in (act.note, late, why) if part),
        "href": href(act.id) if is_standing else None,
        "replaced": not is_standing and act.kind != "undo",
    }


def when(moment: datetime) -> str:
    """14 Oct 2026, 14:32:05."""
    return f"{day(moment)}, {clock(moment)}:{moment.astimezone():%S}"


def faults(story: Story) -> list[tuple[str, str, str]]:
    """What went against the sheet: on what, what, and the sheet's own remedy."""
    units = {unit.key: unit.label for unit in story.units}
    return [
        (
            f"{units.get(fault.unit, '')}, {story.system.steps[fault.step].name}",
            fault.said + (" Put right." if fault.remedied else ""),
            "" if fault.remedied else fault.remedy,
        )
        for fault in story.run.faults
    ]


def drawing(story: Story, now_s: float) -> Any:
    """Each blade against time as it went, the windows that are open to it and those that were missed."""
    bars = live_bars(story.run, now_s)
    ends = [end for row in bars for bar in row.bars for end in (bar.start_s, bar.end_s)]
    if not ends:
        return None
    step = (max(ends) - min(ends)) / (TICKS - 1)
    moments = [min(ends) + step * one for one in range(TICKS)]
    ticks = [(at_s, clock(datetime.fromtimestamp(at_s, UTC))) for at_s in moments]
    is_on = story.job.is_open and now_s < max(ends) + step
    return timeline(bars, now_s=now_s if is_on else None, now_label="now" if is_on else "", ticks=ticks, key="live")


def photos(story: Story) -> list[tuple[str, str]]:
    """Each photo that stands, and what it shows."""
    return [
        (str(act.figures["photo"]), f"{words_of(story, act)}, {when(act.at)}{': ' + act.note if act.note else ''}")
        for act in story.standing_acts
        if act.figures.get("photo")
    ]


def planned(job: Any) -> list[tuple[str, str]]:
    """What the job was planned as."""
    return [
        ("People", str(job.people)),
        ("By", job.way),
        ("One coat on one blade", show(job.blade_s, "duration")),
        ("Metal, as expected", show(job.metal_c, "temperature")),
        ("Begins", f"{day(job.starts)}, {clock(job.starts)}" if job.starts else "not said"),
        ("Working hours", hours.said if (hours := from_json(job.hours)) else "any hour"),
        ("Launch", f"{day(job.launches)}, {clock(job.launches)}" if job.launches else "not said"),
    ]


def figures_of(form: Any, names: Sequence[str]) -> dict[str, Any] | None:
    """The figures of a corrected act, as acts keep them; None where it has none."""
    said: dict[str, Any] = {}
    for name in names:
        if form[name].data not in (None, ""):
            said[name] = form[name].data
            if isinstance(form[name], QuantityField):
                said[f"{name}_typed"] = form[name].typed
    return said if names else None
