"""In what state it is: faults still open, how old its measurements are, its coating."""

from dataclasses import replace

from yardapp.fit.checks.case import Case
from yardapp.fit.checks.check import AFTER_WORK, CANNOT_TELL, GOES_ON, MEND, Check, Compared, Need
from yardapp.fit.checks.groups import CONDITION
from yardapp.fit.checks.readings_of_boat import AGE, FAULTS
from yardapp.fit.checks.words import listed

SOURCE = "A propeller is looked over before it goes on (common practice)."
AGE_SOURCE = "Edges wear and blades get bent: how old a measurement may be is a yard setting, no source."
LOOK = Need(
    figure=FAULTS,
    says="Look it over: tips, edges, roots for cracks, dezincified metal, the bore's seat; write down what is "
    "found, or that nothing is.",
)


def check_condition(case: Case) -> tuple[Check, ...]:
    """Faults and age; the coating only where something is known, for whether it goes on never hangs on it."""
    coated = (_coating(case),) if case.propeller.coating else ()
    return tuple(replace(check, group=CONDITION) for check in (_faults(case), _age(case), *coated))


def _faults(case: Case) -> Check:
    faults = case.propeller.open_faults
    if faults is None:
        says = "Whether it is sound is not known: nobody wrote down a look."
        return Check(name="faults", verdict=CANNOT_TELL, says=says, source=SOURCE, needs=(LOOK,), rests_on=(FAULTS,))
    row = Compared(label="Open faults", value=listed(list(faults)) or "none")
    check = Check(
        name="faults",
        verdict=GOES_ON,
        says="It was looked over and nothing is open.",
        source=SOURCE,
        compared=(row,),
        rests_on=(FAULTS,),
    )
    if watched := case.propeller.watched_faults:
        said = f" To be watched, and no bar to going on: {listed(list(watched))}."
        says = "It was looked over and nothing bars it." if not faults else check.says
        check = replace(check, says=says + said)
    if not faults:
        return check
    says = f"Still open: {listed(list(faults))}."
    remedy = f"Mend it first, and have it looked over again: {listed(list(faults))}."
    return replace(check, verdict=AFTER_WORK, says=says, remedy=remedy, work=MEND)


def _age(case: Case) -> Check:
    age = case.known(AGE)
    if age is None:
        return case.lacking("age", AGE_SOURCE, AGE)
    told = case.say("duration", age.n, None)
    check = Check(
        name="age",
        verdict=GOES_ON,
        says=f"Last measured {told} ago.",
        source=AGE_SOURCE,
        compared=case.compared(AGE),
        rests_on=(AGE,),
    )
    if age.n <= case.limits.most_age_s:
        return check
    says = f"{check.says} That is long: the yard wants it within {case.say('duration', case.limits.most_age_s, None)}."
    return replace(check, verdict=CANNOT_TELL, says=says, needs=case.needs(AGE))


def _coating(case: Case) -> Check:
    says = f"Coating: {case.propeller.coating}. Whether it goes on does not hang on that."
    return Check(
        name="coating",
        verdict=GOES_ON,
        says=says,
        source=SOURCE,
        compared=(Compared(label="Coating", value=case.propeller.coating),),
        rests_on=("propeller.coating",),
    )
