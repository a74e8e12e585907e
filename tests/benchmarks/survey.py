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
from yardapp.config import Settings
from yardapp.formulas.pitch_survey import BladeSurvey, mean_pitch

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


def milliseconds(run: Callable[[], object], turns: int = TURNS) -> tuple[float, float]:
    """Median and the slowest twentieth."""
    run()
    taken = []
    for _ in range(turns):
        start = time.perf_counter()
        run()
        taken.append(1000 * (time.perf_counter() - start))
    return statistics.median(taken), statistics.quantiles(taken, n=20)[-1]


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
        floor, _ = milliseconds(lambda: mean_pitch(survey))
        answer = client.post(f"{address}/look", data=typed, headers={"HX-Request": "true"})
        assert answer.status_code == 200
        assert "Pitch survey 4" in answer.text
        whole, slow = milliseconds(
            lambda: client.post(f"{address}/look", data=typed, headers={"HX-Request": "true"}).text
        )
    print(f"the bare formula, {BLADES} x {len(RADII)} x {len(ANGLES)}: {floor:8.3f} ms")
    print(f"read, worked out and redrawn:    {whole:8.1f} ms   slowest twentieth {slow:.1f} ms, at most {AT_MOST_MS:g}")
    print(f"times the floor:                 {whole / floor:8.0f}")
    print(f"size of the answer:              {len(answer.data) / 1000:8.1f} kB")
    return 0 if slow <= AT_MOST_MS else 1


if __name__ == "__main__":
    sys.exit(main())
