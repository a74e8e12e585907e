"""What a place of a mark may tell, in which units, and within which bounds."""

from dataclasses import dataclass
from typing import Literal

Tells = Literal[
    "diameter", "pitch", "hand", "blades", "bore", "area_ratio", "material", "series", "year", "serial", "nothing"
]

METRES = {"mm": 0.001, "cm": 0.01, "m": 1.0, "in": 0.0254}
# In the unit: what a maker's own list is good to, where nobody said otherwise; a judgement.
GOOD_TO = {"mm": 1.0, "cm": 0.1, "m": 0.001, "in": 0.125}
PURE = {"count": 1.0, "ratio": 1.0, "percent": 0.01, "year": 1.0}
IN_SI = METRES | PURE


@dataclass(frozen=True)
class Thing:
    """One thing a place tells: its figure's name in the register, its units, its bounds in SI."""

    tells: str
    figure: str
    units: tuple[str, ...] = ()
    least: float = 0.0
    most: float = 0.0
    words: tuple[str, ...] = ()

    @property
    def is_number(self) -> bool:
        """Whether it is told as a number in a unit."""
        return bool(self.units)

    @property
    def is_whole(self) -> bool:
        """Whether only whole numbers make sense."""
        return self.units in (("count",), ("year",))


# The bounds are judgements: what no propeller of a yard goes beyond.
THINGS: dict[str, Thing] = {
    thing.tells: thing
    for thing in (
        Thing("diameter", "diameter_m", tuple(METRES), 0.05, 8.0),
        Thing("pitch", "pitch_m", tuple(METRES), 0.03, 12.0),
        Thing("hand", "hand", words=("right", "left")),
        Thing("blades", "blades", ("count",), 1, 9),
        Thing("bore", "bore_m", tuple(METRES), 0.003, 1.0),
        Thing("area_ratio", "area_ratio", ("ratio", "percent"), 0.1, 1.5),
        Thing("material", "material"),
        Thing("series", "series"),
        Thing("year", "year", ("year",), 1850, 2100),
        Thing("serial", "serial"),
        Thing("nothing", ""),
    )
}


def in_si(value: float, unit: str) -> float:
    """A figure of a table in SI; rounded to twelve digits, so that 22 in is 0.5588 m.

    >>> in_si(22, "in")
    0.5588
    """
    return float(f"{value * IN_SI[unit]:.12g}")
