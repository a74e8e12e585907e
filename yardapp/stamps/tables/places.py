"""One place of a mark: what it tells, how it is written, what stands before it."""

from dataclasses import dataclass, field

from yardapp.stamps.tables.meanings import Lookup, Meaning, Nothing, Special
from yardapp.stamps.tables.sources import ALWAYS, UNSAID, Holds, Source

WRITTEN = ("digits", "letters", "list", "literal", "size", "any")


@dataclass(frozen=True)
class Place:
    """One of the ordered places of a mark."""

    tells: str
    written: str
    meaning: Meaning = field(default_factory=Nothing)
    literal: str = ""
    shortest: int = 1
    longest: int = 1
    separators: tuple[str, ...] = ()
    optional: bool = False
    specials: tuple[Special, ...] = ()
    title: str = ""
    source: Source = UNSAID
    holds: Holds = ALWAYS

    @property
    def codes(self) -> tuple[str, ...]:
        """Every code that its list and its special words spell out."""
        listed = [entry.code for entry in self.meaning.entries] if isinstance(self.meaning, Lookup) else []
        return tuple(dict.fromkeys([*listed, *(special.code for special in self.specials)]))

    @property
    def name(self) -> str:
        """How people call it: its title, else what it tells."""
        if self.title:
            return self.title
        if self.written == "literal":
            return f"`{self.literal}`"
        return "the " + self.tells.replace("_", " ") if self.tells != "nothing" else "what tells nothing"
