"""The rack, the log page and the search at 100,000 propellers, as ratios to a bare page over bare sqlite3.

The floor is a Flask app with one template and the standard library's sqlite3: no sign-in, no roles, no units, no
layout; the same rows, written as one list. Everything runs in this process, the two taking turns.
"""

import sqlite3
from pathlib import Path

from flask import Flask, request

from tests.benchmarks.turns import compare, listed
from yardapp import upgrading

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
        return listed(BARE, path, f"SELECT {COLUMNS} FROM gear_item WHERE kind = 'propeller' ORDER BY id DESC LIMIT 50")

    @app.get("/search")
    def search() -> str:
        within = "id IN (SELECT rowid FROM gear_words WHERE words LIKE ?)"
        asked = f"SELECT {COLUMNS} FROM gear_item WHERE {within} ORDER BY id DESC LIMIT 20"
        return listed(BARE, path, asked, (f"%{request.args['q']}%",))

    @app.get("/sizes")
    def sizes() -> str:
        within = "kind = 'propeller' AND diameter_m BETWEEN 0.5392 AND 0.5784 AND pitch_m BETWEEN 0.4412 AND 0.4732"
        return listed(BARE, path, f"SELECT {COLUMNS} FROM gear_item WHERE {within} ORDER BY id DESC LIMIT 20")

    @app.get("/log")
    def log() -> str:
        return listed(BARE, path, "SELECT 1, 2, 3, 4, 5, 6, 7")

    return app


def main() -> None:
    """Measure, taking turns, and print medians and ratios."""
    print(f"{ROWS} propellers, medians of {TURNS} turns")
    pairs = [
        ("list of 50", "/rack", "/rack", 2.0),
        ("search, a tag", "/search?q=P-041234", "/search?q=P-041234", 1.5),
        ("search, a place", "/search?q=bin", "/search?q=bin", 1.5),
        ("search, a size", "/search?q=22+x+18", "/sizes", 1.5),
        ("log page", "/log", "/log", 0.0),
    ]
    compare(filled, bare, pairs, TURNS)


if __name__ == "__main__":
    main()
