"""What reads differently since a table changed, in words. No database, no request."""

from collections.abc import Mapping, Sequence
from typing import Any

from yardapp.marks.services import RereadPage
from yardapp.marks.showing.readings import figure_rows
from yardapp.quantities import System


def rows(found: RereadPage, system: System) -> Sequence[dict[str, str]]:
    """Each propeller whose mark reads differently: before and after, and whether evidence rests on the old reading."""
    return [
        {
            "tag": one.tag,
            "seen": one.seen,
            "before": _brief(one.before, system),
            "after": _brief(one.after, system),
            "taken": f"taken as evidence by {one.taken_by}" if one.taken_by else "",
        }
        for one in found.rows
    ]


def pages(found: RereadPage) -> str:
    """Which of them this page shows."""
    return f"{found.first} to {found.first + len(found.rows) - 1} of {found.differing}"


def _brief(said: Mapping[str, Any], system: System) -> str:
    if not said["count"]:
        return "not read by it"
    figures = ", ".join(f"{label.lower()} {figure}" for label, figure in figure_rows(said["figures"], system))
    more = f" (and {said['count'] - 1} more)" if said["count"] > 1 else ""
    return f"{figures or said['mark']}{more}"
