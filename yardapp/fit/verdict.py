"""Does this propeller go on that drive: every check, the worst of them, and what work or reading comes next."""

from dataclasses import dataclass, replace

from yardapp.fit.checks.after_cut import after_cut
from yardapp.fit.checks.around import check_around
from yardapp.fit.checks.blades import check_area, check_tip_speed
from yardapp.fit.checks.bushing import bushed
from yardapp.fit.checks.case import Case
from yardapp.fit.checks.check import (
    AFTER_WORK,
    BADNESS,
    CANNOT_TELL,
    GOES_ON,
    NO,
    WORKS,
    Check,
    Compared,
    Need,
    Sum,
)
from yardapp.fit.checks.condition import check_condition
from yardapp.fit.checks.engine import check_engine
from yardapp.fit.checks.groups import (
    AROUND,
    BLADES,
    CONDITION,
    DETAILS,
    ENGINE,
    EVERYTHING,
    GEOMETRY,
    POWER,
    SEAT,
    SHAFT,
    STRENGTH,
    WATER,
    asked_by,
)
from yardapp.fit.checks.hand import check_hand
from yardapp.fit.checks.on_shaft import on_shaft
from yardapp.fit.checks.pair import judged_pair
from yardapp.fit.checks.seat import check_seat
from yardapp.fit.checks.strength import check_key, check_torsion, check_whirl, shaft_alloys
from yardapp.fit.checks.tip_room import RULES, check_tip_room
from yardapp.fit.checks.words import Say, plain
from yardapp.fit.figures import DriveFigures, Figure, Limits, PropellerFigures
from yardapp.fit.loading import Lacking, Loading, loading

__all__ = [
    "AFTER_WORK",
    "BADNESS",
    "CANNOT_TELL",
    "EVERYTHING",
    "GEOMETRY",
    "GOES_ON",
    "NO",
    "RULES",
    "WORKS",
    "Check",
    "Compared",
    "DriveFigures",
    "Figure",
    "Limits",
    "Loading",
    "Need",
    "Part",
    "PropellerFigures",
    "Sum",
    "Verdict",
    "asked_by",
    "judge",
    "judge_pair",
    "plain",
    "shaft_alloys",
]

DRY_FIT = "It goes on. Dry fit it without the key, blue it, and mark the shaft before it is fitted for good."
NEW_PREMISES = "A new engine, gearbox, shaft or re-pitch ends this verdict."
IN_PLACE = "On the shaft and in the water it goes on."


@dataclass(frozen=True, kw_only=True)
class Part:
    """The worst of one group's checks."""

    group: str
    verdict: str
    checks: tuple[str, ...]


@dataclass(frozen=True, kw_only=True)
class Verdict:
    """The worst of the checks, and the checks in the order in which the trade refuses."""

    verdict: str
    checks: tuple[Check, ...]
    lede: str
    parts: tuple[Part, ...] = ()
    loading: Loading | None = None

    def part(self, group: str) -> Part | None:
        """What was found of one group; None where it was not asked."""
        return next((part for part in self.parts if part.group == group), None)

    @property
    def geometry(self) -> str | None:
        """Does it go on the shaft and into the water; all else left aside."""
        return self._worst_of(GEOMETRY)

    @property
    def details(self) -> str | None:
        """Nuts, cutter, rudder, aperture, weight; None where nobody asked."""
        return self._worst_of(DETAILS)

    @property
    def engine(self) -> str | None:
        """Does it suit engine, hull and shaft; None where nobody asked."""
        return self._worst_of(POWER)

    @property
    def condition(self) -> str | None:
        """Is it in a state to go on; None where nobody asked."""
        return self._worst_of((CONDITION,))

    def _worst_of(self, groups: tuple[str, ...]) -> str | None:
        found = [part.verdict for part in self.parts if part.group in groups]
        return max(found, key=BADNESS.index, default=None)

    @property
    def needs(self) -> tuple[Need, ...]:
        """Every reading that would settle something, each once."""
        return tuple(dict.fromkeys(need for check in self.checks for need in check.needs))

    @property
    def works(self) -> tuple[str, ...]:
        """The work that the checks ask for, cheapest first; none that hangs on a reading still to come."""
        asked = {check.work for check in self.checks if check.verdict in (AFTER_WORK, NO)}
        return tuple(work for work in WORKS if work in asked)


def judge(
    propeller: PropellerFigures,
    drive: DriveFigures,
    *,
    rule: str = "15 %",
    say: Say = plain,
    limits: Limits | None = None,
    ask: tuple[str, ...] | None = None,
    skip: tuple[str, ...] = (),
) -> Verdict:
    """Judge one propeller against one drive; an unknown never passes, and the wrong hand is offered no work.

    `ask` names the groups to judge, of EVERYTHING; left out, the geometry and whatever figures of their own call for.
    `skip` names single checks that a list leaves to the pair's own page.

    Raises
    ------
    ValueError
        `rule` is none of RULES, or a group is none of EVERYTHING.
    """
    if rule not in RULES:
        raise ValueError(f"rule must be one of {', '.join(RULES)}; {rule!r} is not.")
    asked = asked_by(propeller, drive) if ask is None else ask
    if strange := set(asked) - set(EVERYTHING):
        raise ValueError(f"ask must be of {', '.join(EVERYTHING)}; {', '.join(sorted(strange))} is not.")
    case = Case(propeller=propeller, drive=drive, rule=rule, say=say, limits=limits or Limits())
    hand = case.doubted(replace(check_hand(case), group=WATER))
    if hand.verdict == NO:
        return _verdict((hand,), None)
    found = loading(propeller, drive, case.limits) if {ENGINE, BLADES} & set(asked) else None
    after = (check for check in _after_hand(case, asked, found) if check.name not in skip)
    checks = tuple(bushed(case, case.doubted(check)) for check in after)
    return _verdict((hand, *checks), found if isinstance(found, Loading) else None)


def judge_pair(one: PropellerFigures, other: PropellerFigures, *, say: Say = plain, pitch_class: str = "II") -> Verdict:
    """Judge two propellers for the two shafts of one boat: sizes alike within the class, hands opposite.

    Raises
    ------
    ValueError
        There is no such class of ISO 484-2.
    """
    return _verdict(judged_pair(one, other, say, pitch_class), None)


def _verdict(checks: tuple[Check, ...], found: Loading | None) -> Verdict:
    worst = _worst(checks)
    groups = dict.fromkeys(check.group for check in sorted(checks, key=lambda check: EVERYTHING.index(check.group)))
    parts = tuple(_part(group, checks) for group in groups)
    return Verdict(verdict=worst, checks=checks, lede=_lede(worst, checks), parts=parts, loading=found)


def _part(group: str, checks: tuple[Check, ...]) -> Part:
    own = tuple(check for check in checks if check.group == group)
    return Part(group=group, verdict=_worst(own), checks=tuple(check.name for check in own))


def _worst(checks: tuple[Check, ...]) -> str:
    return max((check.verdict for check in checks), key=BADNESS.index)


def _after_hand(case: Case, asked: tuple[str, ...], found: Loading | Lacking | None) -> tuple[Check, ...]:
    """In the order of refusal: bore, taper, key; room; condition; engine; cavitation; the shaft itself."""
    seated = on_shaft(case)
    power = found or Lacking(says="", needs=())
    return (
        *(seated.checks if SHAFT in asked else ()),
        *(check_seat(case, seated.up) if SEAT in asked else ()),
        *((replace(after_cut(case, check_tip_room(case), found), group=WATER),) if WATER in asked else ()),
        *(check_around(case, seated.up) if AROUND in asked else ()),
        *(check_condition(case) if CONDITION in asked else ()),
        *((check_engine(case, power),) if ENGINE in asked else ()),
        *((check_area(case, power), check_tip_speed(case, power)) if BLADES in asked else ()),
        *((check_torsion(case), check_whirl(case), check_key(case)) if STRENGTH in asked else ()),
    )


def _lede(worst: str, checks: tuple[Check, ...]) -> str:
    """The worst check's own words; for work, all of it."""
    if worst == GOES_ON:
        return f"{DRY_FIT} {NEW_PREMISES}"
    found = [check for check in checks if check.verdict == worst]
    if worst == AFTER_WORK:
        return " ".join(dict.fromkeys(check.remedy for check in found if check.remedy))
    others = f" {len(found) - 1} more can't be told yet." if worst == CANNOT_TELL and len(found) > 1 else ""
    return f"{_so_far(worst, checks)}{found[0].says}{others}"


def _so_far(worst: str, checks: tuple[Check, ...]) -> str:
    """Where all but the fit itself can't be told, the fit is told first."""
    place = tuple(check for check in checks if check.group in GEOMETRY)
    if worst != CANNOT_TELL or len(place) == len(checks) or _worst(place) != GOES_ON:
        return ""
    return f"{IN_PLACE} "
