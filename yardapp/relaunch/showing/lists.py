"""The yard's lists of lines in the words of a page."""

from collections.abc import Callable
from typing import Any

from yardapp.filters import day
from yardapp.relaunch.lines import FOLLOW_UP, PARTS, SETTLED_BY, SHEETS, Line, in_words, limit_said
from yardapp.relaunch.services import ListNow
from yardapp.relaunch.showing.words import PART_TITLES

POLICY = {"nut order": "as the yard goes by"}


def listed(one: ListNow, href: str) -> dict[str, str]:
    """A list as one row."""
    changed = f"version {one.number}, {one.said_by}, {day(one.at)}" if one.number else "as it came with the app"
    return {"tag": one.name, "href": href, "size": f"{len(one.lines)} lines", "where": changed}


def parts(one: ListNow, href: Callable[[str], str]) -> list[dict[str, Any]]:
    """The lines by part, each in words."""
    return [
        {
            "title": PART_TITLES[part],
            "rows": [
                {"key": line.key, "words": in_words(line, POLICY).words, "said": told(line), "href": href(line.key)}
                for line in one.lines
                if line.part == part
            ],
        }
        for part in PARTS
    ]


def told(line: Line) -> str:
    """What a line asks for, in one line."""
    sheet = f": {SHEETS[line.sheet].lower()}" if line.by == "sheet" else ""
    after = f"due {line.after_h} to {line.by_h} h after release {line.after}" if line.part == FOLLOW_UP else ""
    said = [
        f"{SETTLED_BY[line.by]}{sheet}",
        limit_said(line),
        f"{line.signer}{', two sign' if line.signs > 1 else ''}",
        "stops her" if line.is_stop else "",
        "" if line.is_each else "once for the boat",
        after,
    ]
    return "; ".join(part for part in said if part)


def versions(found: list[ListNow]) -> list[dict[str, str]]:
    """Every version of a list, newest first."""
    return [
        {
            "when": day(one.at) if one.at else "with the app",
            "who": one.said_by,
            "what": f"Version {one.number}, {len(one.lines)} lines",
            "note": one.why,
        }
        for one in found
    ]
