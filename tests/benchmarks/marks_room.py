"""Marks through the room and its register: one stamp, a hub, all marks read again, and what the register teaches.

    python -m tests.benchmarks.marks_room

200 tables, 100,000 marks on 50,000 propellers in SQLite, one process. Processor time of it, reads and writes of the
register included; where marks are read again, the reading alone beside it. Ends with 1 if a figure is missed.
"""

import sys
import tempfile
from collections.abc import Callable, Iterator
from dataclasses import replace
from pathlib import Path
from time import process_time

from sqlalchemy import insert

from tests.benchmarks import marks as engine
from yardapp import db, upgrading
from yardapp.db import now, snapshot, transaction
from yardapp.gear.services import Item
from yardapp.marks import services
from yardapp.marks.models import Mark
from yardapp.marks.services import working_through
from yardapp.people.services import TERMINAL
from yardapp.stamps.tables import Run, Shelf, Table, shelf_of, shipped

PROPELLERS = 50_000
EACH = engine.MARKS // PROPELLERS


def _filled(path: Path) -> list[int]:
    """A register of 200 tables, and of propellers that bear two marks each; gives the tables' numbers."""
    upgrading.upgrade(f"sqlite:///{path}")
    db.open_register(f"sqlite:///{path}")
    tables = [engine._table(at) for at in range(engine.TABLES)]
    shelf = shelf_of(tables)
    with transaction() as session:
        numbers = [services.add_table(session, TERMINAL, table) for table in tables]
        session.execute(insert(Item), [_propeller(number) for number in range(1, PROPELLERS + 1)])
        session.execute(insert(Mark), [_mark(number, shelf) for number in range(engine.MARKS)])
    return numbers


def _propeller(number: int) -> dict[str, object]:
    """Every second one is measured."""
    known = {"diameter_m": "measured", "pitch_m": "measured"} if number % 2 else {}
    sizes = {"diameter_m": 0.3 + number % 400 / 1000, "pitch_m": 0.3 + number % 300 / 1000}
    said = {"u_diameter_m": 0.001, "u_pitch_m": 0.004, "known": known, "logged": now()}
    return {"id": number, "tag": f"P-{number:06d}", "kind": "propeller", **sizes, **said}


def _mark(number: int, shelf: Shelf) -> dict[str, object]:
    seen = engine._mark(engine.RNG.choice(shelf.compiled))[:80] or "?"
    return {"item_id": number // EACH + 1, "seen": seen, "reading": {}, "at": now(), "said_by": "Ada Brook"}


def _once(run: Callable[[], object]) -> float:
    """Milliseconds of one run alone, the first: what is remembered of an earlier one makes no stamp quick here."""
    start = process_time()
    run()
    return (process_time() - start) * 1000


def _one() -> Iterator[bool]:
    """Each stamp once, by tables that stand compiled; and what a process waits for when it begins."""
    with snapshot() as session:
        first = _once(lambda: services.read_mark(session, "560-460-R"))
        print(f"{'the first stamp of a process: 200 tables compiled':<62} {first:>12,.1f} ms")
        for seen in ("HK560MR-1234", "560-460-R-12345", *engine.WORN):
            took = _once(lambda seen=seen: services.read_mark(session, seen))
            yield engine._told(f"one stamp against 200 tables: {seen[:24]}", took, "ms", 50, at_least=False)
        took = _once(lambda: services.marks_page(session, TERMINAL, "P-000501"))
        yield engine._told("the marks of a propeller, two of one hub together", took, "ms", 50, at_least=False)


def _with_another_run(table: Table) -> Table:
    """The same table, its letters for the pitch a step further."""
    places = [
        replace(one, meaning=replace(one.meaning, value=one.meaning.value + one.meaning.step))
        if isinstance(one.meaning, Run)
        else one
        for one in table.places
    ]
    return replace(table, places=tuple(places))


def _again(numbers: list[int]) -> Iterator[bool]:
    """One table edited, all marks read by both of its versions."""
    with transaction() as session:
        pages = (services.table_page(session, TERMINAL, number) for number in numbers)
        page = next(one for one in pages if any(isinstance(place.meaning, Run) for place in one.newest.table.places))
        before, after = page.newest.table, _with_another_run(page.newest.table)
        services.change_table(session, TERMINAL, page.id, 1, after)
        job_id = services.ask_reread(session, TERMINAL, page.id)
        marks = [(number, seen) for number, seen in session.query(Mark.id, Mark.seen)]
    shelves = working_through.both_of(before, after)
    alone = len(marks) / engine._seconds(lambda: working_through.differing(marks, *shelves), 2)
    yield engine._told("marks read again by both versions, the reading alone", alone, "marks/s", 20_000, at_least=True)
    whole = len(marks) / engine._seconds(lambda: services.work_on(transaction, job_id), 1)
    yield engine._told("  with the register's reads and writes", whole, "marks/s", 20_000, at_least=True)
    with snapshot() as session:
        found = services.reread_page(session, TERMINAL, job_id, 10**6)
        print(f"{'  of which differ':<62} {found.differing:>12,}")
        took = engine._seconds(lambda: services.reread_page(session, TERMINAL, job_id, 10**6)) * 1000
        yield engine._told("  the last page of those that differ", took, "ms", 50, at_least=False)


def _plain_again() -> Iterator[bool]:
    """The hardest case: plain sizes may be split in two ways once characters are confused, and half of them differ."""
    marks = list(enumerate(engine._plain(20_000)))
    before = next(table for table in shipped() if table.name == "Plain sizes, inches")
    wider = replace(before.places[0], meaning=replace(before.places[0].meaning, offset=1.0))
    after = replace(before, places=(wider, *before.places[1:]))
    took = engine._seconds(lambda: working_through.differing(marks, *working_through.both_of(before, after)), 3)
    said = "plain sizes by both versions, half of them differ"
    yield engine._told(said, len(marks) / took, "marks/s", 20_000, at_least=True)


def _taught(numbers: list[int]) -> Iterator[bool]:
    with snapshot() as session:
        took = engine._seconds(lambda: services.learned(session, TERMINAL, numbers[1]), 2) * 1000
    yield engine._told("what the register teaches about a table", took, "ms", 3000, at_least=False)


def main() -> int:
    """Print every figure; 1 if one is missed."""
    with tempfile.TemporaryDirectory() as folder:
        numbers = _filled(Path(folder) / "register.sqlite")
        held = [*_one(), *_again(numbers), *_plain_again(), *_taught(numbers)]
        if db.Register.engine is not None:
            db.Register.engine.dispose()
    return 0 if all(held) else 1


if __name__ == "__main__":
    sys.exit(main())
