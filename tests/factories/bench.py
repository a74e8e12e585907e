"""Bench sheets of the invented yard."""

from math import radians
from typing import Any

from sqlalchemy.orm import Session

from tests.factories.people import make_who
from yardapp.bench import services as bench
from yardapp.bench.models import Sheet

# reference/pitch_examples.csv M1: rise 33.3 mm, u 0.2 mm, over 40 degrees, u 0.1 degree.
PITCH = {"rise_m": 0.0333, "u_rise_m": 0.0002, "swing_rad": radians(40), "u_swing_rad": radians(0.1)}


def make_pitch_sheet(session: Session, tag: str, **said: Any) -> Sheet:
    """One blade's pitch, kept."""
    return bench.measure_pitch(session, make_who(session), tag, bench.PitchReading(**{**PITCH, **said}))


def make_diameter_sheet(session: Session, tag: str, *, tip_radius_m: float = 0.28, u_m: float = 0.0005) -> Sheet:
    """A diameter from one tip radius, kept."""
    reading = bench.DiameterReading(tip_radius_m=tip_radius_m, u_tip_radius_m=u_m)
    return bench.measure_diameter(session, make_who(session), tag, reading)
