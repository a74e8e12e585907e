"""What may be the other's: written between the day on which two tags may have crossed and the day they were swapped."""

from typing import Any

from yardapp.gear.figures import FIGURES
from yardapp.gear.services import ItemPage, Line


def possibly_of(page: ItemPage | None, line: Line) -> str:
    """Whose a line may be, where the tags were found crossed later; nothing for all other lines."""
    if page is None:
        return ""
    moment = line.true_from or line.at
    for swap in page.events:
        is_between = swap.kind == "tags swapped" and swap.since is not None and swap.since < moment < swap.at
        if (
            is_between
            and not swap.is_replaced
            and line.tag == swap.tag
            and line.kind not in ("tags swapped", "left set")
        ):
            return f"possibly {swap.other}’s: the tags may have been crossed then; its weight settles it"
    return ""


def seen_two_ways(page: ItemPage) -> dict[str, Any] | None:
    """Hand or blades that were seen one way and later another: the tags may have crossed, and since when."""
    for odd in page.item.odds:
        rows = [page.statement(odd[name]) for name in ("working", "other")]
        seen = [row for row in rows if row is not None and row.basis == "measured"]
        if odd["what"] in ("hand", "blades") and len(seen) == 2:
            first, last = sorted((row.true_from or row.at) for row in seen)
            return {"label": FIGURES[odd["what"]].label.lower(), "since": first, "last": last}
    return None
