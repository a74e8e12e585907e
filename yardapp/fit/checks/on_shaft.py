"""The checks of the seat itself, by the kind of bore, and where the hub comes to stand."""

from typing import NamedTuple

from uncertainties import UFloat

from yardapp.fit.checks.bore import PARALLEL, PILOT, TAPER, check_parallel, check_pilot, check_unknown_kind, kind_of
from yardapp.fit.checks.case import Case
from yardapp.fit.checks.check import NO, REBORE, Check
from yardapp.fit.checks.hub_length import check_hub_length
from yardapp.fit.checks.keyway import check_depth, check_width
from yardapp.fit.checks.large_end import check_large_end, check_unsized_large_end
from yardapp.fit.checks.sums import measured
from yardapp.fit.checks.taper import check_taper, is_settled

AT_THE_MARK = measured(0.0, 0.0)


class Seated(NamedTuple):
    """The checks, and how far the hub passes the taper's large end; None where that is not known."""

    checks: tuple[Check, ...]
    up: UFloat | None


def on_shaft(case: Case) -> Seated:
    """Bore, taper, key and hub length, as far as each means something for this bore."""
    kind = kind_of(case)
    keyways = tuple(check for check in (check_width(case), check_depth(case)) if check is not None)
    if kind == TAPER:
        return _on_taper(case, keyways)
    if kind == PILOT:  # its keyway is still to be cut, and it will be bored to the mark
        return Seated((check_pilot(case), check_hub_length(case, AT_THE_MARK)), AT_THE_MARK)
    if kind == PARALLEL:
        return Seated((check_parallel(case), *keyways), None)
    return Seated((check_unknown_kind(case), *keyways, check_hub_length(case, None)), None)


def _on_taper(case: Case, keyways: tuple[Check, ...]) -> Seated:
    """Where the hub can't sit, how far it would stand past the taper is left out."""
    taper = check_taper(case)
    if taper.verdict == NO:
        return Seated((taper, *keyways), None)
    if taper.work == REBORE:
        return Seated((taper, *keyways, check_hub_length(case, AT_THE_MARK)), AT_THE_MARK)
    if not is_settled(taper):
        unsized = check_unsized_large_end(case, taper)
        return Seated((taper, unsized, *keyways, check_hub_length(case, None)), None)
    large_end = check_large_end(case)
    if large_end.verdict == NO:
        return Seated((taper, large_end, *keyways), None)
    up = AT_THE_MARK if large_end.work == REBORE else (case.set_up[0] if case.set_up else None)
    return Seated((taper, large_end, *keyways, check_hub_length(case, up)), up)
