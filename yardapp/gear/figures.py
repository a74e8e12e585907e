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


_BOTH = ("propeller", "shaft")
FIGURES = {
    figure.name: figure
    for figure in (
        FigureName("hand", "Hand", "word"),
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
        FigureName("length_m", "Length", "length", ("shaft",)),
        FigureName("material", "Metal", "word", _BOTH),
        FigureName("area_ratio", "Blade area ratio", "number"),
        FigureName("mass_kg", "Weight", "mass"),
        FigureName("blade_kind", "Blades are", "word"),
    )
}
NUMBERS = tuple(name for name, figure in FIGURES.items() if not figure.is_word)
HANDS = ("right", "left")
BORE_KINDS = ("taper", "parallel", "pilot")
MATERIALS = ("manganese bronze", "aluminium bronze", "stainless steel", "aluminium", "cast iron", "other")
BLADE_KINDS = ("fixed", "folding", "feathering", "controllable")
WORDS = {"hand": HANDS, "bore_kind": BORE_KINDS, "material": MATERIALS, "blade_kind": BLADE_KINDS}

_BORE = frozenset({"bore_kind", "bore_large_m", "bore_small_m", "bore_length_m", "taper"})
_KEYWAY = frozenset({"keyway_width_m", "keyway_depth_m"})
# What a piece of work leaves in doubt: figures read before it no longer speak.
WORK = {
    "re-pitched": frozenset({"pitch_m"}),
    "straightened": frozenset({"pitch_m"}),
    "cut down": frozenset({"diameter_m", "area_ratio", "mass_kg"}),
    "re-bored": _BORE | _KEYWAY,
    "keyed": _KEYWAY,
}


def figures_of(kind: str) -> list[FigureName]:
    """The figures of a propeller or of a shaft, in the order in which a page shows them."""
    return [figure for figure in FIGURES.values() if kind in figure.of]
