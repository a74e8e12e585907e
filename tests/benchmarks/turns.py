"""Our pages and a floor's, asked in turns within one process: medians and ratios."""

import sqlite3
import statistics
import tempfile
import time
from collections.abc import Callable, Iterable
from pathlib import Path

from flask import Flask, render_template_string

from tests.conftest import YardClient, client_of
from yardapp import create_app
from yardapp.config import Settings

Compared = tuple[str, str, str, float]  # its name, our address, the floor's, the goal (0: none)


def listed(page: str, path: Path, asked: str, given: tuple[object, ...] = ()) -> str:
    """A floor's page: what the standard library's sqlite3 finds, in one template."""
    register = sqlite3.connect(path)
    try:
        return render_template_string(page, rows=register.execute(asked, given).fetchall())
    finally:
        register.close()


def compare(
    filled: Callable[[Path], None], bare: Callable[[Path], Flask], pairs: Iterable[Compared], turns: int
) -> None:
    """Fill a register, ask both sides of it in turns, and print medians and ratios."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "register.sqlite"
        filled(path)
        app = create_app(Settings(data=Path(folder), database_url=f"sqlite:///{path}", secret_key="bench"))
        app.test_client_class = YardClient
        ours, floor = client_of(app, "Ada Brook", "office"), bare(path).test_client()
        for name, asked, least, goal in pairs:
            _print(name, lambda: ours.get(asked), lambda: floor.get(least), goal, turns)  # noqa: B023 - called at once


def _print(name: str, ours: Callable[[], object], floor: Callable[[], object], goal: float, turns: int) -> None:
    ours(), floor()
    both = [(_timed(ours), _timed(floor)) for _ in range(turns)]
    mine, least = (1000 * statistics.median(times) for times in zip(*both, strict=True))
    wanted = f"goal {goal}" if goal else "no goal"
    print(f"{name:18} {mine:7.2f} ms  floor {least:7.2f} ms  ratio {mine / least:5.2f}  {wanted}")


def _timed(ask: Callable[[], object]) -> float:
    began = time.perf_counter()
    ask()
    return time.perf_counter() - began
