"""What one place of a mark says, once its characters are read."""

import math
import re
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property

from yardapp.stamps.tables.meanings import Entry, FreeText, Lookup, Nothing, Number, Run, Special, Words
from yardapp.stamps.tables.places import Place
from yardapp.stamps.tables.seen import spell
from yardapp.stamps.tables.sources import ALWAYS, Holds, Source
from yardapp.stamps.tables.things import GOOD_TO, IN_SI, THINGS, in_si

CERTAINTY_OF_UNKNOWN = 0.3  # of a code that is not in its list; a judgement
LEAST_CERTAINTY = 0.01
MOST_REMEMBERED = 4096
ROOT_12 = math.sqrt(12)

Value = float | int | str | None


@dataclass(frozen=True)
class Told:
    """One place's words: `value` in SI with `u` its rounding (k = 1); or only `words`."""

    place: int
    tells: str
    figure: str
    text: str
    value: Value = None
    u: float = 0.0
    words: str = ""
    certainty: float = 1.0
    is_unknown: bool = False
    holds: tuple[Holds, ...] = ()
    source: Source | None = None

    @cached_property
    def log_certainty(self) -> float:
        """What it costs a reading that this is not sure."""
        return math.log(max(self.certainty, LEAST_CERTAINTY))


Option = tuple[Told, ...]  # all that one code tells


class Teller:
    """One place of one table, ready to say what a text means."""

    def __init__(self, place: Place, at: int) -> None:
        self.place, self.at, self.thing = place, at, THINGS[place.tells]
        self.specials = {spell(special.code): special for special in place.specials}
        self.entries: dict[str, list[Entry]] = {}
        if isinstance(place.meaning, Lookup):
            for entry in place.meaning.entries:
                self.entries.setdefault(spell(entry.code), []).append(entry)
        self.run = place.meaning.values if isinstance(place.meaning, Run) else {}
        self._known: dict[str, tuple[Option, ...]] = {}

    @property
    def is_kept(self) -> bool:
        """Whether its text is kept as it stands, so that an unreadable character in it makes no more readings."""
        tells_little = self.place.tells == "nothing" or isinstance(self.place.meaning, FreeText | Nothing)
        return tells_little and not self.specials

    @property
    def codes(self) -> tuple[str, ...]:
        """Every code of its list and its special words, as marks are spelled."""
        return (*self.entries, *self.specials)

    @property
    def lists_some(self) -> bool:
        """Whether it knows some of the codes that may stand here, and others may be unknown."""
        return bool(self.entries) and self.place.written != "list"

    @property
    def is_beside(self) -> bool:
        """Whether it is no figure of the propeller itself, so that little of it legible is no loss."""
        return self.place.tells == "year"

    def options(self, text: str) -> tuple[Option, ...]:
        """Everything the text may mean here; nothing when it can't stand here. Remembered by text."""
        found = self._known.get(text)
        if found is None:
            if len(self._known) >= MOST_REMEMBERED:
                self._known.clear()
            found = self._known[text] = tuple(self._options(text))
        return found

    def _options(self, text: str) -> Iterator[Option]:
        meaning = self.place.meaning
        if special := self.specials.get(text):
            yield (self._special(special, text),)
        elif isinstance(meaning, Number):
            yield from self._number(meaning, text)
        elif isinstance(meaning, Lookup):
            for entry in self.entries.get(text, ()):
                yield self._entry(meaning, entry, text)
            if text not in self.entries:
                yield (self.unknown(text),)
        elif isinstance(meaning, Run):
            yield (self._run(meaning, text),)
        elif not isinstance(meaning, Words):
            yield (self.kept(text),)

    def kept(self, text: str) -> Told:
        """The text as it stands, with no more meaning than itself."""
        is_said = isinstance(self.place.meaning, FreeText) and "?" not in text and "*" not in text
        return self._told(text, value=text if is_said else None)

    def unknown(self, text: str) -> Told:
        """A code that is not in the list."""
        return self._told(
            text, words="not in the list", certainty=CERTAINTY_OF_UNKNOWN * self._certainty(), is_unknown=True
        )

    def unread(self, text: str) -> Told:
        """Too much of it can't be read to say what it means."""
        return self._told(text, words="can't be read", is_unknown=True)

    def _special(self, special: Special, text: str) -> Told:
        return self._told(
            text,
            words=special.words,
            certainty=self._certainty(special.source),
            holds=self._holds(special.holds),
            source=special.source,
        )

    def _number(self, meaning: Number, text: str) -> Iterator[Option]:
        read = figure(text)
        if read is None:
            return
        number, step = read
        value = meaning.offset + meaning.scale * float(number)
        if value > 0:
            rounded = abs(meaning.scale) * float(step) if meaning.rounded_to is None else meaning.rounded_to
            told = self._valued(text, value, meaning.unit, rounded)
            if self.thing.least <= float(told.value or 0) <= self.thing.most:
                yield (told,)

    def _run(self, meaning: Run, text: str) -> Told:
        value = self.run.get(text)
        if value is None:
            return self.unknown(text)
        return self._valued(text, value, meaning.unit, _good_to(meaning.rounded_to, meaning.unit))

    def _entry(self, meaning: Lookup, entry: Entry, text: str) -> Option:
        certainty, holds = self._certainty(entry.source), self._holds(entry.holds)
        told = [self._listed(meaning, entry, text, certainty, holds)]
        for also in entry.also:
            told.append(self._also(also.tells, also.value, also.unit, text))
        return tuple(told)

    def _listed(self, meaning: Lookup, entry: Entry, text: str, certainty: float, holds: tuple[Holds, ...]) -> Told:
        value, u = entry.value, 0.0
        if isinstance(value, int | float):
            u = _good_to(meaning.rounded_to, meaning.unit) * IN_SI[meaning.unit] / ROOT_12
            value = self._plain(in_si(value, meaning.unit))
        return self._told(
            text, value=value, u=u, words=entry.words, certainty=certainty, holds=holds, source=entry.source
        )

    def _also(self, tells: str, value: float | str, unit: str, text: str) -> Told:
        thing = THINGS[tells]
        if isinstance(value, str):
            return Told(self.at, tells, thing.figure, text, value)
        si = in_si(value, unit)
        u = 0.0 if thing.is_whole else _good_to(None, unit) * IN_SI[unit] / ROOT_12
        return Told(self.at, tells, thing.figure, text, int(si) if thing.is_whole else si, u)

    def _valued(self, text: str, value: float, unit: str, rounded: float) -> Told:
        u = 0.0 if self.thing.is_whole else rounded * IN_SI[unit] / ROOT_12
        return self._told(text, value=self._plain(in_si(value, unit)), u=u)

    def _plain(self, value: float) -> float | int:
        return int(value) if self.thing.is_whole else value

    def _told(
        self,
        text: str,
        *,
        value: Value = None,
        u: float = 0.0,
        words: str = "",
        certainty: float | None = None,
        is_unknown: bool = False,
        holds: tuple[Holds, ...] | None = None,
        source: Source | None = None,
    ) -> Told:
        sure = self._certainty() if certainty is None else certainty
        held = self._holds() if holds is None else holds
        return Told(
            self.at,
            self.place.tells,
            self.thing.figure,
            text,
            value,
            u,
            words,
            sure,
            is_unknown,
            held,
            source or self.place.source,
        )

    def _certainty(self, source: Source | None = None) -> float:
        own = [one.certainty for one in (self.place.source, source) if one and one.certainty is not None]
        return math.prod(own)

    def _holds(self, holds: Holds = ALWAYS) -> tuple[Holds, ...]:
        return tuple(one for one in (self.place.holds, holds) if one != ALWAYS)


def _good_to(rounded_to: float | None, unit: str) -> float:
    return GOOD_TO.get(unit, 0.0) if rounded_to is None else rounded_to


_FIGURE = re.compile(r"(?P<whole>\d+)(?:\.(?P<decimals>\d+)|[- ](?P<over>\d+)/(?P<under>\d+))?", re.ASCII)


def figure(text: str) -> tuple[Fraction, Fraction] | None:
    """A number as struck, and the step of its last figure; None where a fraction is not below one.

    >>> figure("22-1/2"), figure("560")
    ((Fraction(45, 2), Fraction(1, 2)), (Fraction(560, 1), Fraction(1, 1)))
    """
    found = _FIGURE.fullmatch(text)
    if found is None:
        return None
    number = Fraction(found["whole"])
    if found["decimals"]:
        step = Fraction(1, 10 ** len(found["decimals"]))
        return number + int(found["decimals"]) * step, step
    if found["under"]:
        part = Fraction(int(found["over"]), int(found["under"]))
        return (number + part, Fraction(1, int(found["under"]))) if 0 < part < 1 else None
    return number, Fraction(1)
