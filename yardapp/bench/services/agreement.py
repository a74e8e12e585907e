"""Whether a reading and what others said of the same figure can both be true."""

from datetime import datetime
from math import hypot

from yardapp.bench.sums import Compared
from yardapp.bench.tools import K
from yardapp.gear import services as gear
from yardapp.gear.figures import WORK

ROUNDING = 1e-9


def compared(
    found: gear.ItemPage, what: str, value: float, u: float | None, but_not: int | None = None
) -> list[Compared]:
    """The newest statement of each basis beside this reading; those of the sheet `but_not` are left out."""
    changed = _last_change(found, what)
    newest: dict[str, gear.Line] = {}
    for line in found.evidence:  # newest first
        if line.kind == what and _speaks(line, changed) and not (line.source == "sheet" and line.source_id == but_not):
            newest.setdefault(line.basis, line)
    return [_beside(line, what, value, u) for line in newest.values()]


def _last_change(found: gear.ItemPage, what: str) -> datetime | None:
    return max((event.at for event in found.events if what in WORK.get(event.kind, ())), default=None)


def _speaks(line: gear.Line, changed: datetime | None) -> bool:
    """A statement from before the last work, and a stamp from when the thing was made, no longer speak."""
    if line.is_replaced or line.value is None:
        return False
    return changed is None or (line.true_from is not None and line.true_from >= changed)


def _beside(line: gear.Line, what: str, value: float, u: float | None) -> Compared:
    other = line.value or 0.0
    apart, allowed = abs(other - value), K * hypot(u or 0.0, line.u_value or 0.0)
    is_sure = u is not None or line.u_value is not None
    agrees = apart <= allowed * (1 + ROUNDING) if is_sure else apart <= ROUNDING * abs(value)
    return Compared(
        what=what,
        basis=line.basis,
        value=other,
        u=line.u_value,
        apart=other - value,
        allowed=allowed,
        agrees=agrees,
        is_sure=is_sure,
    )
