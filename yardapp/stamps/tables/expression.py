"""A table's grammar as one regular expression over folded marks, with a group for each part that matters."""

import re
from itertools import groupby

from yardapp.stamps.tables.automaton import Spelling
from yardapp.stamps.tables.confusions import LOOKS_LIKE
from yardapp.stamps.tables.grammar import Grammar, Part
from yardapp.stamps.tables.places import Place


def is_caught(part: Part) -> bool:
    """Whether its text is caught: a separator only where it may be confused with something."""
    return not part.is_separator or any(
        mark in LOOKS_LIKE for way in part.spellings for marks in way.classes for mark in marks
    )


def is_expressible(folded: Grammar) -> bool:
    """Whether one expression can say it: a separator that is caught can't also depend on the place before."""
    return not any(part.is_separator and is_caught(part) and _varies(folded, part.place) for part in folded.parts)


def expression(folded: Grammar, places: tuple[Place, ...]) -> str:
    """The whole mark; groups stand in the order of the parts that are caught."""
    return "".join(
        _place(folded, list(numbers), places[at].optional)
        for at, numbers in groupby(range(len(folded.parts)), key=lambda number: folded.parts[number].place)
    )


def _place(folded: Grammar, numbers: list[int], optional: bool) -> str:
    found = ""
    for number in numbers:
        part = folded.parts[number]
        written = "|".join(dict.fromkeys(_spelling(way) for way in part.spellings))
        caught = f"({written})" if is_caught(part) else f"(?:{written})"
        found += _by_place_before(folded, part.place, caught) if part.is_separator else caught
    return f"(?:{found})?" if optional else found


def _by_place_before(folded: Grammar, at: int, separator: str) -> str:
    """The separator, or none, as the place before allows; which place that is, the groups tell."""
    ways = {(True, True): f"{separator}?", (True, False): "", (False, True): separator, (False, False): "(?!)"}
    (_, farthest), *nearer = sorted(folded.before[at].items())
    found = ways[farthest]
    if _varies(folded, at):
        for before, allowed in nearer:
            found = f"(?({_group(folded, before)}){ways[allowed]}|{found})"
    return found


def _varies(folded: Grammar, at: int) -> bool:
    return len(set(folded.before[at].values())) > 1


def _group(folded: Grammar, place: int) -> int:
    """The number of a place's group."""
    caught = [part for part in folded.parts if is_caught(part)]
    return 1 + next(at for at, part in enumerate(caught) if part.place == place and not part.is_separator)


def _spelling(way: Spelling) -> str:
    if len(set(way.classes)) == 1 and len(way.classes) > 1:
        least = way.least or len(way.classes)
        return f"{_class(way.classes[0])}{{{least},{len(way.classes)}}}"
    return "".join(_class(marks) for marks in way.classes)


def _class(marks: str) -> str:
    return re.escape(marks) if len(marks) == 1 else f"[{''.join(re.escape(mark) for mark in marks)}]"
