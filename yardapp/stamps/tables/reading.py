"""What a mark says: one reading by one table, and all of them together."""

from collections.abc import Sequence
from dataclasses import dataclass, field
from functools import cached_property

from yardapp.stamps.tables.alignment import confusions
from yardapp.stamps.tables.rank import CONFUSION, FILLED, NO_WORD, OUTSIDE, Agreement
from yardapp.stamps.tables.table import Table
from yardapp.stamps.tables.told import Option, Told, Value

MOST_READINGS = 200


@dataclass(frozen=True)
class Reading:
    """One way in which one table reads a mark. `mark` is what it takes the mark to be, ? where that stays open.

    `example` is one whole mark of this reading, with something in each place that stays open.
    """

    table: Table
    key: object
    seen: Sequence[str]
    mark: str
    told: Option
    score: float
    confusion_count: int = 0
    filled_count: int = 0
    agreement: Agreement = NO_WORD
    silent: tuple[tuple[str, float], ...] = ()
    outside: tuple[str, ...] = ()
    log_certainty: float = 0.0
    example: str = ""

    @property
    def ruled_out(self) -> tuple[str, ...]:
        """The figures by which the tape rules it out."""
        return self.agreement.ruled_out

    @property
    def doubted(self) -> tuple[str, ...]:
        """The figures that the tape makes doubtful."""
        return self.agreement.doubted

    @cached_property
    def confused(self) -> tuple[str, ...]:
        """Which characters were taken for others: O read as 0."""
        return confusions(self.seen, self.example or self.mark) if self.confusion_count else ()

    @property
    def figures(self) -> dict[str, Value]:
        """Figure to value, in SI, of all that is told."""
        return {one.figure: one.value for one in self.told if one.figure and one.value is not None}

    @property
    def u(self) -> dict[str, float]:
        """Figure to its rounding, k = 1, of the sizes that are told."""
        return {one.figure: one.u for one in self.told if one.u and one.value is not None}

    @property
    def words(self) -> dict[str, str]:
        """What it tells to the words that stand for it, or beside its value."""
        return {one.tells: one.words for one in self.told if one.words and not one.is_unknown}

    @property
    def parts(self) -> tuple[tuple[str, float], ...]:
        """The score's parts, each a logarithm; they add up to it."""
        match = CONFUSION * self.confusion_count + FILLED * self.filled_count
        spoken = {name for name, _ in self.agreement.parts}
        silent = tuple((name, log) for name, log in self.silent if name not in spoken)
        outside = (("years and serials", OUTSIDE * len(self.outside)),) if self.outside else ()
        return (("match", match), ("certainty", self.log_certainty), *self.agreement.parts, *silent, *outside)

    @property
    def why(self) -> tuple[str, ...]:
        """Sentence by sentence: which place said what, what was assumed, what speaks against it."""
        said = [sentence(self.table, one) for one in self.told if one.figure or one.words]
        said += [f"{confusion}, a common confusion" for confusion in self.confused]
        if self.filled_count > 0:
            said.append(f"the unknown run would be {self.filled_count} characters")
        said += self.outside
        said += [f"the tape rules it out by its {_called(name)}" for name in self.ruled_out]
        said += [f"the tape makes its {_called(name)} doubtful" for name in self.doubted]
        return tuple(said)


@dataclass(frozen=True)
class Readings:
    """Every reading that some table allows, best first, at most 200 of them; `count` is how many there are."""

    seen: str
    found: tuple[Reading, ...]
    count: int
    ruled_out: int = 0
    is_at_least: bool = False
    refusal: str = ""
    is_measured: bool = field(default=False, compare=False)

    @property
    def best(self) -> Reading | None:
        """The reading of the highest rank."""
        return self.found[0] if self.found else None

    @property
    def too_little(self) -> bool:
        """Whether too little is legible to look at each reading."""
        return self.is_at_least or self.count > MOST_READINGS

    @property
    def said(self) -> str:
        """One sentence about them all."""
        if self.refusal:
            return self.refusal
        if self.is_at_least and not self.count:
            return "too little is legible to count the readings"
        if self.too_little:
            return f"too little is legible: {self.count} or more readings"
        if not self.count:
            return "no table reads it"
        if self.ruled_out:
            return f"the tape rules out {self.ruled_out} of {self.count}"
        counted = "one reading" if self.count == 1 else f"{self.count} readings"
        return f"{counted}; the tape rules out none" if self.is_measured else counted

    @property
    def digest(self) -> tuple[object, ...]:
        """Equal for two that say the same, whatever the version of the table that said it."""
        said = ((one.table.maker, one.table.title, one.mark, _digest(one.told)) for one in self.found)
        return (self.count, self.refusal, *said)


def _digest(told: Option) -> tuple[object, ...]:
    return tuple((one.tells, one.value, one.words) for one in told)


def sentence(table: Table, told: Told) -> str:
    """Place 2, `560`: the diameter is 560 mm."""
    where = f"place {told.place + 1}, `{told.text}`"
    place = table.places[told.place]
    what = f"the {told.tells.replace('_', ' ')}" if told.tells != "nothing" else place.name
    if told.is_unknown:
        return f"{where}: {what}, {told.words}"
    value = _valued(told)
    said = ", ".join(part for part in (value, told.words) if part)
    sure = f" ({told.certainty:.0%} sure)" if told.certainty < 1 else ""
    return f"{where}: {what} is {said}{sure}" if said else f"{where}: {what}"


def _valued(told: Told) -> str:
    if told.figure.endswith("_m") and isinstance(told.value, float):
        return f"{told.value * 1000:.6g} mm"
    return "" if told.value is None else f"{told.value}"


def _called(figure: str) -> str:
    return figure.removesuffix("_m").replace("_", " ")
