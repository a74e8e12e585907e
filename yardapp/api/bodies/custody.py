"""Parts, sets, moves undone, bins, what is away, one thing under two tags, tags that crossed."""

from datetime import date, datetime
from typing import Annotated, Literal

from pydantic import Field

from yardapp.api.bodies.base import (
    Blades,
    Body,
    Hand,
    Id,
    IdOrNone,
    Line,
    Name,
    Note,
    Place,
    Reply,
    TiedOn,
    Words,
    with_sizes,
)
from yardapp.api.bodies.fit import ItemTag
from yardapp.api.bodies.items import ItemListed, ItemPage
from yardapp.api.sizes import Size
from yardapp.gear.figures import PARTS

PartKind = Literal["nut", "lock", "key", "cutter", "anode", "bearing", "bracket", "coupling", "gland", "other"]
assert PartKind.__args__ == PARTS  # type: ignore[attr-defined]
PART_SIZES = (
    Size("thread_diameter_m", "length", "Thread, diameter", most=0.6),
    Size("thread_pitch_m", "length", "Thread, pitch", most=0.05),
    Size("bore_m", "length", "Bore", most=3.0),
    Size("outside_diameter_m", "length", "Outside diameter", most=3.0),
    Size("bolt_circle_m", "length", "Bolt circle", most=3.0),
    Size("packing_m", "length", "Packing, across", most=0.2),
    Size("width_m", "length", "Width", most=3.0),
    Size("height_m", "length", "Height", most=3.0),
    Size("length_m", "length", "Length", most=20.0),
    Size("left_ratio", "number", "Share of an anode that is left", least=0.0, most=1.0),
    Size("mass_kg", "mass", "Weight", least=0.001, most=1e4),
)
LookSizes = (
    Size("diameter_m", "length", "Diameter", least=0.008, most=12.0),
    Size("mass_kg", "mass", "Weight", least=0.01, most=1e5),
)


class PartWords(Body):
    """A part in the hand; each kind takes the figures that it has."""

    kind: PartKind
    place: Place | None = Field(None, description="Where it was put; left out where it lies with `with_tag`.")
    with_tag: ItemTag | None = Field(None, description="It comes off and goes on with this thing, as one set.")
    came_off_id: Id | None = Field(None, description="The drive that it came off.")
    note: Note = ""
    tag: TiedOn = ""
    hand: Hand | None = Field(None, description="Of a nut's thread.")
    material: (
        Literal["manganese bronze", "aluminium bronze", "stainless steel", "aluminium", "cast iron", "other"] | None
    ) = None
    lock_kind: Literal["tab washer", "split pin", "second nut", "locking strap", "locking plate", "other"] | None = None
    key_kind: Literal["parallel", "stepped", "sled-ended"] | None = None
    gland_kind: Literal["packed", "lip seal", "face seal"] | None = None
    anode_metal: Literal["zinc", "aluminium", "magnesium"] | None = None


NewPart = with_sizes("NewPart", PartWords, PART_SIZES)
PART_WORDS = ("hand", "material", "lock_kind", "key_kind", "gland_kind", "anode_metal")


class PartPage(ItemPage):
    """Parts, newest first: of one kind, or of all."""

    kind: PartKind | None = None


class Undo(Body):
    """A wrong move of this item, by the number of its event."""

    event_id: Id
    why: Annotated[str, Field(min_length=1, max_length=300, pattern=r"^[^\x00-\x1f\x7f]*$")]


class Together(Body):
    """What belongs to a set with this item."""

    tags: Annotated[list[ItemTag], Field(min_length=1, max_length=30)]
    name: Words = ""


class Leave(Body):
    """It leaves its set."""

    why: Line = ""


class Chase(Body):
    """Somebody was asked where it is."""

    said: Annotated[str, Field(min_length=1, max_length=300, pattern=r"^[^\x00-\x1f\x7f]*$")]
    due_on: date | None = Field(None, description="What they promise now.")


class Declined(Body):
    """Work that was offered, and who declined it."""

    offered: Annotated[str, Field(min_length=1, max_length=300, pattern=r"^[^\x00-\x1f\x7f]*$")]
    declined_by: Name
    why: Line = ""


class Merge(Body):
    """This tag is kept; `other_tag` hangs on the same thing and leads here from now on."""

    other_tag: ItemTag
    why: Annotated[str, Field(min_length=1, max_length=300, pattern=r"^[^\x00-\x1f\x7f]*$")]
    is_where_the_other_is: bool = False


class LookWords(Body):
    """What is seen at the thing that bears a tag."""

    hand: Hand | None = None
    blades: Blades | None = None
    stamp: Words = ""


Look = with_sizes("Look", LookWords, LookSizes)


class Swap(Body):
    """Both tags tied to the right thing again: what is seen at each, and a second name."""

    other_tag: ItemTag
    second_id: Id = Field(description="The account of whoever looked too.")
    seen: Look  # type: ignore[valid-type]
    seen_at_other: Look  # type: ignore[valid-type]
    why: Line = ""


class NewBins(Body):
    """A rack on the map."""

    rack: Annotated[str, Field(min_length=1, max_length=40, pattern=r"^[^\x00-\x1f\x7f]*$")]
    shelves: Annotated[IdOrNone, Field(le=40)] = 0
    bins: Annotated[Id, Field(le=200)] = 1


class OneBin(Reply):
    """A bin, and how much is in it."""

    id: int
    label: str
    rack: str
    shelf: str
    bin: str
    count: int


class Bins(Reply):
    """The rack map."""

    bins: list[OneBin]


class AwayItem(Reply):
    """A thing at a shop or lent."""

    item: ItemListed
    since: datetime | None
    due_on: date | None
    days_late: int
    chased: datetime | None = Field(description="When somebody last asked after it.")


class AwayList(Reply):
    """What is to come back, late ones first."""

    items: list[AwayItem]


class SetOf(Reply):
    """What comes off and goes on together."""

    id: int
    name: str
    items: list[ItemListed]
