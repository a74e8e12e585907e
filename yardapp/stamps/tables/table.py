"""A maker's table: how its marks are built, and who says so."""

from dataclasses import dataclass

from yardapp.stamps.tables.places import Place
from yardapp.stamps.tables.sources import ALWAYS, UNSAID, Holds, Source

CERTAINTY_UNSAID = 0.5
STRUCK = ("new", "later")


@dataclass(frozen=True)
class Table:
    """How one maker builds a mark. `struck` is "later" for a shop's re-stamp, which is newer than the maker's mark."""

    maker: str
    title: str
    places: tuple[Place, ...]
    source: Source = UNSAID
    holds: Holds = ALWAYS
    version: int = 1
    struck: str = "new"
    notes: str = ""
    schema: int = 1

    @property
    def certainty(self) -> float:
        """How sure the table is as a whole, 0 to 1; a half where nobody said."""
        return CERTAINTY_UNSAID if self.source.certainty is None else self.source.certainty

    @property
    def name(self) -> str:
        """Maker and title, as a reading names it."""
        return f"{self.maker}, {self.title}" if self.title else self.maker
