"""What a letter says: to the propeller shop, what is to be done; to the owner, whether it goes on and why."""

from dataclasses import dataclass

from yardapp.fit.figures import Figure, PropellerFigures
from yardapp.fit.verdict import AFTER_WORK, CANNOT_TELL, GOES_ON, NO, Check, Verdict

# What a shop with a lathe and a pitch block does; the rest is fitted where the shaft is.
SHOP_WORKS = ("lap", "open the keyway", "mend", "bore and key", "re-bore", "re-pitch", "cut down", "bush and re-bore")
CLASSES = ("S", "I", "II", "III")
PLAIN = {
    GOES_ON: "It goes on as it is.",
    AFTER_WORK: "It goes on, after work.",
    NO: "It does not go on.",
    CANNOT_TELL: "It can't be told yet.",
}


@dataclass(frozen=True, kw_only=True)
class Task:
    """One piece of work for the shop, in the judge's own words."""

    work: str
    says: str


def tasks(verdict: Verdict) -> list[Task]:
    """What the shop is asked to do, cheapest first; nothing on what does not go on or can't be told."""
    if verdict.verdict != AFTER_WORK:
        return []
    asked = [check for check in verdict.checks if check.verdict == AFTER_WORK and check.work in SHOP_WORKS]
    return [Task(work=str(check.work), says=str(check.remedy)) for check in sorted(asked, key=_by_cost)]


def _by_cost(check: Check) -> int:
    return SHOP_WORKS.index(str(check.work))


def at_the_yard(verdict: Verdict) -> list[str]:
    """The work that is not the shop's, so that it knows what comes after it."""
    asked = [check for check in verdict.checks if check.verdict == AFTER_WORK and check.work not in SHOP_WORKS]
    return [str(check.remedy) for check in asked if check.remedy]


def why_no_letter(verdict: Verdict) -> str:
    """Why there is nothing to ask of a shop; empty where there is."""
    if verdict.verdict == AFTER_WORK and tasks(verdict):
        return ""
    return {
        GOES_ON: "It goes on as it is: there is nothing for a shop to do.",
        AFTER_WORK: "What it needs is done at the yard: there is nothing for a shop to do.",
        NO: "It does not go on: no work is asked for on it.",
        CANNOT_TELL: "It can't be told yet: settle what is open before any metal is cut.",
    }[verdict.verdict]


def plainly(verdict: Verdict) -> str:
    """The answer as one says it to an owner."""
    return PLAIN[verdict.verdict]


def weighed(verdict: Verdict) -> list[tuple[str, str, str]]:
    """Each check as an owner reads it: its name, its answer, and why, the sums left to the yard's own page."""
    return [(check.name.capitalize(), check.verdict, _why(check)) for check in verdict.checks]


def _why(check: Check) -> str:
    todo = f" {check.remedy}" if check.remedy and check.verdict in (AFTER_WORK, NO) else ""
    needs = "" if check.verdict != CANNOT_TELL else "".join(f" To settle it: {need.says}" for need in check.needs[:2])
    return f"{check.says}{todo}{needs}"


def pitch_wanted(propeller: PropellerFigures, verdict: Verdict) -> Figure | None:
    """The pitch that would be right for this engine and hull, where the judge found one to re-pitch to."""
    found = verdict.loading
    is_asked = any(check.work == "re-pitch" and check.verdict == AFTER_WORK for check in verdict.checks)
    if not is_asked or found is None or found.right_pitch_m is None:
        return None
    return Figure(value=found.right_pitch_m, basis="worked out")
