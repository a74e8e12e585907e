"""How the bench works a figure out: the formulas behind it, by name, for a page to lead to."""

from yardapp.gear.figures import FIGURES
from yardapp.gear.services import ItemPage

WAYS = {
    "pitch_m": ("pitch.pitch_from_rise", "pitch.pitch_from_angle", "pitch.pitch_from_chord"),
    "diameter_m": (
        "diameter.diameter_from_tip_radius",
        "diameter.diameter_across",
        "diameter.diameter_from_tip_chord",
        "diameter.diameter_from_next_tip",
        "diameter.diameter_from_string",
    ),
    "taper": ("taper.taper_from_ends",),
    "area_ratio": ("area.blade_area_ratio",),
}
OF_PROPELLERS = frozenset({"pitch_m", "diameter_m", "area_ratio"})


def ways_of(kind: str, what: str) -> list[tuple[str, str]]:
    """The formulas that a figure of this kind of thing may be worked out by: name, and in words."""
    if what in OF_PROPELLERS and kind != "propeller":
        return []
    return [(name, name.partition(".")[2].replace("_", " ")) for name in WAYS.get(what, ())]


def worked_out(page: ItemPage) -> list[tuple[str, list[tuple[str, str]]]]:
    """The working figures that a bench sheet worked out, each with its formulas."""
    found = []
    for what, basis in page.item.known.items():
        line = next(
            (one for one in page.evidence if one.kind == what and one.basis == basis and not one.is_replaced), None
        )
        ways = ways_of(page.item.kind, what) if line is not None and line.source == "sheet" else []
        if ways:
            found.append((FIGURES[what].label, ways))
    return found
