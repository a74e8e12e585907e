"""What would mend an engine's load, cheapest first: another pitch, another diameter, another propeller."""

from dataclasses import replace

from yardapp.fit.checks.case import Case
from yardapp.fit.checks.check import AFTER_WORK, ANOTHER, CANNOT_TELL, CUT_DOWN, NO, REPITCH, Check, Need
from yardapp.fit.checks.readings import DIAMETER
from yardapp.fit.checks.readings_of_boat import METAL, PITCH
from yardapp.fit.loading import Loading
from yardapp.fit.loading.loading import ALLOYS

ASK_METAL = Need(figure=METAL, says="Say what metal it is: how far it may be re-pitched hangs on it.")
LATER = "A re-pitch is a shop's work: measure every blade afterwards."
CHOSEN_ANEW = "Another propeller, chosen anew for the engine: the map of this drive shows which."


def overloaded(case: Case, check: Check, found: Loading) -> Check:
    """The engine is held below its rating."""
    check = replace(check, says=f"{check.says} It holds the engine down: that is what wrecks engines.")
    return _repitched(case, check, found) or _cut(case, check, found) or _another(check)


def underloaded(case: Case, check: Check, found: Loading) -> Check:
    """The engine runs free long before it gives its power."""
    check = replace(check, says=f"{check.says} It leaves power unused; it harms nothing but her speed.")
    return _repitched(case, check, found) or _another(check)


def _another(check: Check) -> Check:
    says = f"{check.says} Neither a re-pitch within the trade's practice nor a cut-down would mend that."
    return replace(check, verdict=NO, says=says, remedy=CHOSEN_ANEW, work=ANOTHER)


def _repitched(case: Case, check: Check, found: Loading) -> Check | None:
    """A re-pitch, where its alloy and the size of the change allow it; "cannot tell" where the metal is not known."""
    pitch = float(case.surely(PITCH).n)
    if found.right_pitch_m is None:
        return None
    right = round(found.right_pitch_m, 3)
    change = right - pitch
    told = f"{case.say('length', abs(change), None)} {'less' if change < 0 else 'more'}"
    if found.repitch_limit_m is None and case.propeller.material:
        return None  # no practice is known for this metal
    if found.repitch_limit_m is None:
        says = f"{check.says} {told} pitch would be right; whether its metal bears that is not known."
        return replace(check, verdict=CANNOT_TELL, says=says, needs=(ASK_METAL,))
    if abs(change) > found.repitch_limit_m:
        return None
    remedy = (
        f"Re-pitch it to {case.say('length', right, None)} ({told}): {case.propeller.material} is usually taken up to "
        f"{case.say('length', found.repitch_limit_m, None)}, better not above an inch."
    )
    return replace(
        check, verdict=AFTER_WORK, remedy=remedy, work=REPITCH, caution=LATER, rests_on=(*check.rests_on, METAL)
    )


def _cut(case: Case, check: Check, found: Loading) -> Check | None:
    diameter = float(case.surely(DIAMETER).n)
    right = None if found.right_diameter_m is None else round(found.right_diameter_m, 3)
    if right is None or right < (1 - case.limits.most_cut_ratio) * diameter:
        return None
    says = f"{check.says}{_why_not_pitch(case, found)}"
    remedy = (
        f"Cut it down to {case.say('length', right, None)} ({case.say('length', diameter - right, None)} less): the "
        "engine then comes to its rating by the same sums. A cut-down is a new choice: look at its blades again."
    )
    return replace(check, verdict=AFTER_WORK, says=says, remedy=remedy, work=CUT_DOWN)


def _why_not_pitch(case: Case, found: Loading) -> str:
    if found.right_pitch_m is None or case.propeller.material is None:
        return ""
    change = case.say("length", abs(found.right_pitch_m - float(case.surely(PITCH).n)), None)
    if case.propeller.material.strip().lower() not in ALLOYS:
        return f" No practice is known for re-pitching {case.propeller.material}."
    limit = case.say("length", found.repitch_limit_m or 0.0, None)
    return f" The pitch is out by {change}: {case.propeller.material} is re-pitched by {limit} at most."
