"""Product in stock, in the words of a list."""

from datetime import date
from typing import Any

from yardapp.db import now
from yardapp.filters import day
from yardapp.quantities import show


def listed(tin: Any, href: str, today: date | None = None) -> dict[str, str]:
    """One tin: how much, opened or not, where, until when."""
    today = today or now().date()
    state = f"opened {day(tin.opened_on)}" if tin.opened_on else "unopened"
    until = f"good until {day(tin.expires_on)}" if tin.expires_on else "no date known"
    return {
        "tag": f"{tin.product}, {tin.part}" if tin.part else tin.product,
        "href": href,
        "size": f"{show(tin.volume_m3, 'volume')}, {state}",
        "where": ", ".join(part for part in (tin.place, f"batch {tin.batch}" if tin.batch else "", until) if part),
        "flag": "past its date" if tin.expires_on and tin.expires_on < today else "",
    }
