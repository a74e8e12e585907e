"""Which characters of a mark were taken for which others, once it is known what it was read as."""

from collections.abc import Sequence

from yardapp.stamps.tables.confusions import LOOKS_LIKE
from yardapp.stamps.tables.seen import ANY, RUN

# Cost so far, where it came from (element, character), what was assumed.
_Cell = tuple[int, tuple[str, ...]]


def confusions(seen: Sequence[str], mark: str) -> tuple[str, ...]:
    """The fewest confusions that turn what was seen into the mark: O read as 0."""
    row: list[_Cell | None] = [(0, ()), *[None] * len(mark)]
    for element in seen:
        row = _next_row(row, element, mark)
    end = row[-1]
    return end[1] if end else ()


def _next_row(row: list[_Cell | None], element: str, mark: str) -> list[_Cell | None]:
    """The cells after one more element of what was seen."""
    below: list[_Cell | None] = [row[0] if element in (RUN, " ", ".") else None]
    for at, character in enumerate(mark):
        ways = [_taken(row[at], element, character)]
        if element in (RUN, " ", "."):
            ways.append(row[at + 1])
        if element == RUN:
            ways.append(below[at])
        below.append(min((way for way in ways if way), default=None, key=lambda way: way[0]))
    return below


def _taken(before: _Cell | None, element: str, character: str) -> _Cell | None:
    if before is None or element == RUN:
        return None
    if character in element or element == ANY:
        return before
    near = [one for one in element if character in LOOKS_LIKE.get(one, "")]
    return (before[0] + 1, (*before[1], f"{near[0]} read as {character}")) if near else None
