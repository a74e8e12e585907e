"""Tags printed beforehand for the winter, two of them hung; one of those hangs on what was sold half a year ago."""

import io

from yardapp.example.pictures import hub_picture
from yardapp.example.yard import Yard, size
from yardapp.gear import services as gear

PRINTED = (("propeller", 40), ("shaft", 8), ("nut", 20))
SOLD, SOLD_STAMP = "Rack D, bin 1", "535 x 380 LH"


def tags_are_printed(yard: Yard) -> None:
    """A sheet or two of blank tags of each kind, so that nobody runs to the printer with wet hands."""
    for kind, count in PRINTED:
        yard.blank[kind] = gear.reserve_tags(yard.session, yard.who("Ada"), kind=kind, count=count)


def two_are_bound(yard: Yard) -> None:
    """One came in with a trailer and looks much like one that was sold; the other has no name yet."""
    finn, tags = yard.who("Finn"), yard.blank["propeller"]
    old = gear.item_by_tag(yard.session, finn, yard.at(SOLD), for_change=True)
    gear.attach_photo(yard.session, finn, old, _photo(yard, SOLD_STAMP, 1), "the day before it was sold")
    gear.log_propeller(
        yard.session,
        finn,
        place="Rack E, bin 4",
        hand="left",
        stamp=SOLD_STAMP,
        blades=4,
        diameter_m=size("21 1/16 in"),
        diameter_m_typed="21 1/16 in",
        note="Brought on a trailer; the man thinks it was once ours.",
        tag=tags[0],
        picture=_photo(yard, SOLD_STAMP, 2),
    )
    gear.log_propeller(
        yard.session, finn, place="Rack E, bin 5", hand="right", blades=3, note="Was under the trailer.", tag=tags[1]
    )


def _photo(yard: Yard, stamp: str, number: int) -> gear.Picture:
    return gear.keep_picture(yard.photos, io.BytesIO(hub_picture(stamp, 4, number)))
