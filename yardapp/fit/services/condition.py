"""In what state propellers are: open faults, the last measurement, the coating. One query for any number of them."""

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from datetime import datetime

from sqlalchemy import union_all
from sqlalchemy.orm import Session

from yardapp.bench.services.looked_over import look_rows, open_fault_rows
from yardapp.coating.services.coated import coating_rows
from yardapp.db import now
from yardapp.fit.figures import Figure, PropellerFigures
from yardapp.gear.services.measured import inspected_rows, measured_rows

BARS, DAY_S = "stop", 86400.0


@dataclass(frozen=True, kw_only=True)
class State:
    """What is written down of one propeller's condition; `is_coating` while its coats are still going on."""

    bars: tuple[str, ...] = ()
    watched: tuple[str, ...] = ()
    looked: datetime | None = None
    measured: datetime | None = None
    coating: str = ""
    coated: datetime | None = None
    is_coating: bool = False

    @property
    def open_faults(self) -> tuple[str, ...] | None:
        """The faults that bar it; None where nobody looked."""
        return self.bars if self.bars or self.looked is not None else None


@dataclass
class _Rows:
    """The rows of one propeller as they come in."""

    faults: list[tuple[str, bool]] = field(default_factory=list)
    looks: list[datetime] = field(default_factory=list)
    measured: datetime | None = None
    coats: list[tuple[datetime | None, str]] = field(default_factory=list)


def states_of(session: Session, item_ids: Sequence[int]) -> dict[int, State]:
    """The state of each propeller; of one that nobody wrote anything about, nothing."""
    if not item_ids:
        return {}
    asked = (rows(item_ids) for rows in (open_fault_rows, look_rows, inspected_rows, measured_rows, coating_rows))
    found: dict[int, _Rows] = {}
    for row in session.execute(union_all(*asked)):
        _put(found.setdefault(row[0], _Rows()), *row[1:])
    return {item_id: _state(found.get(item_id, _Rows())) for item_id in item_ids}


def _put(rows: _Rows, what: str, word: str, blade: int | None, at: datetime | None) -> None:
    if what == "fault":
        kind, _, severity = word.partition("|")
        rows.faults.append((f"{kind}, blade {blade}" if blade else kind, severity == BARS))
    elif what == "coated":
        rows.coats.append((at, word))
    elif what == "looked" and at is not None:
        rows.looks.append(at)
    elif what == "measured":
        rows.measured = at


def _state(rows: _Rows) -> State:
    finished = [(at, name) for at, name in rows.coats if at is not None]
    coated, name = max(finished, default=(None, ""))
    running = next((word for at, word in rows.coats if at is None), "")
    return State(
        bars=tuple(sorted(words for words, is_bar in rows.faults if is_bar)),
        watched=tuple(sorted(words for words, is_bar in rows.faults if not is_bar)),
        looked=max(rows.looks, default=None),
        measured=rows.measured,
        coating=running or name,
        coated=None if running else coated,
        is_coating=bool(running),
    )


def with_state(propeller: PropellerFigures, state: State | None, *, at: datetime | None = None) -> PropellerFigures:
    """The figures of a propeller, and what is known of its condition at a moment."""
    if state is None:
        return propeller
    days = None if state.measured is None else max(round(((at or now()) - state.measured).total_seconds() / DAY_S), 1)
    return replace(
        propeller,
        open_faults=state.open_faults,
        watched_faults=state.watched,
        measured_age_s=None if days is None else Figure(value=days * DAY_S, u=0.0, basis="measured"),
        coating=_coating(state),
    )


def _coating(state: State) -> str | None:
    if state.is_coating:
        return f"{state.coating}, its coats still going on"
    return f"{state.coating}, {state.coated:%d %b %Y}" if state.coated is not None else None
