"""A thing with 2,000 events and a boat with 20,000 among 1,000,000, as ratios to a bare page over bare sqlite3.

The floor is a Flask app with one template and the standard library's sqlite3, which lists the newest 50 lines of the
same history: no sign-in, no roles, no units, no layout. Everything runs in this process, the two taking turns.

Goal 2.0 for the history of the thing and for the boat. Measured on two shared cores, November 2026: the thing's
timeline 1.58, the boat's 1.67 (with 1,700 faults, decisions and coatings of her parts beside the 20,000; with 3,400 of
them 1.97), her page 0.55. Without a goal: the thing's own page 3.2 to 3.4 (10 ms: a drawing, figures, photos
and its newest hundred lines), what was on the boat on a day 0.73 (7 ms).
"""

import sqlite3
from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from pathlib import Path

from flask import Flask

from tests.benchmarks.turns import compare, listed
from yardapp import upgrading

EVENTS, OF_THE_THING, OF_THE_BOAT = 1_000_000, 2_000, 20_000
THINGS = 100_000
TURNS = 60
BARE = """<!doctype html><html lang="en"><title>History</title><h1>History</h1><ol>
{% for at, who, kind, drive, place, note in rows %}
<li>{{ at }} {{ who }} {{ kind }} {{ drive }} {{ place }} {{ note }}</li>
{% endfor %}</ol></html>"""
LINES = "SELECT at, said_by, kind, drive, place, note FROM gear_event WHERE {} ORDER BY at DESC LIMIT 50"
BEGAN = datetime(2016, 1, 1, tzinfo=UTC)


def filled(path: Path) -> None:
    """A register of 100,000 propellers and 1,000,000 events, written straight into its tables."""
    upgrading.upgrade(f"sqlite:///{path}")
    with sqlite3.connect(path) as register:
        register.execute(
            "INSERT INTO vessels_vessel (id, version, name, kind, owner, length_m_typed, note, logged, words)"
            " VALUES (1, 1, 'Kittiwake', '', '', '', '', '2016-01-01 00:00:00', 'Kittiwake')"
        )
        for number, position in ((1, "port"), (2, "starboard")):
            register.execute(
                "INSERT INTO vessels_drive (id, version, vessel_id, position, is_in_use, engine, hull_clearance_from,"
                " note, typed, changed) VALUES (?, 1, 1, ?, 1, '', 'centre', '', '{}', '2016-01-01 00:00:00')",
                (number, position),
            )
        register.executemany(
            "INSERT INTO gear_item (id, tag, kind, version, note, place, standing, is_proposed, is_for_sale, logged,"
            " words, stamp, known, odds) VALUES (?, ?, 'propeller', 1, '', 'Rack A', 'here', 0, 0,"
            " '2016-01-01 00:00:00', '', '', '{}', '[]')",
            ((number, f"P-{number:06d}") for number in range(1, THINGS + 1)),
        )
        register.executemany(
            "INSERT INTO gear_event (item_id, kind, at, noted, said_by, drive_id, drive, place, note, standing, why,"
            " by_whom, cost) VALUES (?, ?, ?, ?, 'Ada Brook', ?, ?, ?, '', ?, '', '', '')",
            _events(),
        )
        for table, columns, rows in _told():
            marks = ", ".join("?" * len(columns.split(",")))
            register.executemany(f"INSERT INTO {table} ({columns}) VALUES ({marks})", rows)


def _told() -> Iterator[tuple[str, str, Iterator[tuple[object, ...]]]]:
    """Faults and coatings: 1,700 lines of things that were ever on the boat, a hundred times as many of all others."""
    yield (
        "relaunch_fault",
        "item_id, severity, what, place, evidence, found, photo_sha256, at, said_by",
        ((item, "watch", "Nut loose", "", "", "", "", at, "Ada Brook") for item, at in _days(50_000)),
    )
    yield (
        "relaunch_fault_act",
        "fault_id, kind, name, note, at, said_by",
        ((number, "decides", "Finn Marsh", "", at, "Ada Brook") for number, (_item, at) in enumerate(_days(50_000), 1)),
    )
    yield (
        "bench_fault",
        "item_id, number, kind, severity, side, size_m_typed, note, photo_sha256, at, said_by",
        (
            (item, number, "crack", "stop", "face", "", "", "", at, "Ada Brook")
            for number, (item, at) in _counted(50_000)
        ),
    )
    yield "coating_system", "id, name, name_key, version, is_used", iter([(1, "Clear", "clear", 1, 1)])
    yield (
        "coating_system_version",
        "id, system_id, number, sheet, at, said_by, why",
        iter([(1, 1, 1, "{}", "2016-01-01 00:00:00", "Ada Brook", "")]),
    )
    yield (
        "coating_job",
        "id, version, system_version_id, title, people, way, blade_s, metal_c, loss_ratio, note, is_open, planned,"
        " said_by",
        ((n, 1, 1, "Spring", 1, "brush", 300, 20, 0.1, "", 0, at, "Ada Brook") for n, (_, at) in _counted(20_000)),
    )
    yield (
        "coating_piece",
        "job_id, number, kind, label, item_id, blades, area_m2, area_m2_typed, allowed_by, foul_release, finished",
        ((n, 1, "propeller", "", item, 4, 0.3, "", "", 0, at) for n, (item, at) in _counted(20_000)),
    )


def _counted(count: int) -> Iterator[tuple[int, tuple[int, str]]]:
    return enumerate(_days(count), 1)


def _days(count: int) -> Iterator[tuple[int, str]]:
    """A thing and a moment: one in a hundred of the boat's, and of those every other while the thing was on her."""
    for number in range(count):
        if number % 100 == 0:
            event = OF_THE_THING + number // 100 * (OF_THE_BOAT * 100 // count) // 2 * 2
            item, minutes = 2 + event // 2 % 400, 5 * event + (1 if number % 200 == 0 else 7)
        else:
            item, minutes = 500 + number % (THINGS - 500), 5 * (OF_THE_THING + number)
        yield item, (BEGAN + timedelta(minutes=minutes)).strftime("%Y-%m-%d %H:%M:%S.000000")


def _events() -> Iterator[tuple[object, ...]]:
    """First the thing's, in and out of bins; then the boat's, hundreds of things on and off; then everybody else's."""
    for number in range(EVENTS):
        at = (BEGAN + timedelta(minutes=5 * number)).strftime("%Y-%m-%d %H:%M:%S.000000")
        if number < OF_THE_THING:
            yield 1, "moved", at, at, None, "", f"Rack {number % 9}", "here"
        elif number < OF_THE_THING + OF_THE_BOAT:
            item, drive, is_on = 2 + number // 2 % 400, 1 + number // 2 % 2, number % 2 == 0
            kind, standing = ("went on", "aboard") if is_on else ("came off", "here")
            yield item, kind, at, at, drive, f"Kittiwake, {('port', 'starboard')[drive - 1]}", "Rack A", standing
        else:
            yield 500 + number % (THINGS - 500), "moved", at, at, None, "", "Rack B", "here"


def bare(path: Path) -> Flask:
    """The floor."""
    app = Flask("bare")

    @app.get("/thing")
    def thing() -> str:
        return listed(BARE, path, LINES.format("item_id = 1"))

    @app.get("/boat")
    def boat() -> str:
        return listed(BARE, path, LINES.format("drive_id IN (1, 2)"))

    return app


def main() -> None:
    """Measure, taking turns, and print medians and ratios."""
    print(f"{EVENTS} events, medians of {TURNS} turns")
    pairs = [
        ("thing, timeline", "/items/P-000001/timeline", "/thing", 2.0),
        ("thing, its page", "/propellers/P-000001", "/thing", 0.0),
        ("boat, timeline", "/boats/1/timeline", "/boat", 2.0),
        ("boat, her page", "/boats/1", "/boat", 2.0),
        ("boat, on a day", "/boats/1/aboard?day=2016-02-20", "/boat", 0.0),
    ]
    compare(filled, bare, pairs, TURNS)


if __name__ == "__main__":
    main()
