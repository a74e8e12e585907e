"""One key in two keyways: snug at its sides, clear on top."""

from dataclasses import replace

from uncertainties import UFloat

from yardapp.fit.checks.case import Case
from yardapp.fit.checks.check import (
    AFTER_WORK,
    CANNOT_TELL,
    FIT_KEY,
    GOES_ON,
    OPEN_KEYWAY,
    SHOP,
    Check,
    Compared,
)
from yardapp.fit.checks.readings import HUB_KEY_DEPTH, HUB_KEY_WIDTH, SHAFT, SHAFT_KEY_DEPTH, SHAFT_KEY_WIDTH
from yardapp.fit.checks.sums import add_up, size
from yardapp.fit.checks.weighing import at_least, at_most
from yardapp.formulas.seat import clear_on_top, difference
from yardapp.formulas.shaft_keys import Key, key_for

WIDTH_SOURCE = "Key snug in both keyways (common practice). How far apart still counts as one width is a yard setting."
DEPTH_SOURCE = "Key clear on top (common practice). Key heights: SAE J755, ISO/R 773, where one of them fits the width."
# A key's top is eased with a file at the dry fit; more than this share of its height is another key.
EASED_SHARE = 0.1
# Of a key made to measure, at least this share of what stands in the shaft should stand in the hub (ISO/R 773: 0.6 up).
IN_HUB_SHARE = 0.5
ONE_KEY = "One key belongs to one hub and one shaft: keep it with them."


def check_width(case: Case) -> Check:
    """Width against width: one key, a keyway to open, a stepped key, or a keyway to cut."""
    paths = (HUB_KEY_WIDTH, SHAFT_KEY_WIDTH)
    if any(case.has_none(path) for path in paths):
        return _keyless(case)
    hub, shaft = (case.known(path) for path in paths)
    if hub is None or shaft is None:
        return case.lacking("keyway width", WIDTH_SOURCE, *paths)
    wider, workings = add_up("Hub's keyway less shaft's", difference, "length", hub_m=hub, shaft_m=shaft)
    check = Check(
        name="keyway width",
        verdict=GOES_ON,
        says=f"Keyway {case.tell(HUB_KEY_WIDTH)} in the hub, {case.tell(SHAFT_KEY_WIDTH)} in the shaft.",
        source=WIDTH_SOURCE,
        compared=case.compared(*paths),
        sums=(workings,),
        rests_on=paths,
    )
    is_one = at_most(size(wider), case.limits.key_fit_m)
    if is_one:
        return replace(check, says=f"{check.says} One key fits both. {ONE_KEY}")
    if is_one is None:
        says = f"{check.says} Too close to call: the key must be snug in both."
        return replace(check, verdict=CANNOT_TELL, says=says, needs=case.needs(*paths))
    return _of_two_widths(case, check, wider)


def _of_two_widths(case: Case, check: Check, wider: UFloat) -> Check:
    told = case.tell_length(wider)
    if wider.n < 0:
        says = f"{check.says} The hub's is {told} narrower."
        remedy = f"Open the hub's keyway to {case.tell_size(SHAFT_KEY_WIDTH)}."
        return replace(check, verdict=AFTER_WORK, says=says, remedy=remedy, work=OPEN_KEYWAY, caution=SHOP)
    says = f"{check.says} The hub's is {told} wider: a plain key would be loose in it."
    remedy = "Make a stepped key, one width in the shaft and the other in the hub."
    return replace(check, verdict=AFTER_WORK, says=says, remedy=remedy, work=FIT_KEY, caution=SHOP)


def _keyless(case: Case) -> Check:
    paths = (HUB_KEY_WIDTH, SHAFT_KEY_WIDTH)
    hub_has_none, shaft_has_none = (case.has_none(path) for path in paths)
    check = Check(
        name="keyway width",
        verdict=AFTER_WORK,
        says="The shaft has a keyway and the hub has none.",
        source=WIDTH_SOURCE,
        compared=case.compared(*paths),
        rests_on=paths,
        caution=SHOP,
    )
    if shaft_has_none:
        says = "Neither has a keyway." if hub_has_none else "The hub has a keyway and the shaft has none."
        says += " A keyless fit drives by its push-up alone, and only its maker's sheet says how far that is."
        return replace(check, verdict=CANNOT_TELL, says=says, needs=case.needs(SHAFT_KEY_WIDTH))
    if case.known(SHAFT_KEY_WIDTH) is None:
        return case.cannot_tell(
            "keyway width", "The hub has no keyway.", WIDTH_SOURCE, *paths, missing=(SHAFT_KEY_WIDTH,)
        )
    remedy = f"Cut a keyway of {case.tell_size(SHAFT_KEY_WIDTH)} in the hub."
    return replace(check, remedy=remedy, work=OPEN_KEYWAY)


def check_depth(case: Case) -> Check | None:
    """Room on top of the key; None where there is no keyway to measure."""
    if any(case.has_none(path) for path in (HUB_KEY_WIDTH, SHAFT_KEY_WIDTH)):
        return None
    paths = (HUB_KEY_DEPTH, SHAFT_KEY_DEPTH)
    hub, shaft = (case.known(path) for path in paths)
    if hub is None or shaft is None:
        return case.lacking("keyway depth", DEPTH_SOURCE, *paths)
    check = Check(
        name="keyway depth",
        verdict=GOES_ON,
        says=f"Keyway {case.tell(HUB_KEY_DEPTH)} deep in the hub, {case.tell(SHAFT_KEY_DEPTH)} in the shaft.",
        source=DEPTH_SOURCE,
        compared=case.compared(*paths),
        rests_on=(*paths, SHAFT, SHAFT_KEY_WIDTH),
    )
    key = _standard_key(case)
    return _made_key(case, check, hub, shaft) if key is None else _standard_fit(case, check, (hub, shaft), key)


def _standard_key(case: Case) -> Key | None:
    """The key that a standard gives this shaft, if the shaft's keyway is as wide as that."""
    diameter, width = case.known(SHAFT), case.known(SHAFT_KEY_WIDTH)
    if diameter is None or width is None:
        return None
    for standard in ("SAE J755", "ISO/R 773"):
        key = key_for(diameter.n, standard)
        if (
            key is not None
            and key.height_m > 0
            and at_most(size(width - key.width_m), case.limits.key_fit_m) is not False
        ):
            return key
    return None


def _standard_fit(case: Case, check: Check, depths: tuple[UFloat, UFloat], key: Key) -> Check:
    hub, shaft = depths
    clear, workings = add_up(
        f"Clear on top of the {key.standard} key",
        clear_on_top,
        "length",
        hub_depth_m=hub,
        shaft_depth_m=shaft,
        key_height_m=key.height_m,
    )
    height = case.say("length", key.height_m, None)
    compared = (
        *check.compared,
        Compared(label=f"Height of the {key.standard} key", value=key.height_m, u=0.0, kind="length"),
    )
    check = replace(check, compared=compared, sums=(workings,))
    fits = at_least(clear, -EASED_SHARE * key.height_m)
    if fits:
        says = f"{check.says} A {height} key ({key.standard}) goes in; ease its top until it is clear."
        return replace(check, says=says)
    if fits is None:
        says = f"{check.says} Whether a {height} key ({key.standard}) is clear on top is too close to call."
        return replace(check, verdict=CANNOT_TELL, says=says, needs=case.needs(HUB_KEY_DEPTH, SHAFT_KEY_DEPTH))
    says = f"{check.says} The hub would ride on a {height} key ({key.standard}): {case.tell_length(clear)} too high."
    remedy = "Deepen the hub's keyway, or make a lower key: never let the hub ride on it."
    return replace(check, verdict=AFTER_WORK, says=says, remedy=remedy, work=OPEN_KEYWAY, caution=SHOP)


def _made_key(case: Case, check: Check, hub: UFloat, shaft: UFloat) -> Check:
    """No standard's key: one is made, as high as both keyways let it."""
    both: Compared = Compared(label="Both together", value=hub.n + shaft.n, u=(hub + shaft).s, kind="length")
    check = replace(check, compared=(*check.compared, both))
    stands = at_least(hub - IN_HUB_SHARE * shaft, 0.0)
    if stands:
        height = case.say("length", hub.n + shaft.n, (hub + shaft).s)
        return replace(check, says=f"{check.says} Not a key of SAE J755 or ISO/R 773: make one lower than {height}.")
    if stands is None:
        says = f"{check.says} Whether a key would stand deep enough in the hub is too close to call."
        return replace(check, verdict=CANNOT_TELL, says=says, needs=case.needs(HUB_KEY_DEPTH, SHAFT_KEY_DEPTH))
    says = f"{check.says} A key would hardly stand in the hub."
    remedy = "Deepen the hub's keyway, and make the key to suit."
    return replace(check, verdict=AFTER_WORK, says=says, remedy=remedy, work=OPEN_KEYWAY, caution=SHOP)
