"""Letters in the reader's units: figures, tasks, and what a verdict rests on."""

from yardapp import quantities
from yardapp.fit.checks.words import sentence
from yardapp.fit.figures import Figure
from yardapp.fit.kept import premises, put_down
from yardapp.fit.services import Pairing
from yardapp.fit.showing.kept import said_of
from yardapp.quantities import System

UNKNOWN = "not known"
Row = tuple[str, str, quantities.Kind]
PROPELLER: tuple[Row, ...] = (
    ("Diameter", "diameter_m", "length"),
    ("Pitch", "pitch_m", "length"),
    ("Bore, large end", "bore_large_m", "length"),
    ("Bore, small end", "bore_small_m", "length"),
    ("Bore, length", "bore_length_m", "length"),
    ("Taper", "taper", "taper"),
    ("Keyway, width", "keyway_width_m", "length"),
    ("Keyway, depth at its side", "keyway_depth_m", "length"),
    ("Hub, length", "hub_length_m", "length"),
    ("Hub, diameter", "hub_diameter_m", "length"),
)
SHAFT: tuple[Row, ...] = (
    ("Shaft at the large end", "shaft_diameter_m", "length"),
    ("Taper on diameter", "taper", "taper"),
    ("Taper, length", "taper_length_m", "length"),
    ("Keyway, width", "keyway_width_m", "length"),
    ("Keyway, depth at its side", "keyway_depth_m", "length"),
)


def propeller_rows(found: Pairing, system: System) -> list[tuple[str, str]]:
    """The propeller as the shop gets it."""
    hub = found.propeller
    words = [
        ("Hand", hub.hand or hub.hand_stamped or UNKNOWN),
        ("Blades", str(hub.blades or UNKNOWN)),
        ("Metal", hub.material or UNKNOWN),
        ("Bore", hub.bore_kind or UNKNOWN),
    ]
    return words + [(label, both(getattr(hub, name), kind, system)) for label, name, kind in PROPELLER]


def shaft_end_rows(found: Pairing, system: System) -> list[tuple[str, str]]:
    """The shaft end that it is to suit."""
    return [(label, both(getattr(found.room, name), kind, system)) for label, name, kind in SHAFT]


def both(figure: Figure | None, kind: quantities.Kind, system: System) -> str:
    """A figure with its ±, and in the other system behind it: a shop may work in either."""
    if figure is None:
        return UNKNOWN
    if kind == "length" and figure.value == 0:
        return "none"
    own = quantities.show(figure.value, kind, system, u=figure.u or None)
    if kind != "length":
        return own
    return f"{own} ({quantities.show(figure.value, kind, 'mm' if system == 'in' else 'in')})"


def rests_on(found: Pairing, system: System) -> list[tuple[str, str]]:
    """What the verdict rests on: each figure that was weighed, with its ± and how it is known."""
    put = put_down(found.propeller, found.room)
    paths = [path for check in found.verdict.checks for path in check.rests_on]
    weighed = [one for one in premises(put, put, paths) if one.is_rested_on]
    return [(sentence(one.label), said_of(one, one.then, system)) for one in weighed]
