"""A mark as seen against every table: all readings, ranked."""

from collections.abc import Iterable, Iterator, Sequence
from itertools import islice, product

from yardapp.stamps.tables.best import Task, Way, best_ways
from yardapp.stamps.tables.compile import Choice, CompiledTable
from yardapp.stamps.tables.confusions import MOST_CONFUSED, fold
from yardapp.stamps.tables.pattern import Pattern
from yardapp.stamps.tables.rank import CONFUSION, FILLED, NO_WORD, OUTSIDE, Agreement, Judge, Known, together
from yardapp.stamps.tables.reading import MOST_READINGS, Reading, Readings
from yardapp.stamps.tables.refusals import MarkRefused
from yardapp.stamps.tables.seen import SPACE, exactly, is_exact, take_apart
from yardapp.stamps.tables.shelf import Shelf
from yardapp.stamps.tables.splits import Spans
from yardapp.stamps.tables.told import Option
from yardapp.stamps.tables.walk import Budget, Enough, Node, Walk
from yardapp.stamps.tables.years import outside

MOST_CHOICES = 1000  # of one mark by one table, all characters read
NOBODY = Judge(None)


def read(seen: str, shelf: Shelf, measured: Known | None = None) -> Readings:
    """Every reading of the mark that some table allows, best first.

    Raises
    ------
    MarkRefused
        It is empty, too long, or has a bracket without its other half.
    """
    judge = Judge(measured) if measured else NOBODY
    if not is_exact(seen):
        return _gathered(seen, _worn(seen, shelf), judge)
    found = list(_exact(exactly(seen), shelf, judge))
    found.sort(key=_by_rank)
    ruled_out = sum(bool(one.agreement.ruled_out) for one in found) if judge.measured else 0
    return Readings(seen, tuple(found[:MOST_READINGS]), len(found), ruled_out, is_measured=bool(judge.measured))


def reread(marks: Iterable[str], shelf: Shelf) -> Iterator[Readings]:
    """Each mark's readings, in order; a mark that is refused has none, and says why."""
    for mark in marks:
        try:
            yield read(mark, shelf)
        except MarkRefused as refusal:
            yield Readings(mark, (), 0, refusal=refusal.said)


def _by_rank(reading: Reading) -> float:
    return -reading.score


def _exact(spelled: str, shelf: Shelf, judge: Judge) -> Iterator[Reading]:
    """The readings of a mark without wildcards."""
    folded = fold(spelled)
    is_spaced = SPACE in spelled
    squeezed = spelled.replace(SPACE, "") if is_spaced else spelled
    squeezed_fold = folded.replace(SPACE, "") if is_spaced else folded
    for text, look, spaced in ((spelled, folded, True), (squeezed, squeezed_fold, False)):
        for compiled in shelf.may_read(look, spaced):
            for spans in compiled.splits(look):
                yield from _by_table(compiled, text, spans, judge)


def _by_table(compiled: CompiledTable, text: str, spans: Spans, judge: Judge) -> Iterator[Reading]:
    """The readings by one table that split the mark at these spans."""
    choices, places = [], []
    for (start, end), chooser in zip(spans[1:], compiled.choosers, strict=True):
        if start >= 0:
            choices.append(chooser.choices(text[start:end]))
            places.append((start, end))
    for chosen in islice(product(*choices), MOST_CHOICES):
        confusion_count = sum([choice[0] for choice in chosen])
        if confusion_count <= MOST_CONFUSED:
            mark = _as_read(text, chosen, places) if confusion_count else text
            yield _reading(compiled, text, mark, chosen, confusion_count, judge)


def _as_read(text: str, chosen: tuple[Choice, ...], places: list[tuple[int, int]]) -> str:
    for (start, end), choice in zip(places, chosen, strict=True):
        text = text[:start] + choice[1] + text[end:]
    return text


def _reading(
    compiled: CompiledTable, seen: str, mark: str, chosen: tuple[Choice, ...], confusion_count: int, judge: Judge
) -> Reading:
    told = tuple([told for choice in chosen for told in choice[2]])
    log_certainty = compiled.log_certainty + sum([choice[3] for choice in chosen])
    agreement = together([judge.of(choice[2]) for choice in chosen]) if judge.measured else NO_WORD
    return _ranked(compiled, seen, mark, told, log_certainty, agreement, judge, confusion_count)


def _way_reading(way: Way, judge: Judge) -> Reading:
    pattern, compiled = way.task
    mark, example = ("".join(texts) for texts in zip(*((edge.text, edge.example) for edge in way.edges), strict=True))
    told: Option = tuple(one for edge in way.edges for one in edge.option)
    log_certainty = compiled.log_certainty + sum(one.log_certainty for one in told)
    agreement = together([edge.agreement for edge in way.edges if edge.agreement is not NO_WORD])
    filled_count = len(example) - pattern.fixed_count if pattern.runs else 0
    seen, count = pattern.seen.elements, way.edges[-1].confusion_count
    return _ranked(compiled, seen, mark, told, log_certainty, agreement, judge, count, filled_count, example)


def _ranked(
    compiled: CompiledTable,
    seen: Sequence[str],
    mark: str,
    told: Option,
    log_certainty: float,
    agreement: Agreement,
    judge: Judge,
    confusion_count: int,
    filled_count: int = 0,
    example: str = "",
) -> Reading:
    """A reading with its score: all that speaks for it and against it."""
    lies_outside = outside(compiled.table, told, judge.year) if compiled.has_ranges else ()
    match = CONFUSION * confusion_count + FILLED * filled_count + OUTSIDE * len(lies_outside)
    return Reading(
        compiled.table,
        compiled.key,
        seen,
        mark,
        told,
        match + log_certainty + agreement.gain + judge.silence,
        confusion_count,
        filled_count,
        agreement,
        judge.silences,
        lies_outside,
        log_certainty,
        example,
    )


def _worn(seen: str, shelf: Shelf) -> list[Task]:
    """The tables whose marks may be as long as this one."""
    pattern = Pattern(take_apart(seen))
    squeezed = pattern.seen.squeezed()
    plain = pattern if squeezed is pattern.seen else Pattern(squeezed)
    tasks = [(pattern if one.grammar.is_spaced else plain, one) for one in shelf]
    return [
        (worn, one)
        for worn, one in tasks
        if worn.fixed_count <= one.grammar.longest and one.grammar.shortest <= worn.most
    ]


def _gathered(seen: str, tasks: list[Task], judge: Judge) -> Readings:
    """The best of what the walks find, and how many readings there are."""
    budget = Budget()
    count, ruled_out, is_at_least = 0, 0, False
    roots: list[tuple[Task, float, Node]] = []
    for pattern, compiled in tasks:
        budget.next_table()
        try:
            node = Walk(pattern, compiled, judge, budget).root()
        except Enough:
            is_at_least = True
            continue
        count, ruled_out = count + node.count, ruled_out + node.count - node.allowed_count
        base = compiled.log_certainty - (FILLED * pattern.fixed_count if pattern.runs else 0.0)
        roots.append(((pattern, compiled), base, node))
    ways = best_ways(roots, MOST_READINGS)
    found = sorted((_way_reading(way, judge) for way in ways), key=_by_rank)
    return Readings(seen, tuple(found), count, ruled_out, is_at_least, is_measured=bool(judge.measured))
