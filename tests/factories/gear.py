"""Gear of the invented yard."""

from sqlalchemy.orm import Session

from tests.factories.people import make_who
from yardapp.gear import services as gear
from yardapp.gear.models import Item

PROPELLER = {
    "diameter_m": (0.559, 0.001),
    "pitch_m": (0.457, 0.008),
    "bore_large_m": (0.0381, 0.00005),
}


def make_propeller(
    session: Session, *, place: str = "Rack C, bin 7", hand: str | None = "right", **said: object
) -> Item:
    """A propeller, measured; `diameter_m=(value, u)` says otherwise, `diameter_m=None` leaves it unmeasured."""
    figures = {**PROPELLER, **said}
    statements = [
        gear.Said(what=what, basis="measured", value=figure[0], u_value=figure[1])
        for what, figure in figures.items()
        if isinstance(figure, tuple)
    ]
    if hand:
        statements.append(gear.Said(what="hand", basis="measured", word=hand))
    return gear.log_item(session, make_who(session), *statements, place=place)
