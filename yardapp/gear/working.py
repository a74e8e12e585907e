"""The rule for the working figure, and for when two statements contradict. No database here."""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Protocol

RANK = {"measured": 0, "stamped": 1, "decoded": 1, "paper": 2, "guessed": 3}
K = 2  # the ± that people see, and the reach within which two readings agree


class Statement(Protocol):
    """What the rule asks of a row of evidence."""

    id: int
    what: str
    value: float | None
    u_value: float | None
    word: str | None
    basis: str
    true_from: datetime | None
    at: datetime
    replaces_id: int | None


@dataclass(frozen=True)
class Disagreement:
    """Two statements about one figure that can't both be true; `is_sure` is False when neither has a ±."""

    what: str
    working_id: int
    other_id: int
    is_sure: bool


def still_said(rows: Iterable[Statement]) -> list[Statement]:
    """The statements that no later one has replaced; a replacement with neither value nor word withdraws."""
    rows = list(rows)
    replaced = {row.replaces_id for row in rows if row.replaces_id is not None}
    return [row for row in rows if row.id not in replaced and not (row.value is None and row.word is None)]


def speaking(rows: Iterable[Statement], changed: datetime | None) -> list[Statement]:
    """The statements that speak of the thing as it is since it was last changed.

    A stamp, and a paper without a date, speak from when the thing was made (`true_from` is None); work done since
    silences them. A reading at the very moment of the work is of the work's outcome, and speaks.
    """
    rows = still_said(rows)
    if changed is None:
        return rows
    return [row for row in rows if row.true_from is not None and row.true_from >= changed]


def working(rows: Iterable[Statement], changed: datetime | None = None) -> Statement | None:
    """The statement that the register goes by: newest measurement, else stamp, else paper, else guess."""
    heard = speaking(rows, changed)
    if not heard:
        return None
    return min(heard, key=lambda row: (RANK[row.basis], -(row.true_from or row.at).timestamp(), -row.id))


def disagreements(rows: Iterable[Statement], changed: datetime | None = None) -> list[Disagreement]:
    """Every statement that contradicts the one the register goes by."""
    heard = speaking(rows, changed)
    chosen = working(heard, changed)
    if chosen is None:
        return []
    found = ((other, _differ(chosen, other)) for other in heard if other.id != chosen.id)
    return [Disagreement(chosen.what, chosen.id, other.id, sure) for other, sure in found if sure is not None]


def _differ(chosen: Statement, other: Statement) -> bool | None:
    """True: they can't both hold. False: they differ, but neither says how well it was read. None: they agree.

    A statement without a ± is taken as exact beside one that has it.
    """
    if chosen.value is None or other.value is None:
        return True if (chosen.word, chosen.value) != (other.word, other.value) else None
    apart = abs(chosen.value - other.value)
    if chosen.u_value is None and other.u_value is None:
        return False if apart > 1e-9 * abs(chosen.value) else None
    return True if apart > K * math.hypot(chosen.u_value or 0.0, other.u_value or 0.0) * (1 + 1e-9) else None


def last_change(events: Sequence[tuple[str, datetime]], what: str, work: dict[str, frozenset[str]]) -> datetime | None:
    """When the item was last worked on in a way that leaves `what` in doubt."""
    return max((at for kind, at in events if what in work.get(kind, ())), default=None)
