"""Sheets from before a piece of work, and methods that are wrong for a count of blades, in words."""

from typing import Any

from yardapp.filters import day

WORKS = {
    "re-pitched": "re-pitch",
    "straightened": "straightening",
    "cut down": "cutting down",
    "bored": "boring",
    "re-bored": "re-boring",
    "keyed": "keying",
    "welded": "welding",
    "balanced": "balancing",
}


def before(row: Any) -> str:
    """`from before the re-pitch of 14 Oct 2026`; nothing for a sheet that still speaks."""
    if not row.work_since:
        return ""
    return f"from before the {WORKS.get(row.work_since, row.work_since)} of {day(row.worked_at)}"


def perhaps(row: Any) -> str:
    """`possibly P-0002’s`; nothing for a sheet that was written while its tag hung right."""
    return f"possibly {row.perhaps_of}’s" if row.perhaps_of else ""


def wrong_way(method: str, way: str, blades: int | None) -> str:
    """Why a way of measuring is wrong for this count of blades; nothing where it is right or nobody has counted."""
    if method != "diameter" or not blades:
        return ""
    if way == "across" and blades % 2:
        return f"wrong with {blades} blades: no tip stands opposite another"
    if blades == 2 and way in ("tips", "string"):
        return "wrong with 2 blades: read straight across"
    return ""
