"""Does this propeller go on that drive: every check, the worst of them, and what work or reading comes next."""

from dataclasses import dataclass

from yardapp.fit.checks.bore import PARALLEL, PILOT, TAPER, check_parallel, check_pilot, check_unknown_kind, kind_of
from yardapp.fit.checks.case import Case
from yardapp.fit.checks.check import (
    AFTER_WORK,
    BADNESS,
    CANNOT_TELL,
    GOES_ON,
    NO,
    REBORE,
    WORKS,
    Check,
    Compared,
    Need,
    Sum,
)
from yardapp.fit.checks.hand import check_hand
from yardapp.fit.checks.hub_length import check_hub_length
from yardapp.fit.checks.keyway import check_depth, check_width
from yardapp.fit.checks.large_end import check_large_end, check_unsized_large_end
from yardapp.fit.checks.sums import measured
from yardapp.fit.checks.taper import check_taper, is_settled
from yardapp.fit.checks.tip_room import RULES, check_tip_room
from yardapp.fit.checks.words import Say, plain
from yardapp.fit.figures import DriveFigures, Figure, Limits, PropellerFigures

__all__ = [
    "AFTER_WORK",
    "BADNESS",
    "CANNOT_TELL",
    "GOES_ON",
    "NO",
    "RULES",
    "WORKS",
    "Check",
    "Compared",
    "DriveFigures",
    "Figure",
    "Limits",
    "Need",
    "PropellerFigures",
    "Sum",
    "Verdict",
    "judge",
    "plain",
]

DRY_FIT = "It goes on. Dry fit it without the key, blue it, and mark the shaft before it is fitted for good."
AT_THE_MARK = measured(0.0, 0.0)
NEW_PREMISES = "A new engine, gearbox, shaft or re-pitch ends this verdict."


@dataclass(frozen=True, kw_only=True)
class Verdict:
    """The worst of the checks, and the checks in the order in which the trade refuses."""

    verdict: str
    checks: tuple[Check, ...]
    lede: str

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
) -> Verdict:
    """Judge one propeller against one drive; an unknown never passes, and the wrong hand is offered no work.

    Raises
    ------
    ValueError
        `rule` is none of RULES.
    """
    if rule not in RULES:
        raise ValueError(f"rule must be one of {', '.join(RULES)}; {rule!r} is not.")
    case = Case(propeller=propeller, drive=drive, rule=rule, say=say, limits=limits or Limits())
    hand = case.doubted(check_hand(case))
    checks = (hand,) if hand.verdict == NO else (hand, *(case.doubted(check) for check in _after_hand(case)))
    worst = max((check.verdict for check in checks), key=BADNESS.index)
    return Verdict(verdict=worst, checks=checks, lede=_lede(worst, checks))


def _after_hand(case: Case) -> tuple[Check, ...]:
    kind = kind_of(case)
    keyways = tuple(check for check in (check_width(case), check_depth(case)) if check is not None)
    room = check_tip_room(case)
    if kind == TAPER:
        return (*_on_taper(case, keyways), room)
    if kind == PILOT:  # its keyway is still to be cut, and it will be bored to the mark
        return (check_pilot(case), check_hub_length(case, AT_THE_MARK), room)
    if kind == PARALLEL:
        return (check_parallel(case), *keyways, room)
    return (check_unknown_kind(case), *keyways, check_hub_length(case, None), room)


def _on_taper(case: Case, keyways: tuple[Check, ...]) -> tuple[Check, ...]:
    """The checks of the seat; where the hub can't sit, how far it would stand past the taper is left out."""
    taper = check_taper(case)
    if taper.verdict == NO:
        return (taper, *keyways)
    if taper.work == REBORE:
        return (taper, *keyways, check_hub_length(case, AT_THE_MARK))
    if not is_settled(taper):
        return (taper, check_unsized_large_end(case, taper), *keyways, check_hub_length(case, None))
    large_end = check_large_end(case)
    if large_end.verdict == NO:
        return (taper, large_end, *keyways)
    up = case.set_up[0] if case.set_up else None
    return (taper, large_end, *keyways, check_hub_length(case, AT_THE_MARK if large_end.work == REBORE else up))


def _lede(worst: str, checks: tuple[Check, ...]) -> str:
    """The worst check's own words; for work, all of it."""
    if worst == GOES_ON:
        return f"{DRY_FIT} {NEW_PREMISES}"
    found = [check for check in checks if check.verdict == worst]
    if worst == AFTER_WORK:
        return " ".join(dict.fromkeys(check.remedy for check in found if check.remedy))
    others = f" {len(found) - 1} more can't be told yet." if worst == CANNOT_TELL and len(found) > 1 else ""
    return f"{found[0].says}{others}"
