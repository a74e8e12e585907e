"""The first minute with a nut, a key, an anode: what a caliper and an eye tell of it."""

from typing import Any

from sqlalchemy.orm import Session

from yardapp.errors import Refused
from yardapp.gear.figures import KINDS, ONE_A_LINE, figures_of
from yardapp.gear.models import Item
from yardapp.gear.services.blank_tags import bind_tag
from yardapp.gear.services.evidence import Said
from yardapp.gear.services.items import item_by_tag, log_item
from yardapp.gear.services.moves import move_item
from yardapp.gear.services.photos import Picture, attach_photo
from yardapp.gear.services.sets import keep_together
from yardapp.people.services import Who

# Common practice, no source: a caliper by hand to 0.1 mm, a share left by eye to a tenth (k = 2).
U_CALIPER_M = 0.00005
U_BY_EYE = 0.05
TOOLS = {"length": ("caliper", U_CALIPER_M), "number": ("by eye", U_BY_EYE), "mass": ("scales", None)}


def log_part(
    session: Session,
    who: Who,
    *,
    kind: str,
    place: str = "",
    with_tag: str = "",
    came_off_id: int | None = None,
    note: str = "",
    tag: str = "",
    picture: Picture | None = None,
    **figures: Any,
) -> Item:
    """Give a part a tag with all that was seen of it; `with_tag` puts it into the set of that thing, where that lies.

    Raises
    ------
    NotAllowed, NotFound, Refused
        As `log_item`, `bind_tag`, `move_item` and `keep_together` do.
    """
    if kind not in KINDS or kind in ONE_A_LINE:
        raise Refused(f"`{kind}` is no kind of part.", "kind")
    other = item_by_tag(session, who, with_tag) if with_tag.strip() else None
    is_aboard = other is not None and other.standing == "aboard"
    where = place or (f"with {other.tag}" if other is not None and is_aboard else other.place if other else "")
    tag = bind_tag(session, who, kind, tag) if tag.strip() else ""
    said = _said(kind, figures)
    item = log_item(session, who, *said, kind=kind, place=where, note=note, came_off_id=came_off_id, tag=tag)
    if picture is not None:
        attach_photo(session, who, item, picture, "when logged")
    if other is not None:
        if is_aboard:
            move_item(session, who, item.tag, "went on", drive_id=other.aboard_id)
        keep_together(session, who, other.tag, [item.tag])
    return item


def _said(kind: str, figures: dict[str, Any]) -> list[Said]:
    said = []
    for figure in figures_of(kind):
        value, typed = figures.get(figure.name), figures.get(f"{figure.name}_typed", "")
        if figure.is_word and value:
            said.append(Said(what=figure.name, basis="measured", word=value, note="seen"))
        elif value is not None and not figure.is_word:
            tool, u = TOOLS[figure.kind]
            said.append(Said(what=figure.name, basis="measured", value=value, u_value=u, typed=typed, note=tool))
    return said
