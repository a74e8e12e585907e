"""What a document is made of. Plain words throughout: nothing in them is markup."""

from dataclasses import dataclass
from typing import TypeAlias

Row: TypeAlias = tuple[str, ...]


@dataclass(frozen=True)
class Heading:
    """A heading over the parts that follow; it never stands alone at the foot of a page."""

    text: str


@dataclass(frozen=True)
class Words:
    """A paragraph; a line break stays one. `is_small` for a note, `is_strong` for what must be seen."""

    text: str
    is_small: bool = False
    is_strong: bool = False


@dataclass(frozen=True)
class Figures:
    """Figures by their names, one below the other."""

    rows: tuple[tuple[str, str], ...]


@dataclass(frozen=True)
class Table:
    """A table; its head stands again on each page that it runs on to."""

    head: Row
    rows: tuple[Row, ...]


@dataclass(frozen=True)
class Tick:
    """A line with a box to tick, what stands beside it, and a note below."""

    label: str
    value: str = ""
    note: str = ""
    is_ticked: bool = False


@dataclass(frozen=True)
class Picture:
    """One of our own drawings, as its SVG text; `wide` is its share of the page's width."""

    svg: str
    caption: str = ""
    wide: float = 0.6


Part: TypeAlias = Heading | Words | Figures | Table | Tick | Picture
