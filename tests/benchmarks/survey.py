"""A full survey, 4 blades by 8 radii by 5 stations, recomputed and redrawn by the server as one types.

    python -m tests.benchmarks.survey

Beside the floor of the bare formula, measured in the same run. It ends with 1 if a figure is missed.
"""

import statistics
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

import numpy as np

from tests.conftest import YardClient, client_of
from tests.factories.gear import make_propeller
from yardapp import create_app, db, upgrading
from yardapp.bench.forms import survey_grid
from yardapp.config import Settings
from yardapp.formulas.pitch_survey import BladeSurvey, mean_pitch
from yardapp.quantities import writing

BLADES, RADII, ANGLES = 4, (0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 0.95), (0, 10, 20, 30, 40)
PITCH_M, TURNS, AT_MOST_MS = 0.450, 60, 100.0
SETUP = {
    "way": "steps",
    "blades": "4",
    "hand": "right",
    "radii": " ".join(f"{radius:g}" for radius in RADII),
    "angles": " ".join(str(angle) for angle in ANGLES),
    "counts": "anticlockwise",
    "unit": "mm",
    "diameter_m": "900",
    "design_pitch_m": "457",
    "wanted_class": "I",
    "height_tool": "height gauge",
    "angle_tool": "degree ring",
}


def heights_m() -> np.ndarray:
    """A helicoid with a little scatter, so that every word of the answer is new."""
    scatter = np.random.default_rng(484).normal(0, 0.0002, (BLADES, len(RADII), len(ANGLES)))
    return np.asarray(0.02 + PITCH_M * np.array(ANGLES) / 360 + scatter)


def boxes() -> dict[str, str]:
    """The same as it is typed."""
    return SETUP | {
        f"h-{blade + 1}-{RADII[ring]:g}-{station + 1}": f"{1000 * height:.2f}"
        for (blade, ring, station), height in np.ndenumerate(heights_m())
    }


def milliseconds(run: Callable[[int], object], turns: int = TURNS) -> tuple[float, float]:
    """Median of the processor's time, which other work on the machine leaves alone, and of the clock's."""
    run(0)
    worked, passed = [], []
    for turn in range(1, turns + 1):
        start, began = time.perf_counter(), time.process_time()
        run(turn)
        worked.append(1000 * (time.process_time() - began))
        passed.append(1000 * (time.perf_counter() - start))
    return statistics.median(worked), statistics.median(passed)


def cold() -> None:
    """Nothing is remembered of what was read and written before."""
    survey_grid._read.cache_clear()
    writing.show.cache_clear()


def begun(client: YardClient) -> str:
    """The address of a survey in the writing."""
    with db.transaction() as session:
        tag = make_propeller(session, pitch_m=None).tag
    return client.send(f"/bench/{tag}/survey", **SETUP).headers["Location"]


def main() -> int:
    """Measure, print, and say whether it is kept."""
    with tempfile.TemporaryDirectory() as folder:
        url = f"sqlite:///{folder}/register.sqlite"
        upgrading.upgrade(url)
        app = create_app(Settings(data=Path(folder), database_url=url, secret_key="a key for tests alone"))
        app.test_client_class = YardClient
        client = client_of(app, "Ada Brook", "office")
        address, typed = begun(client), boxes()
        survey = BladeSurvey(
            heights_m=heights_m(),
            angles_rad=np.broadcast_to(np.radians(ANGLES), (BLADES, len(RADII), len(ANGLES))),
        )
        floor, _ = milliseconds(lambda turn: mean_pitch(survey))

        def look(turn: int) -> str:
            one_key = {"h-2-0.6-3": f"{45 + turn / 100:.2f}"}  # a key was hit: one cell is new
            return client.post(f"{address}/look", data=typed | one_key, headers={"HX-Request": "true"}).text

        def look_first(turn: int) -> str:
            cold()
            return look(turn)

        answer = look(0)
        assert "Pitch survey 4" in answer
        first, first_clock = milliseconds(look_first)
        whole, clock = milliseconds(look)
    print(f"the bare formula, {BLADES} x {len(RADII)} x {len(ANGLES)}:    {floor:8.3f} ms of the processor")
    print(
        f"read, worked out, redrawn, first:   {first:8.1f} ms, {first_clock:.1f} by the clock, at most {AT_MOST_MS:g}"
    )
    print(f"the same at each further key:       {whole:8.1f} ms, {clock:.1f} by the clock, at most {AT_MOST_MS:g}")
    print(f"times the floor:                    {whole / floor:8.0f}")
    print(f"size of the answer:                 {len(answer.encode()) / 1000:8.1f} kB")
    return 0 if max(first, whole) <= AT_MOST_MS else 1


if __name__ == "__main__":
    sys.exit(main())
