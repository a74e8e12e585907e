"""The seat, of every pair at once: one taper or two, how far up the hub goes, and where its end comes to stand."""

from typing import NamedTuple

import numpy as np

from yardapp.fit.checks.case import SAME_TAPER
from yardapp.fit.checks.hub_length import FOUR_INCH_M, HALF_INCH_M, QUARTER_INCH_M
from yardapp.fit.checks.readings import (
    BORE_LENGTH,
    ENDS,
    HUB_LENGTH,
    HUB_SPACE,
    HUB_TAPER,
    LARGE,
    SHAFT,
    SHAFT_TAPER,
    SMALL,
    TAPER_LENGTH,
)
from yardapp.fit.checks.taper import NAMING_SHARE
from yardapp.fit.ranking.boring import BUSH, cleans_up, last_work, wall_after, wall_doubt
from yardapp.fit.ranking.case import (
    ASK,
    BITS,
    REFUSED,
    SURELY,
    SURELY_NOT,
    UNTOLD,
    WORK,
    YES,
    Pairs,
    at_least,
    at_most,
    root,
    told,
    verdict_of,
)
from yardapp.fit.ranking.columns import Array, Bits, Codes, Marks

LAP, REBORE, SPACER = (BITS[work] for work in ("lap", "re-bore", "fit a spacer"))


class Seat(NamedTuple):
    """A check before doubts: its verdict, its work, and where it rests on what settles nothing.

    Where it can't be told anyway, a doubt changes nothing and need not be marked.
    """

    code: Codes
    works: Bits
    doubt: Marks


def taper(pairs: Pairs) -> Seat:
    """Hub 1:N against shaft 1:M, and what two tapers ask for."""
    (hub, u_hub), by_ends = pairs.hub_taper, pairs.by_ends
    shaft, u_shaft = pairs.value(SHAFT_TAPER), pairs.u(SHAFT_TAPER)
    apart, u_apart = np.abs(hub - shaft), root(u_hub, u_shaft)
    is_two = at_most(apart, u_apart, SAME_TAPER) == SURELY_NOT
    is_one = at_most(apart - NAMING_SHARE * shaft, root(u_hub, u_shaft)) == SURELY
    doubt = pairs.doubt(SHAFT_TAPER) | np.where(by_ends, pairs.doubt(*ENDS), pairs.doubt(HUB_TAPER))
    of_two = _apart(pairs)
    is_untold = np.isnan(hub + shaft) | ends_contradict(pairs)
    code = np.select([is_untold, is_two, is_one], [ASK, of_two.code, YES], ASK).astype(np.int8)
    works = np.where(is_two & ~is_untold, of_two.works, 0)
    return Seat(code, works, doubt | (is_two & of_two.doubt))


def ends_contradict(pairs: Pairs) -> Marks:
    """Where the taper on record is not the one that the bore's ends give."""
    (worked, u_worked), read = pairs.taper_from_ends, pairs.value(HUB_TAPER)
    differ = at_most(np.abs(read - worked), root(pairs.u(HUB_TAPER), u_worked), SAME_TAPER) == SURELY_NOT
    return np.asarray(differ & pairs.known(HUB_TAPER) & pairs.is_from_ends)


def _apart(pairs: Pairs) -> Seat:
    """Two tapers for certain: lap it, re-bore it, or leave it."""
    hub, shaft = pairs.hub_taper[0], pairs.value(SHAFT_TAPER)
    has_bore = pairs.known(BORE_LENGTH)
    length = np.where(has_bore, pairs.value(BORE_LENGTH), pairs.value(HUB_LENGTH))
    u_length = np.where(has_bore, pairs.u(BORE_LENGTH), pairs.u(HUB_LENGTH))
    can_lap = at_most(np.abs((shaft - hub) * length), _u_gap(pairs, length, u_length), pairs.limits.lap_m)
    is_unsized = np.isnan(length) | (np.isnan(pairs.value(LARGE) + pairs.value(SHAFT)) & (can_lap == SURELY_NOT))
    cleans, wall = cleans_up(pairs, length, u_length), wall_after(pairs)
    is_refused = cleans == SURELY_NOT
    bored = verdict_of(np.where(is_refused, cleans, told(cleans, wall)), yes=WORK)
    unsized = np.where(hub < shaft, REFUSED, ASK)
    kinds = [is_unsized, can_lap == UNTOLD, can_lap == SURELY]
    code = np.select(kinds, [unsized, ASK, WORK], bored).astype(np.int8)
    left = np.where(is_refused, BUSH, np.where(bored == REFUSED, last_work(cleans, wall), REBORE))
    works = np.select(kinds, [np.where(unsized == REFUSED, BUSH, 0), 0, LAP], left)
    to_bore = ~(kinds[0] | kinds[1] | kinds[2])
    doubt = pairs.doubt(LARGE, SHAFT, SHAFT_TAPER) | (~is_refused & wall_doubt(pairs))
    return Seat(code, works, np.asarray(to_bore & doubt))


def _u_gap(pairs: Pairs, length: Array, u_length: Array) -> Array:
    """Standard uncertainty of the gap at the end that does not bear."""
    (hub, u_hub), slope = pairs.hub_taper, pairs.value(SHAFT_TAPER)
    along = length * pairs.u(SHAFT_TAPER)
    shared = root(along, slope * u_length, pairs.u(LARGE), pairs.u(SMALL))
    return np.where(pairs.by_ends, shared, root(along, length * u_hub, (slope - hub) * u_length))


def large_end(pairs: Pairs, is_settled: Marks) -> Seat:
    """How far up the shaft the hub goes, and whether it can stay there; untold until the tapers are one."""
    up, u_up, limits = pairs.set_up, pairs.u_set_up, pairs.limits
    length, share = pairs.value(BORE_LENGTH), limits.min_contact_share_ratio
    left = up + pairs.value(TAPER_LENGTH) - share * length
    has_enough = at_least(left, root(u_up, pairs.u(TAPER_LENGTH), share * pairs.u(BORE_LENGTH)))
    on_taper = at_most(up - (1 - share) * length, root(u_up, (1 - share) * pairs.u(BORE_LENGTH)))
    is_short = at_most(up, u_up) == SURELY
    gap = at_least(pairs.value(HUB_SPACE) - up, root(pairs.u(HUB_SPACE), u_up), limits.min_bearing_gap_m)
    clear = np.where(is_short, SURELY, gap)
    small = _too_short(pairs)
    kinds = [
        ~is_settled | np.isnan(up),
        (on_taper == SURELY_NOT) | (clear == SURELY_NOT),
        has_enough == SURELY_NOT,
        told(has_enough, on_taper, clear) == SURELY,
    ]
    code = np.select(kinds, [ASK, REFUSED, small.code, YES], ASK).astype(np.int8)
    works = np.select(kinds, [0, BUSH, small.works, 0], 0)
    doubt = pairs.doubt(LARGE, SHAFT, SHAFT_TAPER, BORE_LENGTH, TAPER_LENGTH)
    doubt = doubt | (~is_short & pairs.doubt(HUB_SPACE)) | (~kinds[1] & kinds[2] & small.doubt)
    return Seat(code, works, doubt)


def _too_short(pairs: Pairs) -> Seat:
    """The bore is too small: lap it, or re-bore it on its own taper."""
    short = pairs.value(SHAFT) - pairs.value(LARGE)
    can_lap = at_most(short, root(pairs.u(SHAFT), pairs.u(LARGE)), pairs.limits.lap_m) == SURELY
    wall = wall_after(pairs)
    bored = verdict_of(wall, yes=WORK)
    works = np.where(bored == REFUSED, last_work(np.zeros_like(wall), wall), REBORE)
    code = np.where(can_lap, WORK, bored).astype(np.int8)
    return Seat(code, np.where(can_lap, LAP, works), np.asarray(~can_lap & wall_doubt(pairs)))


def hub_length(pairs: Pairs, is_at_mark: Marks, is_placed: Marks) -> Seat:
    """Hub against taper: at the mark after boring, else where the set-up brings it; untold where it is not placed."""
    hub, along, shaft = (pairs.value(path) for path in (HUB_LENGTH, TAPER_LENGTH, SHAFT))
    up = np.where(is_at_mark, 0.0, pairs.set_up)
    slope = np.where(is_at_mark, np.inf, pairs.value(SHAFT_TAPER))
    own = root(pairs.u(HUB_LENGTH), pairs.u(TAPER_LENGTH), np.where(is_at_mark, 0.0, pairs.u_set_up_but_shaft))
    u_shaft, past = pairs.u(SHAFT), hub - along - up
    # The shaft's own error moves the hub by 1 / taper, and the limits below by their share of it.
    is_past = at_least(past, root(own, u_shaft / slope))
    most, most_spacer = pairs.limits.most_overhang_ratio, pairs.limits.most_spacer_ratio
    far = at_most(past - most * shaft, root(own, u_shaft * (1 / slope - most)))
    wanted = np.where(shaft <= FOUR_INCH_M, QUARTER_INCH_M, HALF_INCH_M)
    spaced = at_most(wanted - past - most_spacer * shaft, root(own, u_shaft * (1 / slope + most_spacer)))
    kinds = [~is_placed | np.isnan(past), is_past == SURELY_NOT, (is_past == SURELY) & (past != 0) & (far == SURELY)]
    code = np.select(kinds, [ASK, verdict_of(spaced, yes=WORK), YES], ASK).astype(np.int8)
    works = np.where(code == REFUSED, BITS["another propeller"], SPACER)
    return Seat(code, works, pairs.doubt(HUB_LENGTH, TAPER_LENGTH, SHAFT))
