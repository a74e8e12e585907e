"""Both letters as parts of a document, the same words as on their pages."""

from collections.abc import Mapping, Sequence
from typing import Any

from yardapp.filters import day
from yardapp.fit.letters import Task
from yardapp.fit.services import Pairing
from yardapp.pdf import Figures, Heading, Part, Picture, Words

PLUS_MINUS = "± is two standard uncertainties. Where a figure is not known, measure; do not take it from a standard."
COMES_BACK = (
    "The tag stays on, or comes back in the same bag. Please measure each blade's pitch, the bore at both ends and the "
    "keyway when it is done, and send the sheet with it. Ring before anything else is cut."
)
HOLDS = (
    "It holds for these figures. New readings, another engine, gearbox or shaft, or a re-pitch end it: ask again then."
)


def shop_paper(found: Pairing, said: Mapping[str, Any], name: str) -> list[Part]:
    """To the propeller shop; `said` is what the letter's page is filled with."""
    typed = said["typed"]
    head = [
        ("Tag", found.tag),
        ("To", typed["to"] or "the propeller shop"),
        ("From", said["yard"]),
        ("Date", day(said["today"])),
        ("Ask for", typed["contact"] or name),
        ("Goes on", found.drive),
    ]
    return [
        Figures(tuple(head)),
        *(
            [Words(said["why_not"], is_strong=True)]
            if said["why_not"]
            else _asked(said["tasks"], said["at_the_yard"], class_and_pitch(said), typed["note"])
        ),
        Heading("The propeller, as it leaves here"),
        Figures(tuple(said["propeller"])),
        Heading("The shaft that it must suit"),
        Figures(tuple(said["shaft"])),
        *([Picture(str(said["drawing"]))] if said["drawing"] else []),
        Words(PLUS_MINUS, is_small=True),
    ]


def _asked(tasks: Sequence[Task], at_the_yard: Sequence[str], blades: str, note: str) -> list[Part]:
    lines = [f"{task.work.capitalize()}. {task.says}" for task in tasks]
    lines += [line for line in (blades, note) if line]
    after = f"Done here afterwards: {' '.join(at_the_yard)}" if at_the_yard else ""
    return [
        Heading("Please do"),
        *(Words(f"{number}. {line}") for number, line in enumerate(lines, 1)),
        *([Words(after, is_small=True)] if after else []),
        Words(COMES_BACK),
    ]


def class_and_pitch(said: Mapping[str, Any]) -> str:
    """What the blades are to be, and how closely; nothing where nothing is asked of the shop."""
    if said["pitch"]:
        return f"Pitch wanted: {said['pitch']}, every blade, to class {said['wanted']} of ISO 484-2."
    return f"Leave the blades at least in class {said['wanted']} of ISO 484-2." if said["tasks"] else ""


def owner_paper(found: Pairing, said: Mapping[str, Any], name: str) -> list[Part]:
    """To the owner: the verdict in plain words."""
    head = [
        ("Propeller", found.tag),
        ("For", found.drive),
        ("From", said["yard"]),
        ("Date", day(said["today"])),
        ("By", name),
    ]
    unjudged = ", ".join(row["label"].lower() for row in said["still_open"])
    return [
        Figures(tuple(head)),
        Words(f"{said['said']} {found.verdict.lede}", is_strong=True),
        Heading("What was looked at"),
        *(Words(f"{check}: {answer}. {why}") for check, answer, why in said["checks"]),
        *([Words(f"Not judged, because nothing was known of it: {unjudged}.")] if unjudged else []),
        Heading("What it rests on"),
        Figures(tuple(said["rests_on"])),
        Words(HOLDS),
        Words("± is how far a figure may be out, nineteen times in twenty.", is_small=True),
    ]
