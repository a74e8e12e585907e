"""100,000 propellers against one drive, and one propeller against 5,000 drives: whole pages, and the sums alone.

    python -m tests.benchmarks.fit

Pages: seconds of the whole page, sign-in and HTML with it. Sums: the columns' judge beside bare NumPy of the same sums,
written out once, with no gaps, no guesses and no words for anything. Ends with 1 where a page takes a second or more.
Engine and hull of the drive are known, so the lists weigh its load too. On two cores of 2026: 0.31 s for one drive,
0.55 s with every bore, 0.10 s for 5,000 drives; bare sqlite3 and NumPy 0.23 s; the sums alone 88 ms against 13 ms.
"""

import json
import sqlite3
import statistics
import sys
import tempfile
from pathlib import Path

import numpy as np

from tests.benchmarks.register import timed
from tests.conftest import YardClient, client_of
from tests.fit.pairings import GOOD_DRIVE, GOOD_PROPELLER
from yardapp import create_app, upgrading
from yardapp.config import Settings
from yardapp.fit.ranking.columns import PROPELLER_FIGURES, Columns, drive_columns, propeller_columns
from yardapp.fit.ranking.prejudge import prejudge

PROPELLERS, DRIVES, TURNS = 100_000, 5_000, 15
RNG = np.random.default_rng(16)
SIZES = (*PROPELLER_FIGURES, "pitch_m")
SHAFT = ("shaft_diameter_m", "taper", "taper_length_m", "keyway_width_m", "keyway_depth_m", "hub_space_m")
KNOWN = json.dumps({**dict.fromkeys(SIZES, "measured"), "hand": "measured", "bore_kind": "measured"})


def made(side: object, names: tuple[str, ...], count: int, spread: float) -> dict[str, np.ndarray]:
    """Figures round those of the good pair, in step with one another as sizes of propellers are."""
    size = RNG.uniform(1 - spread, 1 + spread, count)
    return {
        name: getattr(side, name).value * RNG.uniform(0.99, 1.01, count) * (1.0 if name == "taper" else size)
        for name in names
    }


def filled(path: Path) -> None:
    """A register of that many propellers and drives, every figure known, written straight into its tables."""
    upgrading.upgrade(f"sqlite:///{path}")
    hubs, shafts = (
        made(GOOD_PROPELLER, SIZES, PROPELLERS, 0.5),
        made(GOOD_DRIVE, (*SHAFT, "hull_clearance_m"), DRIVES, 0.5),
    )
    with sqlite3.connect(path) as register:
        register.execute(
            "INSERT INTO vessels_vessel (id, version, name, kind, owner, length_m_typed, note, logged, words,"
            " hull_kind, speed_power, speed_power_kind) VALUES"
            " (1, 1, 'Kittiwake', '', 'R. Thorne', '', '', '2026-01-01 00:00:00',"
            " 'Kittiwake', 'displacement_single', ?, 'effective')",
            (json.dumps([[speed, 130.0 * speed**3] for speed in range(1, 9)]),),
        )
        _insert(register, "gear_item", hubs, _propeller, PROPELLERS)
        _insert(register, "vessels_drive", shafts, _drive, DRIVES)


def _insert(register: sqlite3.Connection, table: str, sizes: dict[str, np.ndarray], words: object, count: int) -> None:
    rows = []
    for number in range(count):
        figures = {name: float(column[number]) for name, column in sizes.items()}
        rows.append({**words(number), **figures, **{f"u_{name}": size / 2000 for name, size in figures.items()}})
    names = list(rows[0])
    register.executemany(
        f"INSERT INTO {table} ({', '.join(names)}) VALUES ({', '.join('?' * len(names))})",
        (tuple(row.values()) for row in rows),
    )


def _propeller(number: int) -> dict[str, object]:
    tag, place = f"P-{number:06d}", f"Rack {'ABCDEFGH'[number % 8]}, bin {number % 90}"
    return {
        "tag": tag, "kind": "propeller", "version": 1, "note": "", "place": place, "is_proposed": 0,
        "logged": "2026-01-01 00:00:00", "words": f"{tag} {place}", "stamp": "22 X 16 RH", "blades": 3,
        "standing": "here", "hand": ("right", "left")[number % 2], "bore_kind": "taper", "known": KNOWN, "odds": "[]",
    }  # fmt: skip


def _drive(number: int) -> dict[str, object]:
    return {
        "id": number + 1, "version": 1, "vessel_id": 1, "position": "centre", "is_in_use": 1, "engine": "", "note": "",
        "hand": ("right", "left")[number % 2], "hull_clearance_from": "centre", "typed": "{}",
        "changed": "2026-01-01 00:00:00", "rated_power_w": 28e3, "rated_speed_rps": 50.0, "reduction_ratio": 2.0,
    }  # fmt: skip


def bare(
    hub: dict[str, np.ndarray], u: dict[str, np.ndarray], shaft: dict[str, float], us: dict[str, float]
) -> np.ndarray:
    """The same sums, and whether each surely keeps its bound: taper, seat, gap, key, hub, room."""
    slope, large = shaft["taper"], shaft["shaft_diameter_m"]
    apart = np.abs(hub["taper"] - slope) + 2 * np.hypot(u["taper"], us["taper"])
    up = (hub["bore_large_m"] - large) / slope
    u_up = np.sqrt(u["bore_large_m"] ** 2 + us["shaft_diameter_m"] ** 2 + (up * us["taper"]) ** 2) / slope
    share = 0.75 * hub["bore_length_m"]
    left = up + shaft["taper_length_m"] - share - 2 * np.sqrt(u_up**2 + us["taper_length_m"] ** 2)
    on = up - hub["bore_length_m"] / 4 + 2 * np.hypot(u_up, u["bore_length_m"] / 4)
    gap = shaft["hub_space_m"] - up - 2 * np.hypot(us["hub_space_m"], u_up)
    wide = np.abs(hub["keyway_width_m"] - shaft["keyway_width_m"])
    wide = wide + 2 * np.hypot(u["keyway_width_m"], us["keyway_width_m"])
    deep = hub["keyway_depth_m"] + shaft["keyway_depth_m"] - 2 * np.hypot(u["keyway_depth_m"], us["keyway_depth_m"])
    past = hub["hub_length_m"] - shaft["taper_length_m"] - up
    past = past - 2 * np.sqrt(u["hub_length_m"] ** 2 + us["taper_length_m"] ** 2 + u_up**2)
    room = shaft["hull_clearance_m"] - 0.65 * hub["diameter_m"]
    room = room - 2 * np.hypot(us["hull_clearance_m"], 0.65 * u["diameter_m"])
    fits = (apart < 0.08 * slope) & (left > 0) & (on < 0) & (gap > 0.003) & (wide < 0.0002) & (deep > 0.0086)
    return np.asarray(fits & (past > 0) & (room > 0))


def sums() -> tuple[float, float]:
    """Median milliseconds of the columns' judge, and of bare NumPy."""
    hub = made(GOOD_PROPELLER, PROPELLER_FIGURES, PROPELLERS, 0.5)
    u = {name: column / 2000 for name, column in hub.items()}
    ones, nothing = np.ones(PROPELLERS, np.int8), np.zeros(PROPELLERS, np.int8)
    columns = Columns(values=hub, u=u, hand=ones, hand_stamped=nothing, bore_kind=ones)
    drive = drive_columns([GOOD_DRIVE])
    shaft = {name: float(column[0]) for name, column in drive.values.items()}
    us = {name: float(column[0]) for name, column in drive.u.items()}
    both = [(timed(lambda: prejudge(columns, drive)), timed(lambda: bare(hub, u, shaft, us))) for _ in range(TURNS)]
    ours, floor = (1000 * statistics.median(times) for times in zip(*both, strict=True))
    return ours, floor


def least(path: Path) -> float:
    """Seconds of the least that such a page must do: bare sqlite3 reads the rows, bare NumPy does the sums."""
    names = [name for figure in SIZES for name in (figure, f"u_{figure}")]
    drive = drive_columns([GOOD_DRIVE])
    shaft = {name: float(column[0]) for name, column in drive.values.items()}
    us = {name: float(column[0]) for name, column in drive.u.items()}

    def once() -> None:
        with sqlite3.connect(path) as register:
            asked = f"SELECT {', '.join(names)}, tag, place FROM gear_item WHERE kind = 'propeller' AND hand = 'right'"
            rows = register.execute(asked).fetchall()
        read = dict(zip(names, np.array([row[: len(names)] for row in rows], float).T, strict=True))
        bare(read, {name: read[f"u_{name}"] for name in SIZES}, shaft, us)

    return statistics.median(timed(once) for _ in range(TURNS))


def pages() -> tuple[dict[str, float], float]:
    """Median seconds of each whole page, and of the least that the stock's must do."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "register.sqlite"
        filled(path)
        app = create_app(Settings(data=Path(folder), database_url=f"sqlite:///{path}", secret_key="bench"))
        app.test_client_class = YardClient
        client = client_of(app, "Ada Brook", "office")
        asked = {
            f"{PROPELLERS} propellers for one drive": "/fit/on/1",
            f"{PROPELLERS} propellers, every bore": "/fit/on/1?any_bore=1",
            f"{DRIVES} drives for one propeller": "/fit/P-000001",
        }
        for address in asked.values():
            assert client.get(address).status_code == 200
        found = {
            name: statistics.median(timed(lambda: client.get(address)) for _ in range(TURNS))  # noqa: B023 - at once
            for name, address in asked.items()
        }
        return found, least(path)


def main() -> int:
    """Measure and print; 0 where every page stays under a second."""
    ours, floor = sums()
    print(f"{PROPELLERS} pairs, sums alone: {ours:.0f} ms, bare NumPy {floor:.0f} ms, ratio {ours / floor:.1f}")
    one = propeller_columns([GOOD_PROPELLER])
    assert prejudge(one, drive_columns([GOOD_DRIVE])).verdict.tolist() == [0]
    found, floor = pages()
    print(f"{'bare sqlite3 and NumPy, the same rows':40} {floor:6.3f} s")
    for name, seconds in found.items():
        print(f"{name:40} {seconds:6.3f} s   under 1: {'kept' if seconds < 1 else 'MISSED'}")
    return 0 if max(found.values()) < 1 else 1


if __name__ == "__main__":
    sys.exit(main())
