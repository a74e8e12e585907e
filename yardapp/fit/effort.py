"""How long each piece of work takes, roughly, so that lists can be ranked by it."""

from collections.abc import Iterable

from yardapp.fit.ranking.case import BITS

# Hours of a shop that does it often, propeller off and in front of it: common practice, no source. From, to.
HOURS: dict[str, tuple[float, float]] = {
    "lap": (0.5, 1.5),
    "fit a spacer": (0.5, 1.5),
    "fit a key": (1, 2),
    "open the keyway": (1, 3),
    "shift the cutter": (0.5, 1.5),
    "mend": (2, 8),
    "bore and key": (2, 4),
    "re-bore": (3, 5),
    "re-pitch": (3, 6),
    "cut down": (3, 6),
    "fit a bearing": (4, 10),
    "bush and re-bore": (6, 10),
    "another propeller": (0, 0),
    "another shaft": (0, 0),
}
UNKNOWN = (4.0, 8.0)


def hours_of(works: Iterable[str]) -> tuple[float, float]:
    """From and to of all of the works together."""
    each = [HOURS.get(work, UNKNOWN) for work in works]
    return sum(low for low, _ in each), sum(high for _, high in each)


def in_words(works: Iterable[str]) -> str:
    """`about 3 to 5 hours`; nothing where there is nothing to do, or nothing that can be priced."""
    low, high = hours_of(works)
    return f"about {low:g} to {high:g} hours" if high else ""


MIDDLE = {bit: sum(HOURS.get(work, UNKNOWN)) / 2 for work, bit in BITS.items()}
