"""A thing drawn to scale from its own figures."""

from markupsafe import Markup

from yardapp import quantities
from yardapp.drawings.propeller import from_aft
from yardapp.gear.figures import FIGURES
from yardapp.gear.services import ItemPage
from yardapp.quantities import System


def picture_of(page: ItemPage, system: System) -> Markup | None:
    """The propeller to scale from its own figures; nothing for a shaft."""
    item = page.item
    if item.kind != "propeller":
        return None
    label = f"⌀ {quantities.show(item.diameter_m, 'length', system, u=item.u_diameter_m)}" if item.diameter_m else ""
    return from_aft(
        item.diameter_m,
        item.blades,
        item.hand,
        hub_diameter_m=item.hub_diameter_m,
        bore_m=item.bore_large_m,
        pitch_m=item.pitch_m,
        diameter_label=label,
    )


def picture_rows(page: ItemPage, system: System) -> list[tuple[str, str]]:
    """The drawing's figures as a table."""
    item = page.item
    names = ("diameter_m", "hub_diameter_m", "bore_large_m", "pitch_m")
    rows = [(FIGURES[name].label, quantities.show(getattr(item, name), "length", system)) for name in names]
    return [*rows, ("Blades", str(item.blades or "not known")), ("Hand", item.hand or "not known")]
