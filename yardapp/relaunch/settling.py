"""What of a sheet is settled, by what and by whom, and what is still open. No database, no clock here."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Protocol

from yardapp.relaunch.lines import FOLLOW_UP, PARTS, Line

YES, NO, ASK, OPEN = "yes", "no", "ask", "open"
WORST_FIRST = {NO: 0, ASK: 1, OPEN: 2, YES: 3}
ANSWERS = frozenset({"answered", "scanned"})


class Act(Protocol):
    """What is asked of a row of acts."""

    id: int
    kind: str
    line: str
    drive_id: int | None
    answer: str
    tag: str
    hand: str | None
    figure: float | None
    figure_typed: str
    photo_sha256: str
    note: str
    release: str
    at: datetime
    said_by: str
    takes_back_id: int | None


@dataclass(frozen=True, kw_only=True)
class Place:
    """A drive that lines are asked of, as it is told apart from the boat's others; None: the boat as a whole."""

    drive_id: int | None = None
    label: str = ""


@dataclass(frozen=True, kw_only=True)
class Found:
    """What the register itself says about a line: yes, no, or that it cannot tell; and where that stands."""

    line: str
    drive_id: int | None
    verdict: str
    said: str
    by: str = ""
    at: datetime | None = None
    room: str = ""
    ref: str = ""


@dataclass(frozen=True, kw_only=True)
class LineNow:
    """One line as it stands: `verdict` is yes, no, ask (cannot tell) or open; only yes settles it."""

    line: Line
    place: Place
    verdict: str
    said: str
    by: tuple[str, ...] = ()
    at: datetime | None = None
    has: str = ""
    acts: tuple[Act, ...] = ()
    found: tuple[Found, ...] = ()
    due: datetime | None = None
    late: datetime | None = None

    @property
    def is_settled(self) -> bool:
        """Whether nothing more is asked."""
        return self.verdict == YES

    @property
    def is_in_the_way(self) -> bool:
        """Whether it keeps her from being released."""
        return self.line.is_stop and not self.is_settled

    @property
    def key(self) -> tuple[str, int | None]:
        """Which line of which drive."""
        return self.line.key, self.place.drive_id

    @property
    def title(self) -> str:
        """The line, and of which drive."""
        return f"{self.place.label.capitalize()}: {self.line.words}" if self.place.label else self.line.words


@dataclass(frozen=True, kw_only=True)
class _Settled:
    verdict: str
    said: str
    by: tuple[str, ...] = ()
    at: datetime | None = None


def standing(acts: Iterable[Act]) -> list[Act]:
    """The acts that no later one has taken back, oldest first."""
    acts = sorted(acts, key=lambda act: act.id)
    gone = {act.takes_back_id for act in acts if act.takes_back_id is not None}
    return [act for act in acts if act.id not in gone and act.takes_back_id is None]


def released(acts: Iterable[Act]) -> dict[str, Act]:
    """The release that stands, by name."""
    return {act.release: act for act in standing(acts) if act.kind in ("released", "overridden")}


def sheet_of(
    lines: Sequence[Line], places: Sequence[Place], acts: Sequence[Act], found: Sequence[Found]
) -> tuple[LineNow, ...]:
    """Every line of every drive, in the order of the list."""
    told = standing(acts)
    let_go = released(acts)
    return tuple(
        _line_now(line, place, told, found, let_go)
        for part in PARTS
        for line in lines
        if line.part == part
        for place in (places if line.is_each else (Place(),))
    )


def _line_now(
    line: Line, place: Place, told: Sequence[Act], found: Sequence[Found], let_go: Mapping[str, Act]
) -> LineNow:
    key = (line.key, place.drive_id)
    acts = [act for act in told if (act.line, act.drive_id) == key]
    known = tuple(one for one in found if (one.line, one.drive_id) == key)
    settled = _settled(line, [act for act in acts if act.kind in ANSWERS], known)
    due, late = _due(line, let_go)
    return LineNow(
        line=line,
        place=place,
        verdict=settled.verdict,
        said=settled.said,
        by=settled.by,
        at=settled.at,
        has=next((act.note for act in reversed(acts) if act.kind == "given"), line.signer),
        acts=tuple(acts),
        found=known,
        due=due,
        late=late,
    )


def _settled(line: Line, answers: Sequence[Act], found: Sequence[Found]) -> _Settled:
    """What the register says no to, nobody can sign away; what it cannot tell, a person who looked can."""
    against = next((one for one in found if one.verdict == NO), None)
    if against is not None:
        return _from(against)
    last = answers[-1] if answers else None
    if last is not None and last.answer in (NO, ASK):
        return _Settled(verdict=last.answer, said=_told(last), by=(last.said_by,), at=last.at)
    signed = _signed(answers)
    shown = next((one for one in found if one.verdict == YES), None)
    doubt = next((one for one in found if one.verdict == ASK), None)
    if doubt is not None and not signed:
        return _from(doubt)
    return _counted(line, signed, shown)


def _from(found: Found) -> _Settled:
    return _Settled(verdict=found.verdict, said=found.said, by=_names(found.by), at=found.at)


def _names(*names: str) -> tuple[str, ...]:
    return tuple(dict.fromkeys(name for name in names if name))


def _told(act: Act) -> str:
    """What somebody answered, as they put it."""
    scanned = f"{act.tag} scanned, {act.hand} hand seen" if act.tag else ""
    words = {YES: "", NO: "not in order", ASK: "cannot tell"}[act.answer or YES]
    return "; ".join(part for part in (words, scanned, act.figure_typed, act.note) if part)


def _signed(answers: Sequence[Act]) -> list[Act]:
    """The answers since the last one that was not yes."""
    signed: list[Act] = []
    for act in answers:
        signed = [*signed, act] if act.answer == YES else []
    return signed


def _counted(line: Line, signed: Sequence[Act], shown: Found | None) -> _Settled:
    """Whether as many people stand for it as the line asks; evidence stands for whoever made it."""
    names = _names(shown.by if shown and shown.by else "", *(act.said_by for act in signed))
    nameless = 1 if shown is not None and not shown.by else 0
    said = "; ".join(part for part in (shown.said if shown else "", *(_told(act) for act in signed)) if part)
    at = signed[-1].at if signed else shown.at if shown else None
    there = len(names) + nameless
    if there >= line.signs:
        return _Settled(verdict=YES, said=said, by=names, at=at)
    if there:
        return _Settled(verdict=OPEN, said=f"{said + '; ' if said else ''}a second person must look", by=names, at=at)
    return _Settled(verdict=OPEN, said="")


def _due(line: Line, let_go: Mapping[str, Act]) -> tuple[datetime | None, datetime | None]:
    """From when, and until when, a follow-up is due; nothing until the release that it counts from."""
    act = let_go.get(line.after)
    if line.part != FOLLOW_UP or act is None:
        return None, None
    return act.at + timedelta(hours=line.after_h), act.at + timedelta(hours=line.by_h)


def in_the_way(sheet: Iterable[LineNow], release: str) -> list[LineNow]:
    """What keeps her from this release, the worst first: its own stops, and a fault wherever it was found."""
    lines = [now for now in sheet if now.is_in_the_way and (now.line.part == release or now.line.by == "faults")]
    return sorted(lines, key=lambda now: WORST_FIRST[now.verdict])


def still_open(sheet: Iterable[LineNow], release: str) -> list[LineNow]:
    """Everything of this release that is not settled, what stops her first."""
    lines = [now for now in sheet if now.line.part == release and not now.is_settled]
    return sorted(lines, key=lambda now: (not now.line.is_stop, WORST_FIRST[now.verdict]))
