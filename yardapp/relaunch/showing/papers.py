"""A sheet, a kept sheet and the owner's copy as parts of a document, the same words as on their pages."""

from collections.abc import Mapping, Sequence
from typing import Any

from yardapp.pdf import Figures, Heading, Part, Tick, Words
from yardapp.relaunch.services import Change, LaunchSheet
from yardapp.relaunch.showing import sheet as showing
from yardapp.relaunch.showing.words import when


def sheet_paper(sheet: LaunchSheet) -> list[Part]:
    """The sheet as it stands, with a place to sign."""
    told = showing.parts(sheet, lambda _now: "")
    return [
        Figures(
            (
                ("Boat", sheet.vessel.name),
                ("Goes in", when(sheet.launch.planned)),
                ("Lines", sheet.launch.list_said),
                *((f"Propeller, {one.label}", one.tag or "none tagged") for one in sheet.drives),
            )
        ),
        Words(showing.verdict(sheet)[1], is_strong=True),
        *(Words(said, is_strong=True) for said in showing.overrides(sheet)),
        *(part for group in told for part in _group(group)),
    ]


def _group(group: Mapping[str, Any]) -> list[Part]:
    rows = [_tick(row) for row in group["rows"]]
    said = [Words(group["said"], is_small=True)] if group.get("said") else []
    return [Heading(group["title"]), *said, *rows] if rows else []


def _tick(row: Mapping[str, Any]) -> Tick:
    note = "; ".join(part for part in (row["said"], row["flag"]) if part)
    return Tick(row["title"], value=row["by"] or row["state"], note=note, is_ticked=row["state"] == "In order")


def kept_paper(frozen: Mapping[str, Any], changed: Sequence[Change]) -> list[Part]:
    """A released sheet as it was kept, and what differs since."""
    is_override = frozen["kind"] == "overridden"
    word = f"Released by override on the word of {frozen['said_by']}: {frozen['note']}" if is_override else ""
    note = "" if is_override else frozen["note"]
    later = [Words(f"{one['title']}. Then: {one['then']}. Now: {one['now']}.") for one in showing.change_rows(changed)]
    return [
        Figures(tuple(showing.kept_block(frozen))),
        *([Words(word, is_strong=True)] if word else []),
        *([Words(note)] if note else []),
        *(part for group in showing.kept(frozen) for part in _group(group)),
        *([Heading("Changed since")] if later else []),
        *later,
    ]


def owner_paper(sheet: LaunchSheet) -> list[Part]:
    """The owner's copy, in plain words."""
    parts: list[Part] = [Figures((("Boat", sheet.vessel.name), ("Goes in", when(sheet.launch.planned))))]
    parts += [Words(said, is_strong=True) for said in showing.overrides(sheet)]
    faults = showing.faults_plainly(sheet)
    parts += [Heading("What was found"), *(Words(said) for said in faults)] if faults else []
    for group in showing.plainly(sheet):
        if group["rows"]:
            parts += [Heading(group["title"]), Words(group["said"], is_small=True)]
        for row in group["rows"]:
            value = ", ".join(part for part in (row["done"], row["when"]) if part)
            parts.append(Tick(row["words"], value=value, is_ticked=row["done"] == "done"))
    return parts
