"""Propellers and shafts: what is said of a new one, and all that the register says of one."""

from datetime import date, datetime
from typing import Literal

from pydantic import Field

from yardapp.api.bodies.base import (
    Assumed,
    Basis,
    Body,
    Figure,
    Hand,
    Id,
    IdInAddress,
    Limit,
    Note,
    Place,
    Reply,
    TiedOn,
    Words,
    with_sizes,
)
from yardapp.api.sizes import Size
from yardapp.gear.figures import FIGURES

BoreKind = Literal["taper", "parallel", "pilot"]
BladeKind = Literal["fixed", "folding", "feathering", "controllable"]
Metal = Literal["manganese bronze", "aluminium bronze", "stainless steel", "aluminium", "cast iron", "other"]
# A keyway of nothing is "looked: there is none".
BORE_SIZES = (
    Size("bore_large_m", "length", "Bore, large end", most=0.6),
    Size("bore_small_m", "length", "Bore, small end", most=0.6),
    Size("bore_length_m", "length", "Bore, length between its ends", most=1.5),
    Size("keyway_width_m", "length", "Keyway, width", least=0.0, most=0.15),
    Size("keyway_depth_m", "length", "Keyway, depth at its side", least=0.0, most=0.1),
    Size("hub_length_m", "length", "Hub, length", most=1.5),
    Size("hub_diameter_m", "length", "Hub, diameter", most=1.5),
)
PROPELLER_SIZES = (
    Size("diameter_m", "length", "Propeller diameter", least=0.1, most=12.0),
    Size("pitch_m", "length", "Pitch", least=0.05, most=12.0),
    Size("blades", "count", "Number of blades", least=2, most=7),
    *BORE_SIZES,
    Size("taper", "taper", "Taper"),
    Size("area_ratio", "number", "Blade area ratio", least=0.1, most=1.5),
    Size("mass_kg", "mass", "Weight", least=0.1, most=1e5),
)
SHAFT_SIZES = (
    Size("diameter_m", "length", "Shaft diameter", least=0.008, most=0.6),
    Size("length_m", "length", "Shaft length", least=0.05, most=20.0),
    Size("taper", "taper", "Taper"),
    Size("taper_length_m", "length", "Taper, length", most=3.0),
    *BORE_SIZES[3:5],
)
PROPELLER_WORDS = tuple(name for name, figure in FIGURES.items() if figure.is_word and "propeller" in figure.of)
SHAFT_WORDS = tuple(name for name, figure in FIGURES.items() if figure.is_word and "shaft" in figure.of)


class NewItem(Body):
    """A thing in the hand. Each figure is optional, as text under its plain name or in SI under its full one."""

    place: Place = Field(description="Where it was put: a rack, a bin, a corner of the shed.")
    note: Note = ""
    tag: TiedOn = ""
    came_off_id: Id | None = Field(None, description="The drive that it came off.")
    basis: Basis = Field("measured", description="How the figures are known.")
    material: Metal | None = None


class PropellerWords(NewItem):
    """A propeller in the hand. Each figure is optional, as text under its plain name or in SI under its full one."""

    stamp: Words = Field("", description="As it stands on the hub; ? for a character that can't be read.")
    hand: Hand | None = Field(None, description="By look: how the near blade leans.")
    bore_kind: BoreKind | None = None
    blade_kind: BladeKind | None = None


NewPropeller = with_sizes("NewPropeller", PropellerWords, PROPELLER_SIZES)
NewShaft = with_sizes("NewShaft", NewItem, SHAFT_SIZES)


class ItemChange(Body):
    """The record itself, as it should stand; what is left out stays. Figures change by evidence alone."""

    version: Id = Field(description="The version that this change was made on.")
    place: Place | None = None
    note: Note | None = None
    is_for_sale: bool | None = None


class ItemPage(Body):
    """Newest first; `before` is what the page before gave."""

    before: IdInAddress | None = Field(None, description="Go on from here: the `before` of the last page.")
    limit: Limit = Field(50, description="How many at most.")


class ItemListed(Reply):
    """One item as a list shows it."""

    tag: str
    kind: str
    diameter_m: float | None
    pitch_m: float | None
    blades: int | None
    hand: Hand | None
    bore_large_m: float | None
    taper: float | None
    stamp: str
    where: str = Field(description="The place, or the boat and shaft that it is on.")
    is_proposed: bool
    is_at_odds: bool = Field(description="Whether some of its evidence contradicts some other.")


class Items(Reply):
    """A page of items, newest first."""

    items: list[ItemListed]
    before: int | None = Field(description="From where the next page goes on; null on the last.")


class Statement(Reply):
    """One statement about one figure."""

    id: int
    at: datetime
    said_by: str
    what: str
    value: float | str | None = Field(description="SI, or a word; null for a statement that withdraws another.")
    unit: str | None
    plus_minus: float | None
    typed: str
    basis: str
    true_from: datetime | None
    source: str
    source_id: int | None
    replaces_id: int | None
    is_replaced: bool
    why: str
    note: str


class Happened(Reply):
    """Something that happened to it."""

    id: int
    at: datetime
    said_by: str
    kind: str
    drive: str
    place: str
    note: str
    due_on: date | None = None
    by_whom: str = Field("", description="Who did the work, who declined it, or the second name.")
    cost: str = ""
    undoes_id: int | None = Field(None, description="The wrong move that this line undoes.")
    is_undone: bool = False
    why: str = ""
    tag: str = Field("", description="Under which of its tags it was written.")


class Contradiction(Reply):
    """Two statements about one figure that can't both be true."""

    what: str
    working: int = Field(description="The statement that the register goes by.")
    other: int = Field(description="The statement that contradicts it.")
    is_sure: bool = Field(description="False where neither says how well it was read.")


class Item(Reply):
    """A propeller or shaft: working figures, what contradicts them, every statement, all that happened."""

    tag: str
    kind: str
    version: int
    place: str
    note: str
    stamp: str
    aboard: str
    aboard_id: int | None
    came_off: str
    came_off_id: int | None
    standing: str = Field(description="here, aboard, shop, lent, sold, scrapped, lost or stolen.")
    due_on: date | None = Field(description="When it is expected back.")
    set_id: int | None = Field(description="The set that it comes off and goes on with.")
    bin_id: int | None
    is_proposed: bool
    is_for_sale: bool
    logged: datetime
    figures: dict[str, Figure] = Field(description="Working figures by their full name; what is not known is left out.")
    contradictions: list[Contradiction]
    evidence: list[Statement]
    events: list[Happened]
    assumed: list[Assumed] = Field([], description="Units that had to be assumed in what was just sent.")
