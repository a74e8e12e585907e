"""Where a meaning is known from, how sure it is, and for which years or serial numbers it holds."""

from dataclasses import dataclass


@dataclass(frozen=True)
class Source:
    """Who said it, when (an ISO date), in which document; how sure, 0 to 1, where None is as sure as what holds it."""

    said_by: str = ""
    said_on: str = ""
    document: str = ""
    certainty: float | None = None


@dataclass(frozen=True)
class Holds:
    """The years and the serial numbers it holds for, both ends included; None is open."""

    year_from: int | None = None
    year_to: int | None = None
    serial_from: int | None = None
    serial_to: int | None = None

    def overlaps(self, other: "Holds") -> bool:
        """Whether some propeller may fall under both."""
        years = _meet((self.year_from, self.year_to), (other.year_from, other.year_to))
        return years and _meet((self.serial_from, self.serial_to), (other.serial_from, other.serial_to))

    def leaves_out(self, year: int | None, serial: int | None) -> bool:
        """Whether a propeller of this year and serial lies outside; what is not known never does."""
        return _outside(year, self.year_from, self.year_to) or _outside(serial, self.serial_from, self.serial_to)

    @property
    def words(self) -> str:
        """The ranges as people say them: from 1971 to 1984, serial up to 950."""
        said = [("", _range(self.year_from, self.year_to)), ("serial ", _range(self.serial_from, self.serial_to))]
        return ", ".join(what + part for what, part in said if part)


ALWAYS = Holds()
UNSAID = Source()

Ends = tuple[int | None, int | None]


def _meet(one: Ends, other: Ends) -> bool:
    return _before(one[0], other[1]) and _before(other[0], one[1])


def _before(start: int | None, end: int | None) -> bool:
    return start is None or end is None or start <= end


def _outside(number: int | None, start: int | None, end: int | None) -> bool:
    return number is not None and not (_before(start, number) and _before(number, end))


def _range(start: int | None, end: int | None) -> str:
    if start is None:
        return "" if end is None else f"up to {end}"
    return f"from {start}" if end is None else f"from {start} to {end}"
