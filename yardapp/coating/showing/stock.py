"""Product in stock, in the words of a list."""

from datetime import UTC, date, datetime
from typing import Any

from yardapp.db import now
from yardapp.filters import clock, day
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


def moved(move: Any, href: str | None) -> dict[str, Any]:
    """One row of a tin: what came in or went out, for which job."""
    amount = show(abs(move.volume_m3), "volume") if move.volume_m3 else "nothing"
    sign = "less" if move.volume_m3 < 0 else "more"
    what = {
        "put in stock": f"Put in stock with {amount}",
        "counted": f"Counted: {amount} {sign}" if move.volume_m3 else "Counted: as it was",
        "taken": f"{amount} taken",
        "back": f"{amount} back",
        "taken back": f"Undone: {amount} {sign}",
    }[move.kind]
    return {
        "when": f"{day(move.at)}, {clock(move.at)}",
        "who": move.said_by,
        "what": f"{what}: {move.job}" if move.job else what,
        "href": href,
        "note": move.note,
    }


def covered(one: Any) -> tuple[str, str, str, str, str]:
    """What the tins of one product would make and cover, and until when."""
    made = one.makes
    volume = "not known: its parts' densities are missing" if made is None else show(made.volume_m3, "volume")
    lacks = f"; more {made.lacks} would make more" if made is not None and made.lacks else ""
    covers = "" if one.covers_m2 is None else show(one.covers_m2, "area")
    until = "" if made is None or made.until_s is None else day(datetime.fromtimestamp(made.until_s, UTC))
    return (one.product, one.system, volume + lacks, covers, until or "no date known")
