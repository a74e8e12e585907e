"""What the pages of the invented yard's story share: its people, drives and tags, its lists, its calendar."""

import csv
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from pathlib import Path

from sqlalchemy.orm import Session

from yardapp import quantities
from yardapp.db import now
from yardapp.people.services import Who
from yardapp.quantities import Kind

HERE = Path(__file__).parent


@dataclass(kw_only=True)
class Yard:
    """The yard while it is being entered."""

    session: Session
    photos: Path
    crew: dict[str, Who] = field(default_factory=dict)
    vessels: dict[str, int] = field(default_factory=dict)
    drives: dict[str, int] = field(default_factory=dict)
    systems: dict[str, int] = field(default_factory=dict)  # of coating, by name
    tags: dict[str, str] = field(default_factory=dict)  # by where a thing was when the lists had been entered
    blank: dict[str, list[str]] = field(default_factory=dict)  # blank tags by the kind of thing they wait for

    def who(self, name: str) -> Who:
        """Somebody of the yard, by first name."""
        return self.crew[name]

    def aboard(self, drive: str) -> str:
        """The tag of the propeller on that drive: `aboard("Tin Pelican, centre")`."""
        return self.tags[f"on {drive}"]

    def spare(self, drive: str) -> str:
        """The tag of the propeller that came off that drive."""
        return self.tags[f"off {drive}"]

    def at(self, place: str) -> str:
        """The tag of what lies at that place."""
        return self.tags[place]


def rows(name: str) -> Iterator[Mapping[str, str]]:
    """The lines of one of the lists beside this file."""
    with (HERE / f"{name}.csv").open(encoding="utf-8", newline="") as file:
        yield from csv.DictReader(file)


def ago(days: int) -> datetime:
    """A moment that many days ago. The story is told backwards from today, so that it never grows old."""
    return now() - timedelta(days=days)


def size(text: str, kind: Kind = "length") -> float:
    """What somebody typed, in SI."""
    return quantities.read(text, kind).value


def millimetres(value_m: float, decimals: int = 1) -> str:
    """A reading as it would be typed."""
    return f"{value_m * 1000:.{decimals}f} mm"
