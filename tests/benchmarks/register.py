"""The rack, the log page and the search at 100,000 propellers, as ratios to a bare page over bare sqlite3.

The floor is a Flask app with one template and the standard library's sqlite3: no sign-in, no roles, no units, no
layout; the same rows, written as one list. Everything runs in this process, the two taking turns.
"""

import sqlite3
import statistics
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

from flask import Flask, render_template_string, request

from tests.conftest import YardClient, client_of
from yardapp import create_app, upgrading
from yardapp.config import Settings

ROWS = 100_000
TURNS = 150
BARE = """<!doctype html><html lang="en"><title>Rack</title><h1>Rack</h1><ul>
{% for tag, diameter, pitch, blades, hand, stamp, place in rows %}<li><a href="/propellers/{{ tag }}">{{ tag }}
{{ diameter }} x {{ pitch }} mm, {{ blades }} blades, {{ hand }} hand, {{ stamp }}, {{ place }}</a></li>
{% endfor %}</ul></html>"""
COLUMNS = "tag, round(diameter_m * 1000), round(pitch_m * 1000), blades, hand, stamp, place"


def filled(path: Path) -> None:
    """A register of 100,000 propellers, written straight into its tables."""
    upgrading.upgrade(f"sqlite:///{path}")
    with sqlite3.connect(path) as register:
        register.executemany(
            "INSERT INTO gear_item (tag, kind, version, note, place, is_proposed, logged, words, stamp, hand, blades,"
            " diameter_m, u_diameter_m, pitch_m, u_pitch_m, bore_large_m, known, odds,"
            " standing, is_for_sale)"
            " VALUES (?, 'propeller', 1, '', ?, 0, '2026-01-01 00:00:00', ?, ?, ?, ?, ?, 0.001, ?, 0.008, ?,"
            " '{}', '[]', 'here', 0)",
            (_propeller(number) for number in range(1, ROWS + 1)),
        )


def _propeller(number: int) -> tuple[object, ...]:
    diameter, pitch = 12 + number % 37 / 2, 8 + number % 29 / 2
    hand, place = ("right", "left")[number % 2], f"Rack {'ABCDEFGH'[number % 8]}, bin {number % 90}"
    tag, stamp = f"P-{number:06d}", f"{diameter:g} x {pitch:g} {hand[0].upper()}H"
    words = f"{tag} {stamp} {stamp.replace(' ', '').upper()} {place}"
    sizes = (diameter * 0.0254, pitch * 0.0254, 0.02 + number % 41 / 1000)
    return tag, place, words, stamp, hand, 3 + number % 3, *sizes


def bare(path: Path) -> Flask:
    """The floor."""
    app = Flask("bare")

    @app.get("/rack")
    def rack() -> str:
        return _listed(path, f"SELECT {COLUMNS} FROM gear_item WHERE kind = 'propeller' ORDER BY id DESC LIMIT 50", ())

    @app.get("/search")
    def search() -> str:
        within = "id IN (SELECT rowid FROM gear_words WHERE words LIKE ?)"
        asked = f"SELECT {COLUMNS} FROM gear_item WHERE {within} ORDER BY id DESC LIMIT 20"
        return _listed(path, asked, (f"%{request.args['q']}%",))

    @app.get("/sizes")
    def sizes() -> str:
        within = "kind = 'propeller' AND diameter_m BETWEEN 0.5392 AND 0.5784 AND pitch_m BETWEEN 0.4412 AND 0.4732"
        return _listed(path, f"SELECT {COLUMNS} FROM gear_item WHERE {within} ORDER BY id DESC LIMIT 20", ())

    @app.get("/log")
    def log() -> str:
        return _listed(path, "SELECT 1, 2, 3, 4, 5, 6, 7", ())

    return app


def _listed(path: Path, asked: str, given: tuple[object, ...]) -> str:
    register = sqlite3.connect(path)
    try:
        return render_template_string(BARE, rows=register.execute(asked, given).fetchall())
    finally:
        register.close()


def timed(ask: Callable[[], object]) -> float:
    """Seconds that one call takes."""
    began = time.perf_counter()
    ask()
    return time.perf_counter() - began


def main() -> None:
    """Measure, taking turns, and print medians and ratios."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "register.sqlite"
        filled(path)
        app = create_app(Settings(data=Path(folder), database_url=f"sqlite:///{path}", secret_key="bench"))
        app.test_client_class = YardClient
        ours, floor = client_of(app, "Ada Brook", "office"), bare(path).test_client()
        pairs = [
            ("list of 50", "/rack", "/rack", 2.0),
            ("search, a tag", "/search?q=P-041234", "/search?q=P-041234", 1.5),
            ("search, a place", "/search?q=bin", "/search?q=bin", 1.5),
            ("search, a size", "/search?q=22+x+18", "/sizes", 1.5),
            ("log page", "/log", "/log", 0.0),
        ]
        print(f"{ROWS} propellers, medians of {TURNS} turns")
        for name, asked, least, goal in pairs:
            _compare(name, lambda: ours.get(asked), lambda: floor.get(least), goal)  # noqa: B023 - called at once


def _compare(name: str, ours: Callable[[], object], floor: Callable[[], object], goal: float) -> None:
    ours(), floor()
    both = [(timed(ours), timed(floor)) for _ in range(TURNS)]
    mine, least = (1000 * statistics.median(times) for times in zip(*both, strict=True))
    wanted = f"goal {goal}" if goal else "no goal"
    print(f"{name:18} {mine:7.2f} ms  floor {least:7.2f} ms  ratio {mine / least:5.2f}  {wanted}")


if __name__ == "__main__":
    main()
