"""The first minute with a propeller or a shaft: everything that was seen, in one transaction."""

from sqlalchemy.orm import Session

from yardapp.gear.models import Item
from yardapp.gear.services.blank_tags import bind_tag
from yardapp.gear.services.evidence import Said
from yardapp.gear.services.items import log_item
from yardapp.gear.services.photos import Picture, attach_photo
from yardapp.marks import services as marks
from yardapp.people.services import Who

# Common practice, no source: a tape laid across a propeller by eye is good to about 5 mm (k = 2).
U_TAPE_ACROSS_M = 0.0025
U_TAPE_ALONG_M = 0.001


def log_propeller(
    session: Session,
    who: Who,
    *,
    place: str,
    hand: str | None = None,
    stamp: str = "",
    diameter_m: float | None = None,
    diameter_m_typed: str = "",
    blades: int | None = None,
    came_off_id: int | None = None,
    note: str = "",
    tag: str = "",
    picture: Picture | None = None,
) -> Item:
    """Give a propeller a tag with all that was seen of it; its stamp is read on the spot. `tag` is a blank one.

    Raises
    ------
    NotAllowed, NotFound, Refused
        As `log_item`, `bind_tag` and `record_mark` do.
    """
    said = []
    if hand:
        said.append(Said(what="hand", basis="measured", word=hand, note="seen: how the near blade leans"))
    if diameter_m is not None:
        said.append(_length("diameter_m", diameter_m, U_TAPE_ACROSS_M, diameter_m_typed))
    if blades is not None:
        said.append(Said(what="blades", basis="measured", value=float(blades), u_value=0.0, typed=str(blades)))
    tag = bind_tag(session, who, "propeller", tag) if tag.strip() else ""
    item = log_item(session, who, *said, kind="propeller", place=place, note=note, came_off_id=came_off_id, tag=tag)
    if stamp.strip():
        marks.record_mark(session, who, item, stamp)
    if picture is not None:
        attach_photo(session, who, item, picture, "when logged")
    return item


def log_shaft(
    session: Session,
    who: Who,
    *,
    place: str,
    diameter_m: float | None = None,
    diameter_m_typed: str = "",
    length_m: float | None = None,
    length_m_typed: str = "",
    taper: float | None = None,
    taper_typed: str = "",
    came_off_id: int | None = None,
    note: str = "",
    tag: str = "",
    picture: Picture | None = None,
) -> Item:
    """Give a shaft a tag with all that was seen of it. `tag` is a blank one.

    Raises
    ------
    NotAllowed, NotFound, Refused
        As `log_item` and `bind_tag` do.
    """
    said = []
    if diameter_m is not None:
        said.append(_length("diameter_m", diameter_m, 0.00005, diameter_m_typed, "caliper"))
    if length_m is not None:
        said.append(_length("length_m", length_m, U_TAPE_ALONG_M, length_m_typed))
    if taper is not None:
        said.append(Said(what="taper", basis="paper", value=taper, typed=taper_typed, note="as given when logged"))
    tag = bind_tag(session, who, "shaft", tag) if tag.strip() else ""
    item = log_item(session, who, *said, kind="shaft", place=place, note=note, came_off_id=came_off_id, tag=tag)
    if picture is not None:
        attach_photo(session, who, item, picture, "when logged")
    return item


def _length(what: str, value: float, u_value: float, typed: str, tool: str = "tape") -> Said:
    return Said(what=what, basis="measured", value=value, u_value=u_value, typed=typed, note=tool)
