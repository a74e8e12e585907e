"""What the characters of a place mean: a number, a list, a run of letters, special words, free text, or nothing."""

import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import ClassVar

from yardapp.stamps.tables.sources import ALWAYS, UNSAID, Holds, Source

LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"


@dataclass(frozen=True)
class Also:
    """One more thing that a code tells beside its place's own."""

    tells: str
    value: float | str
    unit: str = ""


@dataclass(frozen=True)
class Entry:
    """One code of a list: its value in the list's unit, or a word, or only words about it."""

    code: str
    value: float | str | None = None
    words: str = ""
    also: tuple[Also, ...] = ()
    source: Source = UNSAID
    holds: Holds = ALWAYS


@dataclass(frozen=True)
class Special:
    """A code that stands for words instead of a value: pilot bore, not standard, ask."""

    code: str
    words: str
    source: Source = UNSAID
    holds: Holds = ALWAYS


@dataclass(frozen=True)
class Number:
    """The number itself: offset + scale x what is written, in the unit."""

    kind: ClassVar[str] = "number"
    unit: str = "mm"
    scale: float = 1.0
    offset: float = 0.0
    rounded_to: float | None = None


@dataclass(frozen=True)
class Lookup:
    """A list of codes."""

    kind: ClassVar[str] = "list"
    entries: tuple[Entry, ...] = ()
    unit: str = ""
    rounded_to: float | None = None


@dataclass(frozen=True)
class Run:
    """Letters that count: the first has `value`, each next one `step` more, some letters left out."""

    kind: ClassVar[str] = "run"
    first: str = "A"
    value: float = 0.0
    step: float = 1.0
    last: str = "Z"
    without: str = ""
    unit: str = "mm"
    rounded_to: float | None = None

    @property
    def letters(self) -> str:
        """The letters that the run uses, from its first to its last; none where it reaches no end."""
        used = [letter for letter in LETTERS if letter not in self.without.upper()]
        first, last = self.first.upper(), self.last.upper()
        if first not in used or last not in used:
            return ""
        return "".join(used[used.index(first) : used.index(last) + 1])

    @property
    def values(self) -> Mapping[str, float]:
        """Letter to value, in the run's unit."""
        return {letter: self.value + self.step * at for at, letter in enumerate(self.letters)}

    @property
    def is_finite(self) -> bool:
        """Whether its figures are numbers at all."""
        return math.isfinite(self.value) and math.isfinite(self.step)


@dataclass(frozen=True)
class Words:
    """Nothing but the place's special words."""

    kind: ClassVar[str] = "special"


@dataclass(frozen=True)
class FreeText:
    """The text as it stands."""

    kind: ClassVar[str] = "text"


@dataclass(frozen=True)
class Nothing:
    """It tells nothing."""

    kind: ClassVar[str] = "nothing"


Meaning = Number | Lookup | Run | Words | FreeText | Nothing
