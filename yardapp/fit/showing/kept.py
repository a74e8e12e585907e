"""Kept verdicts in the words of a page: what they rested on, then and now."""

from collections.abc import Callable
from typing import Any

from yardapp.filters import clock, day
from yardapp.fit.checks.words import listed, sentence
from yardapp.fit.kept import Premise, checks_of
from yardapp.fit.services import KeptVerdict
from yardapp.fit.showing.verdict import rows_of, told
from yardapp.quantities import System

NOT_KNOWN = "not known"
ENDED = "no longer holds"


def kept_row(found: KeptVerdict, href: str) -> dict[str, Any]:
    """One kept verdict of a list; one whose premises changed says so."""
    kept = found.kept
    return {
        "verdict": kept.verdict,
        "tag": f"{kept.tag} on {found.drive}",
        "href": href,
        "size": f"{day(kept.at)}, {kept.said_by}",
        "said": kept.note,
        "flag": "; ".join(
            filter(None, (_perhaps(found), f"{ENDED}: {_names(found.changed)}" if found.changed else ""))
        ),
    }


def _perhaps(found: KeptVerdict) -> str:
    return f"possibly {found.perhaps_of}’s" if found.perhaps_of else ""


def _names(changed: tuple[Premise, ...]) -> str:
    names = [one.label for one in changed]
    return listed(names) if len(names) < 4 else f"{listed(names[:2], ',')} and {len(names) - 2} more"


def ended(found: KeptVerdict) -> str:
    """Why a verdict no longer holds, in a sentence; nothing while it does."""
    if not found.changed:
        return ""
    return f"This verdict {ENDED}. Changed since: {_names(found.changed)}. Judge again."


def premise_rows(found: KeptVerdict, system: System) -> list[dict[str, Any]]:
    """Each premise then and now, those that changed first."""
    ordered = sorted(found.premises, key=lambda one: (not one.is_changed, not one.is_rested_on))
    return [
        {
            "label": sentence(one.label),
            "then": said_of(one, one.then, system),
            "now": said_of(one, one.now, system) if one.is_changed or one.then != one.now else "the same",
            "is_changed": one.is_changed,
            "is_rested_on": one.is_rested_on,
        }
        for one in ordered
    ]


def said_of(premise: Premise, said: Any, system: System) -> str:
    """One premise as it stands on one side of the table."""
    if said is None:
        return NOT_KNOWN
    if isinstance(said, dict):
        figure = told(system, premise.kind if premise.kind != "words" else "count", said["value"], said["u"])
        return f"{figure}, {said['basis']}" if said["basis"] else figure
    if isinstance(said, bool):
        return "yes" if said else "no"
    return ", ".join(str(one) for one in said) if isinstance(said, list) else str(said)


def kept_checks(found: KeptVerdict, system: System, explained: Callable[[str], str]) -> list[dict[str, Any]]:
    """The checks as they were on that day, in that day's words."""
    return rows_of(checks_of(found.kept.checks), system, explained)


def kept_when(found: KeptVerdict) -> str:
    """`12 Nov 2026, 14:05, by Ada Brook`."""
    return f"{day(found.kept.at)}, {clock(found.kept.at)}, by {found.kept.said_by}"
