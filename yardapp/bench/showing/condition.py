"""Faults in words, and as marks on the picture."""

from collections.abc import Callable
from typing import Any

from yardapp import quantities
from yardapp.bench.faults import HEARD, KINDS, SEVERITIES, SIDES, near
from yardapp.drawings.condition import FaultMark
from yardapp.filters import day
from yardapp.quantities import System

SHORT = {"stop": "stop", "watch": "watch", "note": "note"}


def where(fault: Any) -> str:
    """`blade 2 at 0.7 R, face`."""
    if fault.side == "hub":
        return "hub"
    side = SIDES[fault.side].split(",")[0].lower()
    return f"blade {fault.blade} {near(fault.radius_ratio)}, {side}"


def size(fault: Any, system: System) -> str:
    """Its size, where it was read."""
    return quantities.show(fault.size_m, "length", system) if fault.size_m is not None else ""


def in_words(fault: Any, system: System) -> str:
    """`Crack, 12 mm, blade 2 at 0.7 R, face`."""
    return ", ".join(part for part in (KINDS[fault.kind], size(fault, system), where(fault)) if part)


def mark(row: Any, system: System, href: str = "") -> FaultMark:
    """A fault as a mark on the picture."""
    fault = row.fault
    return FaultMark(
        number=fault.number,
        blade=fault.blade,
        radius_ratio=fault.radius_ratio,
        side=fault.side,
        severity=fault.severity,
        label=f"{in_words(fault, system)}; {SHORT[fault.severity]}",
        href=href,
    )


def listed(row: Any, system: System, href: Callable[[int], str], *, with_tag: bool = False) -> dict[str, str]:
    """A fault as one row of a list."""
    fault = row.fault
    closed = f"closed {day(row.closing.at)} by {row.closing.said_by}: {row.closing.how}" if row.closing else ""
    seen = f"{fault.said_by}, {day(fault.at)}"
    return {
        "tag": row.tag if with_tag else str(fault.number),
        "href": href(fault.id),
        "size": in_words(fault, system),
        "where": "; ".join(part for part in (seen, fault.note, closed) if part),
        "flag": "" if row.closing else SHORT[fault.severity],
    }


def rung(ring: Any) -> dict[str, str]:
    """A ring test as one row of a history."""
    blade = f", blade {ring.blade}" if ring.blade else ""
    return {"when": day(ring.at), "who": ring.said_by, "what": f"{HEARD[ring.heard]}{blade}", "note": ring.note}


def told(row: Any, system: System) -> list[tuple[str, str]]:
    """A fault's own block: what, where, how bad, who saw it when."""
    fault = row.fault
    rows = [
        ("Fault", str(fault.number)),
        ("What", KINDS[fault.kind]),
        ("Where", where(fault)),
        ("How bad", SEVERITIES[fault.severity]),
        ("Seen", f"{day(fault.at)} by {fault.said_by}"),
    ]
    return [*rows, ("Size", f"{size(fault, system)} (typed {fault.size_m_typed})")] if fault.size_m else rows
