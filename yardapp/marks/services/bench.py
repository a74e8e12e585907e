"""Sample stamps read by one table before and after an edit. Nothing here is kept."""

from collections.abc import Iterator
from dataclasses import dataclass

from yardapp.stamps.tables import Readings, Shelf, Table, compile_table, reread, reverse

MOST_SAMPLES = 30
# What any yard has on the rack: 22 x 18 in on a 1 1/2 in shaft, in the register's own figures.
ORDINARY: dict[str, float | int | str] = {
    "diameter_m": 0.5588,
    "pitch_m": 0.4572,
    "bore_m": 0.0381,
    "hand": "right",
    "blades": 3,
}


@dataclass(frozen=True)
class Tried:
    """One sample stamp, before and after."""

    seen: str
    before: Readings | None
    after: Readings | None

    @property
    def is_changed(self) -> bool:
        """Whether the edit makes it read differently."""
        return self.before is not None and self.after is not None and self.before.digest != self.after.digest


def try_samples(samples: str, before: Table | None, after: Table | None) -> list[Tried]:
    """Each line of the samples by both; None is a table that is not there, or not sound."""
    marks = [line.strip() for line in samples.splitlines() if line.strip()][:MOST_SAMPLES]
    both = zip(_read(marks, before), _read(marks, after), strict=True)
    return [Tried(seen, *pair) for seen, pair in zip(marks, both, strict=True)]


def _read(marks: list[str], table: Table | None) -> Iterator[Readings | None]:
    if table is None:
        return iter([None] * len(marks))
    return reread(marks, Shelf([compile_table(table, key=0, is_checked=True)]))


def samples_for(table: Table) -> str:
    """A few stamps that the table would strike, to begin the bench with."""
    left = ORDINARY | {"hand": "left"}
    compiled = compile_table(table, is_checked=True)
    said = [one.mark for wanted in (ORDINARY, left) for one in reverse(compiled, wanted, at_most=2)]
    return "\n".join(dict.fromkeys(said))
