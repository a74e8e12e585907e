"""Boats of the invented yard."""

from typing import Any

from sqlalchemy.orm import Session

from tests.factories.people import make_who
from yardapp.vessels import services as vessels
from yardapp.vessels.models import Drive, Vessel

DRIVE = {
    "position": "centre",
    "hand": "right",
    "shaft_diameter_m": 0.0381,
    "shaft_diameter_m_typed": "1 1/2 in",
    "u_shaft_diameter_m": 0.00003,
    "taper": 0.0625,
    "taper_typed": "1:16",
    "u_taper": 0.0003,
}


def make_vessel(session: Session, *, name: str = "Kittiwake", owner: str = "R. Thorne", **said: Any) -> Vessel:
    """A boat."""
    return vessels.log_vessel(session, make_who(session), name=name, owner=owner, **said)


def make_drive(session: Session, vessel: Vessel | None = None, **said: Any) -> Drive:
    """A drive, on a boat of its own unless one is given."""
    vessel = vessel or make_vessel(session)
    return vessels.set_drive(session, make_who(session), vessel.id, {**DRIVE, **said})
