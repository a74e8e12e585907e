"""The page beside the boat: what is to be done now, on which blade, how long is left, what comes next."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import UTC, datetime
from typing import Any

from yardapp.coating.services import PotLeft, Story, pots_left
from yardapp.coating.showing.alarms import alarms
from yardapp.coating.showing.buttons import Button, acts_of, buttons_of, further
from yardapp.coating.showing.sheet import hazards_of
from yardapp.coating.showing.words import words_of
from yardapp.coating.standing import Next, Standing, UnitStanding
from yardapp.coating.system import System
from yardapp.coating.turns import TOUCH
from yardapp.filters import clock, day
from yardapp.quantities import show

STATES = {"stirring": "being stirred", "standing": "stands", "ready": "ready", "past": "past", "unknown": "not known"}
WEATHER = {"go": "Go", "wait": "Wait", "unknown": "Weather not known"}
TURNED = ("missed", "unknown")  # these ask for something that the clock does not
AT_HAND = ("running", "test", "open")  # these may be tapped at once, though something else comes first
PHASES = {
    "to do": "to do",
    "running": "being coated",
    "waiting": "leave it",
    "test": "touch it",
    "open": "coat it",
    "missed": "window missed",
    "unknown": "can't be told",
    "curing": "curing",
    "cured": "cured",
}


@dataclass(frozen=True, kw_only=True)
class Clock:
    """A count down to a moment."""

    left_s: int
    said: str
    label: str
    over: str


@dataclass(frozen=True, kw_only=True)
class Row:
    """One blade or piece in the list."""

    key: str
    label: str
    phase: str
    said: str
    times: str
    coats: str
    clock: Clock | None
    buttons: Sequence[Button]
    more: Sequence[tuple[str, Sequence[Button]]]
    faults: Sequence[tuple[str, str]] = ()


@dataclass(frozen=True, kw_only=True)
class Shown:
    """Everything of the page that changes."""

    seen: str
    kind: str
    act: str
    on: str
    said: str
    clock: Clock | None
    buttons: Sequence[Button]
    then: str
    rows: Sequence[Row]
    alarms: Sequence[tuple[float, str]]
    warnings: Sequence[str] = ()
    weather: str = ""
    weather_why: Sequence[str] = ()
    water: str = ""
    last: str = ""
    last_button: Button | None = None
    pots: Sequence[str] = field(default_factory=tuple)
    hours: str = ""


def moment(at_s: float | None) -> datetime | None:
    """Seconds since the epoch as a moment."""
    return None if at_s is None else datetime.fromtimestamp(at_s, UTC)


def at_clock(at_s: float | None) -> str:
    """14:32, in the yard's own time."""
    return clock(moment(at_s))


def seen_of(version: int, standing: Standing) -> str:
    """What a phone has seen: the version, and until when it holds by itself."""
    return f"{version}.{standing.changes_at_s:.0f}" if standing.changes_at_s is not None else f"{version}."


def is_fresh(seen: str, version: int, now_s: float) -> bool:
    """Whether nothing has changed since: no act, and no moment that changes something by itself."""
    was, _, until = seen.partition(".")
    return was == str(version) and (not until or (until.isdigit() and now_s < int(until)))


def counted(to_s: float, now_s: float, label: str, over: str) -> Clock:
    """A clock that runs to a moment."""
    left_s = round(to_s - now_s)
    minutes, seconds = divmod(abs(left_s), 60)
    hours, minutes = divmod(minutes, 60)
    said = f"{hours}:{minutes:02}:{seconds:02}" if hours else f"{minutes}:{seconds:02}"
    return Clock(left_s=left_s, said=said, label=label, over=over)


def shown(story: Story, standing: Standing) -> Shown:
    """The job as it stands, in words and buttons."""
    first = standing.now
    return Shown(
        seen=seen_of(story.job.version, standing),
        kind=first.act if first else "",
        act=_headline(first) if first else _over(standing),
        on=first.label if first else "",
        said=first.said if first else "",
        clock=_headline_clock(first, standing.now_s),
        buttons=buttons_of(first, story, standing),
        then=_then(standing.then, standing.now_s),
        rows=[_row(story, unit, standing.now_s, first.unit if first else "") for unit in standing.units],
        alarms=sorted(alarms(standing)),
        warnings=standing.warnings,
        weather=_weather(standing),
        weather_why=standing.gate.why,
        water=_water(standing),
        pots=[_pot(left, standing.now_s) for left in pots_left(story, standing)],
        hours=_hours(standing),
        **_last(story),
    )


def _over(standing: Standing) -> str:
    if standing.cured:
        return "Cured"
    return "Hands off" if standing.immersion_s is not None or standing.finish_s is not None else "Nothing to do now"


def _headline(first: Next) -> str:
    """What to do, without the blade's name: that stands under it, larger."""
    return "Touch it with a gloved finger" if first.act == TOUCH else first.name


def _headline_clock(first: Next | None, now_s: float) -> Clock | None:
    """Time until it may begin, else time that is left for it."""
    if first is None:
        return None
    if first.from_s > now_s:
        return counted(first.from_s, now_s, "until then", "it may begin")
    if first.by_s is None:
        return None
    return counted(first.by_s, now_s, "left" if first.act != "done" else "as planned", "over its time")


def _then(then: Next | None, now_s: float) -> str:
    if then is None:
        return ""
    what = f"{then.label}: {_headline(then)}" if then.label else then.name
    return f"{what}, from {_when(then.from_s, now_s)}" if then.from_s > now_s else what


def _when(at_s: float, now_s: float) -> str:
    """14:32, and the day where it is not today."""
    at, today = moment(at_s), moment(now_s)
    return clock(at) if day(at) == day(today) else f"{clock(at)} on {day(at)}"


def _row(story: Story, unit: UnitStanding, now_s: float, headline: str) -> Row:
    at_hand = unit.phase in AT_HAND and unit.key != headline
    return Row(
        key=unit.key,
        label=unit.label,
        phase=PHASES[unit.phase],
        said=f"{unit.name}: {unit.said}" if unit.said and unit.name else unit.said or unit.name,
        times=_times(unit),
        coats=", ".join(coat.name for coat in story.run.unit(unit.key).coats(story.system)),
        clock=_unit_clock(unit, now_s),
        buttons=acts_of(story, unit) if at_hand or unit.phase in TURNED else [],
        more=further(story, unit),
        faults=[(fault.said, fault.remedy) for fault in unit.faults if not fault.remedied],
    )


def _times(unit: UnitStanding) -> str:
    parts = (
        f"test from {at_clock(unit.test_s)}" if unit.test_s is not None and unit.opens_s is None else "",
        f"opens {at_clock(unit.opens_s)}" if unit.opens_s is not None else "",
        f"shuts {at_clock(unit.shuts_s)}" if unit.shuts_s is not None else "",
    )
    return ", ".join(part for part in parts if part)


def _unit_clock(unit: UnitStanding, now_s: float) -> Clock | None:
    """Its own clock, from its own coat."""
    for to_s, label, over in (
        (unit.test_s if unit.phase == "waiting" else None, "till the touch test", "touch it now"),
        (unit.opens_s if unit.phase == "waiting" else None, "till it opens", "it is open"),
        (unit.due_s if unit.phase == "running" else None, "for this coat", "longer than planned"),
        (unit.shuts_s if unit.phase not in ("curing", "cured", "running") else None, "left of its window", "over it"),
    ):
        if to_s is not None:
            return counted(to_s, now_s, label, over)
    return None


def _weather(standing: Standing) -> str:
    gate = standing.gate
    dew = f", dew point {show(gate.dew_c, 'temperature')}" if gate.dew_c is not None else ""
    margin = f", metal {gate.margin_c:.1f} degrees above it" if gate.margin_c is not None else ""
    return f"{WEATHER[gate.verdict]}{dew}{margin}"


def _water(standing: Standing) -> str:
    late = ": later than the planned launch" if standing.launch_ok is False else ""
    if standing.immersion_s is not None:
        at = moment(standing.immersion_s)
        return f"Not before {clock(at)} on {day(at)}{late}"
    if standing.likely_immersion_s is not None:
        at = moment(standing.likely_immersion_s)
        return f"Likely from {clock(at)} on {day(at)}{late}"
    return standing.immersion_why


def _pot(left: PotLeft, now_s: float) -> str:
    pot = left.pot
    batch = f", batch {pot.batch}" if pot.batch else ""
    if pot.state == "ready" and pot.good_until_s is not None:
        good = show(pot.good_until_s - now_s, "duration")
        return f"{pot.product}{batch}: {good} left of its pot life{_covers(left)}"
    until = f" until {at_clock(pot.from_s)}" if pot.state == "standing" else ""
    return f"{pot.product}{batch}: {pot.said or STATES[pot.state]}{until}{_covers(left)}"


def _covers(left: PotLeft) -> str:
    """What a rest would still cover, by its volume and in its time."""
    rest = left.covers
    if rest is None or left.pot.state == "past":
        return ""
    by_time = f", {show(rest.by_time_m2, 'area')} in its time" if rest.by_time_m2 is not None else ""
    return f"; about {show(rest.volume_m3, 'volume')} unused, enough for {show(rest.by_volume_m2, 'area')}{by_time}"


def _hours(standing: Standing) -> str:
    """The hours that what comes is reckoned by, and who is there all the same."""
    hours, until_s = standing.hours.hours, standing.hours.until_s
    if hours is None:
        return ""
    stays = f". Somebody is there now: reckoned on until {at_clock(until_s)}" if until_s > standing.now_s else ""
    return f"{hours.said}{stays}"


def _last(story: Story) -> Mapping[str, Any]:
    """The act that was told last, and the button that takes it back."""
    acts = {act.id: act for act in story.standing_acts}
    if not acts or not story.job.is_open:
        return {}
    last = acts[max(acts)]
    words = words_of(story, last)
    said = f"{words}, {clock(last.at)}, {last.said_by}"
    undo = Button(value=f"undo|{last.id}", label="Undo", words=f"Undo: {words}")
    return {"last": said, "last_button": undo}


def cautions_of(system: System) -> list[str]:
    """What the sheet warns of, each once."""
    return hazards_of(system) or ["Gloves that the data sheet names, eyes covered, air moving."]
