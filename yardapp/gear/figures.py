"""The figures that the register keeps of an item: their names everywhere, their labels, and what ages them."""

from dataclasses import dataclass
from typing import Any


@dataclass(frozen=True)
class FigureName:
    """One figure: its name from column to formula, and how people call it."""

    name: str
    label: str
    kind: Any  # as quantities calls it; "word" for one of a list
    of: tuple[str, ...] = ("propeller",)

    @property
    def is_word(self) -> bool:
        """Whether it is one of a list of words, not a number."""
        return bool(self.kind == "word")


@dataclass(frozen=True)
class KindOfItem:
    """One kind of thing that gets a tag: how one and several are called, and the letter its tags begin with."""

    label: str
    plural: str
    letter: str


KINDS = {
    "propeller": KindOfItem("Propeller", "Propellers", "P"),
    "shaft": KindOfItem("Shaft", "Shafts", "S"),
    "nut": KindOfItem("Nut", "Nuts", "N"),
    "lock": KindOfItem("Lock", "Locks", "L"),
    "key": KindOfItem("Key", "Keys", "K"),
    "cutter": KindOfItem("Cutter", "Cutters", "C"),
    "anode": KindOfItem("Anode", "Anodes", "A"),
    "bearing": KindOfItem("Stern bearing", "Stern bearings", "B"),
    "bracket": KindOfItem("Bracket", "Brackets", "R"),
    "coupling": KindOfItem("Coupling", "Couplings", "U"),
    "gland": KindOfItem("Gland", "Glands", "G"),
    "other": KindOfItem("Other part", "Other parts", "X"),
}
LETTERS = {kind: one.letter for kind, one in KINDS.items()}
# A shaft line carries one of each of these at a time, and any number of the rest.
ONE_A_LINE = ("propeller", "shaft")
PARTS = tuple(kind for kind in KINDS if kind not in ONE_A_LINE)

_BOTH = ("propeller", "shaft")
FIGURES = {
    figure.name: figure
    for figure in (
        FigureName("hand", "Hand", "word", ("propeller", "nut")),
        FigureName("blades", "Blades", "count"),
        FigureName("diameter_m", "Diameter", "length", _BOTH),
        FigureName("pitch_m", "Pitch", "length"),
        FigureName("bore_kind", "Bore", "word"),
        FigureName("bore_large_m", "Bore, large end", "length"),
        FigureName("bore_small_m", "Bore, small end", "length"),
        FigureName("bore_length_m", "Bore, length", "length"),
        FigureName("taper", "Taper", "taper", _BOTH),
        FigureName("taper_length_m", "Taper, length", "length", ("shaft",)),
        FigureName("keyway_width_m", "Keyway, width", "length", _BOTH),
        FigureName("keyway_depth_m", "Keyway, depth", "length", _BOTH),
        FigureName("hub_length_m", "Hub, length", "length"),
        FigureName("hub_diameter_m", "Hub, diameter", "length"),
        FigureName("thread_diameter_m", "Thread diameter", "length", ("nut",)),
        FigureName("thread_pitch_m", "Thread pitch", "length", ("nut",)),
        FigureName("lock_kind", "Lock is a", "word", ("lock",)),
        FigureName("key_kind", "Key is", "word", ("key",)),
        FigureName("gland_kind", "Gland is", "word", ("gland",)),
        FigureName("bore_m", "Bore", "length", ("cutter", "anode", "bearing", "bracket", "coupling", "gland", "other")),
        FigureName(
            "outside_diameter_m", "Outside diameter", "length", ("lock", "bearing", "coupling", "gland", "other")
        ),
        FigureName("bolt_circle_m", "Bolt circle", "length", ("coupling",)),
        FigureName("packing_m", "Packing across", "length", ("gland",)),
        FigureName("width_m", "Width", "length", ("nut", "lock", "key", "other")),
        FigureName("height_m", "Height", "length", ("key", "other")),
        FigureName("length_m", "Length", "length", ("shaft", "nut", "key", "cutter", "bearing", "bracket", "other")),
        FigureName("anode_metal", "Anode metal", "word", ("anode",)),
        FigureName("left_ratio", "Share left", "number", ("anode",)),
        FigureName("material", "Metal", "word", (*_BOTH, "nut", "lock", "key", "bracket", "coupling", "other")),
        FigureName("area_ratio", "Blade area ratio", "number"),
        FigureName("mass_kg", "Weight", "mass", ("propeller", "anode", "other")),
        FigureName("blade_kind", "Blades are", "word"),
    )
}
NUMBERS = tuple(name for name, figure in FIGURES.items() if not figure.is_word)
HANDS = ("right", "left")
BORE_KINDS = ("taper", "parallel", "pilot")
MATERIALS = ("manganese bronze", "aluminium bronze", "stainless steel", "aluminium", "cast iron", "other")
BLADE_KINDS = ("fixed", "folding", "feathering", "controllable")
LOCK_KINDS = ("tab washer", "split pin", "second nut", "locking strap", "locking plate", "other")
KEY_KINDS = ("parallel", "stepped", "sled-ended")
GLAND_KINDS = ("packed", "lip seal", "face seal")
ANODE_METALS = ("zinc", "aluminium", "magnesium")
WORDS = {
    "hand": HANDS,
    "bore_kind": BORE_KINDS,
    "material": MATERIALS,
    "blade_kind": BLADE_KINDS,
    "lock_kind": LOCK_KINDS,
    "key_kind": KEY_KINDS,
    "gland_kind": GLAND_KINDS,
    "anode_metal": ANODE_METALS,
}

_BORE = frozenset({"bore_kind", "bore_large_m", "bore_small_m", "bore_length_m", "taper"})
_KEYWAY = frozenset({"keyway_width_m", "keyway_depth_m"})
# What a piece of work leaves in doubt: figures read before it no longer speak.
WORK: dict[str, frozenset[str]] = {
    "inspected": frozenset(),
    "straightened": frozenset({"pitch_m"}),
    "re-pitched": frozenset({"pitch_m"}),
    "cut down": frozenset({"diameter_m", "area_ratio", "mass_kg"}),
    "bored": _BORE | _KEYWAY | {"bore_m"},
    "re-bored": _BORE | _KEYWAY | {"bore_m"},
    "keyed": _KEYWAY,
    "re-stamped": frozenset(),
    "welded": frozenset({"pitch_m", "mass_kg"}),
    "polished": frozenset(),
    "balanced": frozenset({"mass_kg"}),
}


def kind_of_tag(tag: str) -> str:
    """What a tag's letter says that it hangs on."""
    return next((kind for kind, letter in LETTERS.items() if tag.upper().startswith(letter)), "propeller")


def figures_of(kind: str) -> list[FigureName]:
    """The figures of one kind of thing, in the order in which a page shows them."""
    return [figure for figure in FIGURES.values() if kind in figure.of]
