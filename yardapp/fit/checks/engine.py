"""What the propeller does to the engine in this boat: too much, too little, or right, and what would mend it."""

from dataclasses import replace

from yardapp.fit.checks.case import Case
from yardapp.fit.checks.check import CANNOT_TELL, GOES_ON, Check, Need
from yardapp.fit.checks.engine_remedies import overloaded, underloaded
from yardapp.fit.checks.engine_words import balance_compared, balance_says, balance_sums
from yardapp.fit.checks.groups import ENGINE
from yardapp.fit.checks.readings import BLADES, DIAMETER, READINGS
from yardapp.fit.checks.readings_of_boat import AREA, PITCH, WHAT_KIND
from yardapp.fit.checks.sums import measured
from yardapp.fit.checks.weighing import at_least, at_most
from yardapp.fit.loading import Lacking, Loading
from yardapp.fit.loading.loading import RUN

NAME = "engine load"
SOURCE = (
    "Balance of engine, hull and propeller: Wageningen B-series (Univ. of Michigan Report 237, 1981); within 100 rpm "
    "of the rating, laden, is usually accepted (S. D'Antonio, PassageMaker); re-pitching by 2 in (bronze, aluminium) "
    "or 1 in (stainless) is the trade's practice (one source, no standard)."
)
TOLERATED_RPS = 100 / 60
# A reading that makes up less of the spread than this is not worth taking again.
MUCH = 0.1


def check_engine(case: Case, found: Loading | Lacking) -> Check:
    """Engine at full throttle with this propeller against its rating."""
    if isinstance(found, Lacking):
        return Check(
            name=NAME,
            group=ENGINE,
            verdict=CANNOT_TELL,
            says=found.says,
            source=SOURCE,
            compared=case.compared(DIAMETER, PITCH),
            needs=found.needs,
            rests_on=(DIAMETER, PITCH, BLADES, WHAT_KIND),
        )
    check = Check(
        name=NAME,
        group=ENGINE,
        verdict=CANNOT_TELL,
        says=balance_says(case, found),
        source=f"{SOURCE} Hull: {found.premises.hull_method}, for {found.premises.hull_why}.",
        compared=balance_compared(found),
        sums=balance_sums(case, found),
        rests_on=(DIAMETER, PITCH, BLADES, WHAT_KIND, *_area_path(found), *found.premises.rests_on),
    )
    return _assumed_area(case, found, _weighed(case, check, found))


def _area_path(found: Loading) -> tuple[str, ...]:
    return () if found.is_area_assumed else (AREA,)


def _weighed(case: Case, check: Check, found: Loading) -> Check:
    ratio = measured(1 - found.propped_ratio.value, found.propped_ratio.u or 0.0)
    least = 1 - TOLERATED_RPS / found.rated_speed_rps
    is_held, is_free = at_least(ratio, least), at_most(ratio, 1 + case.limits.most_underload_ratio)
    if is_held is False:
        return overloaded(case, check, found)
    if is_free is False:
        return underloaded(case, check, found)
    if is_held and is_free:
        return replace(check, verdict=GOES_ON, says=f"{check.says} It suits the engine.")
    says = f"{check.says} Too close to call: the band is too wide."
    return replace(check, says=says, needs=(RUN, *_narrowing(case, found)))


def _narrowing(case: Case, found: Loading) -> tuple[Need, ...]:
    """The readings that make up most of the spread, widest first."""
    return case.needs(*(path for path, share in found.shares if share >= MUCH and path in READINGS))


def _assumed_area(case: Case, found: Loading, check: Check) -> Check:
    """Blades that nobody measured: the figures stand, with what was taken said, but they settle nothing."""
    if not found.is_area_assumed:
        return check
    taken = case.say("count", found.area_ratio, None)
    says = f"{check.says} The blade area ratio is not known: {taken} was taken, and its spread with it."
    needs = tuple(dict.fromkeys((*case.needs(AREA), *check.needs)))
    return replace(check, verdict=CANNOT_TELL, says=says, needs=needs)
