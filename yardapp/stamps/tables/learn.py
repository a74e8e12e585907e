"""What a letter may mean, from propellers whose size is measured and whose stamp is known. Only ever proposed."""

import math
from collections import defaultdict
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import islice

from yardapp.stamps.tables.compile import CompiledTable
from yardapp.stamps.tables.learn_codes import CodeSeen, contradicts, found, sizes_of, unit_of
from yardapp.stamps.tables.learn_runs import LEFT_OUT, Letter, RunFit, fit_run
from yardapp.stamps.tables.meanings import Number, Run
from yardapp.stamps.tables.rank import RULED_OUT_BEYOND, Known, Measured
from yardapp.stamps.tables.read import read
from yardapp.stamps.tables.reading import Reading
from yardapp.stamps.tables.refusals import MarkRefused
from yardapp.stamps.tables.shelf import Shelf
from yardapp.stamps.tables.told import Teller

MOST_TOLD = 5000  # marks that a table reads: more of them say nothing new
FEWEST = 2  # propellers that must agree before a code's meaning is proposed


@dataclass(frozen=True)
class Observation:
    """One propeller: its mark, what was measured of it, and what it is called."""

    mark: str
    measured: Known
    of: str = ""


@dataclass(frozen=True)
class Proposal:
    """What a code at a place may mean, in the table's unit, and the evidence in words; for a person to accept."""

    place: int
    kind: str  # entry, correction or run
    code: str
    value: float | str | None
    unit: str
    count: int
    said: str
    of: tuple[str, ...] = ()
    run: RunFit | None = None


Codes = dict[str, list[CodeSeen]]


def learn(
    observations: Iterable[Observation], compiled: CompiledTable, *, at_most: int = MOST_TOLD
) -> tuple[Proposal, ...]:
    """All that the observations propose, place by place, by the first `at_most` that it reads; nothing changes."""
    shelf = Shelf([compiled])
    seen: dict[int, Codes] = defaultdict(lambda: defaultdict(list))
    for told in islice(filter(None, (list(_told(one, shelf, compiled)) for one in observations)), at_most):
        for one in told:
            seen[one.told.place][one.told.text].append(one)
    return tuple(
        proposal
        for place, codes in sorted(seen.items())
        for proposal in _of_place(compiled.tellers[place], dict(sorted(codes.items())))
    )


def _told(observation: Observation, shelf: Shelf, compiled: CompiledTable) -> Iterator[CodeSeen]:
    """Each place that the mark shows plainly and that tells something measured."""
    try:
        found = read(observation.mark, shelf).found
    except MarkRefused:
        return
    plain = [reading for reading in found if not reading.confusion_count]
    for told in plain[0].told if plain else ():
        known = observation.measured.get(told.figure)
        is_own = compiled.table.places[told.place].tells == told.tells
        if known is None or not is_own or not _is_usable(compiled.tellers[told.place], known):
            continue
        if told.text.isalnum() and _texts(plain, told.place) == {told.text}:
            yield CodeSeen(told, known, observation.of)


def _texts(readings: list[Reading], place: int) -> set[str]:
    """What the readings take a place for; a character that was seen is the same in all of them."""
    return {next((told.text for told in one.told if told.place == place), "") for one in readings}


def _is_usable(teller: Teller, known: Measured | str | int) -> bool:
    """A size with a figure and a u, where the place tells a size; a word or a count elsewhere."""
    if teller.thing.is_number and not teller.thing.is_whole:
        return isinstance(known, Measured) and math.isfinite(known.value) and 0 <= known.u < math.inf
    return not isinstance(known, Measured)


def _of_place(teller: Teller, codes: Codes) -> Iterator[Proposal]:
    if isinstance(teller.place.meaning, Number):
        return
    if not isinstance(teller.place.meaning, Run):
        for code, seen in codes.items():
            if len(seen) >= FEWEST:
                yield from _of_code(teller, code, seen)
    yield from _of_run(teller, codes)


def _of_code(teller: Teller, code: str, seen: list[CodeSeen]) -> Iterator[Proposal]:
    told = seen[0].told
    of = tuple(one.of for one in seen if one.of)
    goes_with = found(teller, seen)
    said = f"in {len(seen)} propellers {_named(code)} at place {teller.at + 1} goes {goes_with.words}"
    if told.is_unknown:
        yield Proposal(teller.at, "entry", code, goes_with.value, unit_of(teller), len(seen), said, of)
    elif contradicts(teller, seen):
        said += f"; the table says {_said_now(teller, code)}"
        yield Proposal(teller.at, "correction", code, goes_with.value, unit_of(teller), len(seen), said, of)


def _named(code: str) -> str:
    kind = "code" if len(code) > 1 else "letter" if code.isalpha() else "figure"
    return f"the {kind} {code}"


def _said_now(teller: Teller, code: str) -> str:
    return " or ".join(f"{entry.value} {unit_of(teller)}".strip() for entry in teller.entries.get(code, ()))


def _of_run(teller: Teller, codes: Codes) -> Iterator[Proposal]:
    """A run through all letters of the place, where the table has none or its own does not hold."""
    meaning = teller.place.meaning
    plain = {code: seen for code, seen in codes.items() if len(code) == 1 and "A" <= code <= "Z"}
    if len(plain) < len(codes) or not teller.thing.is_number or teller.thing.is_whole:
        return
    letters = [Letter(code, size, u) for code, seen in plain.items() for size, u in sizes_of(teller, seen)]
    left_out = (meaning.without.upper(), *LEFT_OUT) if isinstance(meaning, Run) else LEFT_OUT
    fit = fit_run(letters, left_out)
    if fit is None or (isinstance(meaning, Run) and _holds(meaning, letters)):
        return
    if fit.residual <= RULED_OUT_BEYOND * max(one.u for one in letters) or isinstance(meaning, Run):
        of = tuple(one.of for seen in plain.values() for one in seen if one.of)
        said = _run_words(teller, fit, letters)
        yield Proposal(teller.at, "run", fit.first, fit.value, unit_of(teller), fit.count, said, of, fit)


def _holds(run: Run, letters: list[Letter]) -> bool:
    values = run.values
    return all(
        one.letter in values and abs(one.value - values[one.letter]) <= RULED_OUT_BEYOND * one.u for one in letters
    )


def _run_words(teller: Teller, fit: RunFit, letters: list[Letter]) -> str:
    unit, meaning = unit_of(teller), teller.place.meaning
    many = len({one.letter for one in letters})
    said = f"in {fit.count} propellers {many} letters at place {teller.at + 1} lie on a run: "
    said += f"{fit.first} is {fit.value:.4g} {unit} and each next letter {fit.step:+.4g} {unit}"
    said += f", without {' and '.join(fit.without)}" if fit.without else ", no letter left out"
    said += f"; they scatter by {fit.residual:.2g} {unit}"
    if fit.also_fits:
        said += "; which letters are left out can't be told from these"
    if isinstance(meaning, Run):
        said += f"; the table says {meaning.first} is {meaning.value:g} {unit} and {meaning.step:+g} {unit}"
    return said
