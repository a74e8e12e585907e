"""Bins by name: how a place that people write finds its bin."""

import re

from sqlalchemy import select
from sqlalchemy.orm import Session

from yardapp.gear.models import Bin

_UNSAID = frozenset({"rack", "shelf", "bin", "no"})


def key_of(place: str) -> str:
    """A place as every hand writes it: `Rack C, bin 7`, `rack c bin 7` and `C7` are one."""
    return " ".join(word for word in re.findall(r"[^\W\d_]+|\d+", place.casefold()) if word not in _UNSAID)


def label_of_bin(rack: str, shelf: str, number: str) -> str:
    """`Rack C, shelf 2, bin 7`."""
    first = rack if any(len(word) > 2 for word in rack.split()) else f"Rack {rack}"
    return ", ".join([first, *([f"shelf {shelf}"] if shelf else []), f"bin {number}"])


def bin_at(session: Session, place: str) -> Bin | None:
    """The bin in use that a written place means, if it means one."""
    key = key_of(place)
    return session.scalar(select(Bin).where(Bin.key == key, Bin.is_in_use)) if key else None
