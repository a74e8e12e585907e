"""What the engine would do after a cut-down that the tips ask for: cutting is offered only where that is right too."""

from dataclasses import replace

import numpy as np

from yardapp.fit.checks.case import Case
from yardapp.fit.checks.check import ANOTHER, CUT_DOWN, Check, Compared
from yardapp.fit.checks.readings_of_boat import PITCH
from yardapp.fit.loading import Lacking, Loading, free_meet, propped

LARGEST = "Largest diameter"


def after_cut(case: Case, check: Check, found: Loading | Lacking | None) -> Check:
    """The check of the room at the tips, with the engine's answer to the cut that it asks for."""
    sizes = [one.value for one in check.sums if one.label.startswith(LARGEST)]
    if check.work != CUT_DOWN or not sizes or not isinstance(found, Loading):
        return check
    ratio = _ratio(case, found, sizes[-1])
    if np.isnan(ratio):
        return replace(check, says=f"{check.says} What the engine would do so cut down lies outside these sums.")
    turns = ratio * found.rated_speed_rps
    share = case.say("ratio", abs(1 - ratio), None)
    says = (
        f"{check.says} Cut down for that, the engine would turn {case.say('rotation', turns, None)} at full throttle "
        f"without its governor, {share} {'under' if ratio < 1 else 'past'} its rating."
    )
    row = Compared(label="Engine after the cut-down, governor left aside", value=turns, kind="rotation")
    check = replace(check, says=says, compared=(*check.compared, row))
    if ratio <= 1 + case.limits.most_underload_ratio:
        return check
    remedy = (
        "Cutting it down would leave the engine without its load: somebody accepts the smaller gap and signs for it, or"
        " another propeller, chosen anew for the engine."
    )
    return replace(check, remedy=remedy, work=ANOTHER)


def _ratio(case: Case, found: Loading, diameter_m: float) -> float:
    """Free speed of the engine over its rated one, the pitch kept and the blades' area with the disc."""
    pitch = case.known(PITCH)
    if pitch is None:
        return float("nan")
    blades = float(case.propeller.blades or 0)
    met = free_meet(found.premises, [diameter_m], [float(pitch.n)], [found.area_ratio], [blades])
    return float(propped(found.premises, met)[0])
