"""Pairs in stock, and two propellers put side by side."""

from typing import Any

from yardapp.api.bodies import pairs as bodies
from yardapp.api.door import Act, reads
from yardapp.api.views.fit import told_check
from yardapp.api.views.stock import judged
from yardapp.errors import NotFound, Refused
from yardapp.fit import services
from yardapp.fit.showing import say_in


@reads("/pairs", query=bodies.PairsAsked, reply=bodies.Pairs)
def pairs_in_stock(act: Act, asked: bodies.PairsAsked) -> bodies.Pairs:
    """Pairs of opposite hands in stock, the most alike first."""
    narrowed = services.Asked(
        place=asked.place,
        boat=asked.boat,
        is_aboard_too=asked.aboard == "yes",
        is_for_sale=asked.for_sale == "yes",
        first=asked.first,
    )
    say = say_in(act.who.units)
    try:
        found = services.pairs_in_stock(act.session, act.who, narrowed, drive_id=asked.drive, say=say)
    except NotFound as refusal:
        raise Refused(str(refusal), "drive") from None
    return bodies.Pairs(drive=found.drive, rows=[_row(row) for row in found.rows], further=found.further)


def _row(row: Any) -> bodies.PairRow:
    return bodies.PairRow(
        right=row.right,
        left=row.left,
        diameter_m=row.diameter_m,
        pitch_m=row.pitch_m,
        blades=row.blades,
        where=list(row.where),
        **judged(row.verdict),
    )


@reads("/pairs/{right}/{left}", reply=bodies.PairVerdict)
def pair(act: Act, right: str, left: str) -> bodies.PairVerdict:
    """Whether these two are a pair for the two shafts of one boat."""
    one, other, verdict = services.pair(act.session, act.who, right, left, say=say_in(act.who.units))
    return bodies.PairVerdict(
        right=one,
        left=other,
        verdict=verdict.verdict,  # type: ignore[arg-type]
        lede=verdict.lede,
        checks=[told_check(check) for check in verdict.checks],
        works=list(verdict.works),
    )
