"""What may be the other's: written between the day on which two tags may have crossed and the day they were swapped."""

from yardapp.gear.services import ItemPage, Line


def possibly_of(page: ItemPage | None, line: Line) -> str:
    """Whose a line may be, where the tags were found crossed later; nothing for all other lines."""
    if page is None:
        return ""
    moment = line.true_from or line.at
    for swap in page.events:
        is_between = swap.kind == "tags swapped" and swap.since is not None and swap.since <= moment < swap.at
        if is_between and line.tag == swap.tag and line.kind != "tags swapped":
            return f"possibly {swap.other}’s: the tags may have been crossed then"
    return ""
