"""A sheet, its lines, its releases and what changed since, put into the words of a page."""

from collections.abc import Callable, Mapping, Sequence
from datetime import datetime
from typing import Any

from yardapp.filters import day
from yardapp.relaunch.lines import PARTS, SETTLED_BY, Line, limit_said
from yardapp.relaunch.services import Change, Found, LaunchAct, LaunchSheet, LineNow
from yardapp.relaunch.settling import ASK, NO, OPEN, YES
from yardapp.relaunch.showing.words import DID, PART_TITLES, RELEASED, SHAPES, STATES, counted, names, when

Href = Callable[..., str]


def parts(sheet: LaunchSheet, href: Href) -> list[dict[str, Any]]:
    """The four parts of the sheet, each with its lines."""
    return [
        {
            "name": part,
            "title": PART_TITLES[part],
            "said": _part_said(sheet, part),
            "rows": [row(now, href, sheet.at) for now in sheet.lines if now.line.part == part],
        }
        for part in PARTS
    ]


def _part_said(sheet: LaunchSheet, part: str) -> str:
    act = sheet.releases.get(part)
    if act is None:
        left = sheet.open(part)
        return f"{counted(len(left), 'line')} open" if left else "nothing open"
    how = "by override, " if act.kind == "overridden" else ""
    return f"{RELEASED[part]} {how}{when(act.at)}, {act.said_by}"


def row(now: LineNow, href: Href, at: datetime) -> dict[str, Any]:
    """One line as the sheet lists it."""
    said = [now.said, f"{now.has} has it" if not now.is_settled else "", _due(now, at)]
    return {
        "shape": SHAPES[now.verdict],
        "state": STATES[now.verdict],
        "title": now.title,
        "href": href(now),
        "said": "; ".join(part for part in said if part),
        "by": f"{names(now.by)}{', ' + day(now.at) if now.at else ''}" if now.by else "",
        "flag": "stops her" if now.is_in_the_way else "",
        "is_settled": now.is_settled,
    }


def _due(now: LineNow, at: datetime) -> str:
    """Of a follow-up, when it is due; before its release, from what it counts."""
    if not now.line.after or now.is_settled:
        return ""
    if now.due is None or now.late is None:
        return f"due {now.line.after_h} to {now.line.by_h} h after she is released {now.line.after}"
    if at > now.late:
        return f"late since {when(now.late)}"
    return f"due from {when(now.due)} to {when(now.late)}"


def verdict(sheet: LaunchSheet) -> tuple[str, str]:
    """The sheet's own answer in a word of the yard's shapes, and in a sentence."""
    if sheet.is_called_off:
        return NO, "This launch was called off."
    release = sheet.next_release
    if release is None:
        left = sheet.follow_ups
        return YES, f"All releases given. {counted(len(left), 'thing')} to look at afterwards." if left else "All done."
    stops = sheet.in_the_way(release)
    if not stops:
        return YES, f"Nothing is in the way: she may be {RELEASED[release]}."
    return NO, f"{counted(len(stops), 'thing')} in the way before she is {RELEASED[release]}."


def shows(now: LineNow) -> str:
    """What a line asks for, in a few sentences."""
    line, limit = now.line, limit_said(now.line)
    told = [
        PART_TITLES[line.part],
        f"Settled by: {SETTLED_BY[line.by][:1].lower()}{SETTLED_BY[line.by][1:]}{', ' + limit if limit else ''}",
        f"Signed by {line.signer}, {'two people' if line.signs > 1 else 'one person'}",
        "While it is open, it stops her" if line.is_stop else "While it is open, she may go all the same",
    ]
    return f"{'. '.join(told)}."


def found_rows(found: Sequence[Found], href: Callable[[Found], str | None]) -> list[dict[str, Any]]:
    """What the register says about a line, each with the way to it."""
    words = {YES: "It says yes.", NO: "It says no.", ASK: "It cannot tell."}
    return [
        {
            "verdict": SHAPES[one.verdict],
            "label": words[one.verdict],
            "said": one.said,
            "by": f"{one.by}, {day(one.at)}" if one.by and one.at else "",
            "href": href(one),
        }
        for one in found
    ]


def act_row(act: Any, taken_back: Mapping[int, Any], href: Callable[[Any], str | None]) -> dict[str, Any]:
    """One act as a line of history."""
    later = taken_back.get(act.id)
    scanned = f"{act.tag}, {act.hand} hand" if act.tag else ""
    answer = STATES.get(act.answer, "") if act.kind == "answered" else DID[act.kind]
    told = [answer, scanned, act.figure_typed, act.release, when(act.planned) if act.planned else ""]
    note = [act.note, f"taken back by {later.said_by}: {later.note}" if later else ""]
    return {
        "when": when(act.at),
        "who": act.said_by,
        "what": ", ".join(part for part in told if part),
        "note": "; ".join(part for part in note if part),
        "replaced": later is not None,
        "href": href(act) if later is None else None,
        "photo": act.photo_sha256,
    }


def history(acts: Sequence[LaunchAct], lines: Mapping[str, Line], href: Callable[[Any], str | None]) -> list[Any]:
    """Every act of a launch, newest first, each with the line it speaks of."""
    back = {act.takes_back_id: act for act in acts if act.takes_back_id is not None}
    rows = []
    for act in reversed(acts):
        told = act_row(act, back, href)
        line = lines.get(act.line)
        rows.append(told | {"what": f"{line.words}: {told['what']}" if line is not None else told["what"]})
    return rows


def change_rows(changed: Sequence[Change]) -> list[dict[str, str]]:
    """What differs since a release, then and now."""
    return [
        {
            "title": one.title,
            "then": _state(one.then),
            "now": _state(one.now),
            "flag": "would keep her back now" if one.is_worse else "",
        }
        for one in changed
    ]


def _state(one: tuple[str, str]) -> str:
    verdict, said = one
    return "; ".join(part for part in (STATES.get(verdict, ""), said) if part)


def kept(frozen: Mapping[str, Any]) -> list[dict[str, Any]]:
    """A kept sheet by parts, as it was."""
    return [
        {"title": PART_TITLES[part], "rows": [_kept_row(one) for one in frozen["lines"] if one["part"] == part]}
        for part in PARTS
        if any(one["part"] == part for one in frozen["lines"])
    ]


def _kept_row(one: Mapping[str, Any]) -> dict[str, Any]:
    at = f", {day(datetime.fromisoformat(one['at']))}" if one["at"] else ""
    return {
        "shape": SHAPES[one["verdict"]],
        "state": STATES[one["verdict"]],
        "title": one["title"],
        "said": one["said"],
        "by": names(tuple(one["by"])) + at if one["by"] else "",
        "flag": "open stop" if one["is_stop"] and one["verdict"] != YES else "",
    }


def kept_block(frozen: Mapping[str, Any]) -> list[tuple[str, str]]:
    """A kept sheet's own block: whose, when, by whom, on which lines, by which edition of the app."""
    return [
        ("Boat", frozen["boat"]),
        ("Release", frozen["release"]),
        ("Planned", when(datetime.fromisoformat(frozen["planned"]))),
        ("Released", when(datetime.fromisoformat(frozen["at"]))),
        ("By", frozen["said_by"]),
        # Sheets kept by earlier editions say it by number.
        ("Lines", frozen["list"].replace(", version 0", ", as shipped")),
        ("Propellers", "; ".join(f"{one['label']} {one['tag'] or 'none tagged'}" for one in frozen["drives"])),
        ("Edition", frozen["app_version"]),
    ]


def overrides(sheet: LaunchSheet) -> list[str]:
    """Each release that stands on somebody's word, with the reason."""
    return [
        f"Released {act.release} by override, on the word of {act.said_by}: {act.note}"
        for act in sheet.releases.values()
        if act.kind == "overridden"
    ]


def faults_plainly(sheet: LaunchSheet) -> list[str]:
    """The faults that stand, in words that an owner reads."""
    words = {"stop": "must be settled before she goes in", "watch": "we are watching it", "note": "noted"}
    return [
        f"{fault.what}: {_accepted(fault.acceptance) if fault.acceptance else words[fault.severity]}."
        for fault in sheet.faults
    ]


def _accepted(given: Any) -> str:
    return f"{given.name} accepts it until {day(given.until)}, {given.note}"


def plainly(sheet: LaunchSheet, sign_href: Callable[[LineNow], str | None] = lambda now: None) -> list[dict[str, Any]]:
    """The sheet in the owner's words: what was looked at, what is still to do."""
    told = []
    for part in PARTS:
        rows = [_plain(now) | {"sign_href": sign_href(now)} for now in sheet.lines if now.line.part == part]
        told.append({"title": PART_TITLES[part], "rows": rows, "said": _part_said(sheet, part)})
    return told


def _plain(now: LineNow) -> dict[str, Any]:
    words = f"{now.place.label.capitalize()}: {now.line.owner_words}" if now.place.label else now.line.owner_words
    done = {YES: "done", NO: "not in order", ASK: "still to settle", OPEN: "still to do"}[now.verdict]
    return {"shape": SHAPES[now.verdict], "words": words, "done": done, "when": day(now.at) if now.at else ""}
