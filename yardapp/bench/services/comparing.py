"""Two sheets of one thing side by side: how far apart, and whether within their ±."""

from dataclasses import dataclass
from math import hypot, isclose
from typing import Any

from sqlalchemy.orm import Session

from yardapp.bench.blades import MEAN, SAME_MARK
from yardapp.bench.models import Sheet
from yardapp.bench.rows import row_name
from yardapp.bench.services.sheets import SheetRow, sheets_by_id
from yardapp.bench.sums import Outcome
from yardapp.bench.tools import K
from yardapp.errors import NotFound, Refused
from yardapp.gear import services as gear
from yardapp.people.services import Who

ROUNDING = 1e-9


@dataclass(frozen=True, kw_only=True)
class Difference:
    """One figure of both sheets. `agrees` None: neither says how well it was read."""

    what: str
    first: float
    u_first: float | None
    second: float
    u_second: float | None
    apart: float
    allowed: float
    agrees: bool | None


@dataclass(frozen=True, kw_only=True)
class Comparison:
    """Two sheets of one thing by one method; the answer's difference first."""

    item: gear.Item
    first: SheetRow
    second: SheetRow
    differences: tuple[Difference, ...]
    is_one_age: bool
    is_one_person: bool
    is_one_place: bool = True


def compare_sheets(session: Session, who: Who, first_id: int, second_id: int) -> Comparison:
    """Hold a second sheet against a first.

    Raises
    ------
    NotFound
        There is no such sheet, or this person may not know of it.
    Refused
        It is one sheet twice, or the two are of different things or by different methods.
    """
    if first_id == second_id:
        raise Refused("That is one sheet twice.", "second")
    found = sheets_by_id(session, who, (first_id, second_id))
    if len(found) < 2:
        raise NotFound("There is no such sheet here.")
    (first, item), (second, other) = found[first_id], found[second_id]
    if item.id != other.id or first.sheet.method != second.sheet.method:
        raise Refused("The two sheets are not of one thing by one method.", "second")
    return Comparison(
        item=item,
        first=first,
        second=second,
        differences=tuple(differences(*(Outcome.from_kept(row.sheet.results) for row in (first, second)))),
        is_one_age=(first.work_since, first.worked_at) == (second.work_since, second.worked_at),
        is_one_person=first.sheet.said_by == second.sheet.said_by,
        is_one_place=_place(first.sheet) == _place(second.sheet) and _at_one_mark(first.sheet, second.sheet),
    )


def _place(sheet: Sheet) -> tuple[Any, ...]:
    """Which blade or bearing a sheet is of, where its method reads one at a time: only the same one can repeat."""
    return tuple(sheet.readings.get(name) for name in ("blade", "bearing"))


def _at_one_mark(first: Sheet, second: Sheet) -> bool:
    one, other = (sheet.readings.get("radius_m") for sheet in (first, second))
    return one is None or other is None or isclose(one, other, rel_tol=SAME_MARK)


def differences(first: Outcome, second: Outcome) -> list[Difference]:
    """Every figure that both sheets came to, the answer first."""
    others = _figures(second)
    rows = [_difference(what, *figure, *others[what]) for what, figure in _figures(first).items() if what in others]
    return sorted(rows, key=lambda row: row.what != first.answer)


def _figures(outcome: Outcome) -> dict[str, tuple[float, float | None]]:
    """Each figure by name with its ±; of a survey also each blade's pitch."""
    blades = outcome.more.get("survey", {}).get("blade", ())
    pitches = {row_name("pitch_m", number): (one[0], one[1]) for number, one in enumerate(blades, 1) if one}
    return {one.what: one.figure for one in outcome.sums if one.what != MEAN} | pitches


def _difference(what: str, first: float, u_first: float | None, second: float, u_second: float | None) -> Difference:
    apart, allowed = second - first, K * hypot(u_first or 0.0, u_second or 0.0)
    is_known = u_first is not None or u_second is not None
    return Difference(
        what=what,
        first=first,
        u_first=u_first,
        second=second,
        u_second=u_second,
        apart=apart,
        allowed=allowed,
        agrees=abs(apart) <= allowed + ROUNDING * abs(first) if is_known else None,
    )
