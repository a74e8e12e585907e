"""A hundred thousand propellers against one drive, or as many drives against one propeller, judged in one go.

It repeats the checks of hand, bore, room and open faults in NumPy, one formula for one, so that a list can be ranked
before the judge himself looks at what is shown of it. A test holds it to the judge, check by check.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

import numpy as np

from yardapp.fit.checks.readings import (
    CLEARANCE,
    DIAMETER,
    DRIVE_HAND,
    HAND,
    KIND,
    SHAFT_TAPER,
    STAMPED_HAND,
)
from yardapp.fit.checks.tip_room import BANDS, RULES
from yardapp.fit.figures import Limits
from yardapp.fit.ranking import boring, bushing, keys, seat
from yardapp.fit.ranking.case import (
    ABSENT,
    ASK,
    BITS,
    REFUSED,
    SURELY,
    UNTOLD,
    WORK,
    YES,
    Pairs,
    at_least,
    at_most,
    root,
)
from yardapp.fit.ranking.columns import PARALLEL, PILOT, TAPER, UNKNOWN, Bits, Codes, Columns, Marks
from yardapp.fit.ranking.seat import LAP, REBORE, Seat
from yardapp.fit.ranking.tips import rule_doubt, share_asked

ANOTHER, BUSH, CUT_DOWN, MEND = (BITS[work] for work in ("another propeller", "bush and re-bore", "cut down", "mend"))
NAMES = (
    "hand",
    "bore",
    "taper",
    "large end",
    "pilot bore",
    "keyway width",
    "keyway depth",
    "hub length",
    "tip room",
    "faults",
)


@dataclass(frozen=True, kw_only=True)
class Prejudged:
    """Row by row: the worst check, each check (-1 where it does not apply), and the works as bits of `case.BITS`."""

    verdict: Codes
    checks: Mapping[str, Codes]
    works: Bits

    @property
    def gaps(self) -> Codes:
        """How many checks can't be told."""
        counted = np.stack([code == ASK for code in self.checks.values()]).sum(axis=0)
        return np.asarray(counted, np.int8)


def prejudge(propellers: Columns, drives: Columns, *, rule: str = "15 %", limits: Limits | None = None) -> Prejudged:
    """Judge every pair; one of the sides may be a single row.

    Raises
    ------
    ValueError
        `rule` is none of RULES.
    """
    if rule not in RULES:
        raise ValueError(f"rule must be one of {', '.join(RULES)}; {rule!r} is not.")
    pairs = Pairs(propellers, drives, limits or Limits())
    with np.errstate(invalid="ignore", divide="ignore", over="ignore"):
        checks, is_thin = dict(_checks(pairs, rule)), bushing.is_too_thin(pairs)
    is_refused = checks["hand"][0] == REFUSED
    worst = np.full(pairs.count, YES, np.int8)
    works: Bits = np.zeros(pairs.count, np.int64)
    told: dict[str, Codes] = {}
    for name in NAMES:
        code, asked = checks[name]
        shown = code if name == "hand" else np.where(is_refused, ABSENT, code)
        told[name] = np.broadcast_to(shown, pairs.count).astype(np.int8)
        worst = np.maximum(worst, told[name])
        is_asked = (told[name] == WORK) | (told[name] == REFUSED)
        works = works | np.where(is_asked, bushing.settled(asked, is_thin), 0)
    return Prejudged(verdict=worst, checks=told, works=works)


def _checks(pairs: Pairs, rule: str) -> Iterator[tuple[str, tuple[Codes, Bits]]]:
    """Each check with its doubts, and where it applies."""
    kind = _kind(pairs)
    tapered = kind == TAPER
    taper = seat.taper(pairs)
    is_rebored = taper.works == REBORE
    is_settled = (taper.code == YES) | (taper.works == LAP)
    end = seat.large_end(pairs, is_settled)
    to_mark = is_rebored | (end.works == REBORE)
    stands = tapered & (taper.code != REFUSED) & (is_rebored | ~is_settled | (end.code != REFUSED))
    is_placed = (kind == PILOT) | (tapered & (is_rebored | (is_settled & ~np.isnan(pairs.set_up))))
    end_of_hub = seat.hub_length(pairs, (kind == PILOT) | to_mark, is_placed)
    yield "hand", _doubted(_hand(pairs), None)
    yield "bore", _doubted(_bore(pairs, kind), (kind == PARALLEL) | (kind == UNKNOWN))
    yield "taper", _doubted(taper, tapered)
    yield "large end", _doubted(end, tapered & (taper.code != REFUSED) & ~is_rebored)
    yield "pilot bore", _doubted(Seat(*boring.pilot(pairs)), kind == PILOT)
    yield "keyway width", _doubted(keys.width(pairs), kind != PILOT)
    yield "keyway depth", _doubted(keys.depth(pairs), kind != PILOT)
    yield "hub length", _doubted(end_of_hub, stands | (kind == PILOT) | (kind == UNKNOWN))
    yield "tip room", _doubted(_tip_room(pairs, rule), None)
    yield "faults", (np.where(pairs.sides["propeller"].barred, WORK, ABSENT).astype(np.int8), np.asarray(MEND))


def _doubted(check: Seat, applies: Marks | None) -> tuple[Codes, Bits]:
    code = np.where(check.doubt & (check.code != ABSENT), ASK, check.code)
    return (code if applies is None else np.where(applies, code, ABSENT)).astype(np.int8), check.works


def _kind(pairs: Pairs) -> Codes:
    """The bore's kind as said; else a taper, if one was read."""
    said = pairs.sides["propeller"].bore_kind
    return np.where((said == UNKNOWN) & ~np.isnan(pairs.hub_taper[0]), TAPER, said).astype(np.int8)


def _hand(pairs: Pairs) -> Seat:
    seen, stamped = pairs.sides["propeller"].hand, pairs.sides["propeller"].hand_stamped
    wanted = pairs.sides["drive"].hand
    is_untold = (seen == UNKNOWN) | (wanted == UNKNOWN) | ((stamped != UNKNOWN) & (stamped != seen))
    code = np.select([is_untold, seen == wanted], [ASK, YES], REFUSED).astype(np.int8)
    return Seat(code, np.asarray(ANOTHER), pairs.doubt(HAND, STAMPED_HAND, DRIVE_HAND))


def _bore(pairs: Pairs, kind: Codes) -> Seat:
    """A parallel bore never goes on as it is; of an unknown one nothing can be told."""
    is_told = (kind == PARALLEL) & pairs.known(SHAFT_TAPER)
    as_pilot = boring.pilot(pairs)[0] == WORK
    works = np.where(as_pilot, boring.BORE, BUSH)
    return Seat(np.where(is_told, REFUSED, ASK).astype(np.int8), works, pairs.doubt(KIND))


def _tip_room(pairs: Pairs, rule: str) -> Seat:
    """The gap at the tips against the rule; under it, cut down or another."""
    diameter, room = pairs.value(DIAMETER), pairs.value(CLEARANCE)
    u_diameter, u_room = pairs.u(DIAMETER), pairs.u(CLEARANCE)
    share, u_share = share_asked(pairs, rule)
    strikes = at_most(room - diameter / 2, root(u_room, u_diameter / 2)) == SURELY
    keeps = at_least(room - (0.5 + share) * diameter, root(u_room, (0.5 + share) * u_diameter, u_share * diameter))
    is_below_all = room - diameter / 2 < min(BANDS.values()) * diameter
    too_much = diameter - room / (0.5 + share) > pairs.limits.most_cut_ratio * diameter
    is_another = is_below_all & too_much
    kinds = [np.isnan(room + diameter), strikes, np.isnan(share), keeps == SURELY, keeps == UNTOLD, is_another]
    code = np.select(np.broadcast_arrays(*kinds), [ASK, REFUSED, ASK, YES, ASK, REFUSED], WORK).astype(np.int8)
    doubt = pairs.doubt(DIAMETER, CLEARANCE) | (rule_doubt(pairs, rule) & ~strikes)
    return Seat(code, np.where(code == REFUSED, ANOTHER, CUT_DOWN), doubt)
