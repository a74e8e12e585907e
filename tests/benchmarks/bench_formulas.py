"""How fast the propeller formulas are: ratios against a floor that is measured in the same run.

    python tests/benchmarks/bench_formulas.py

One core. It prints each figure beside what is asked of it, and ends with 1 if one is missed.
"""

import os

os.environ.update(OPENBLAS_NUM_THREADS="1", OMP_NUM_THREADS="1")

import sys
from collections.abc import Callable
from pathlib import Path
from time import perf_counter

import numpy as np

sys.path.insert(0, str(Path(__file__).parents[2]))

from yardapp.formulas.b_series import open_water
from yardapp.formulas.engine import power_curve_from_rating
from yardapp.formulas.sizing import Drive, HullCurve, Propellers, best_diameter, meeting_point
from yardapp.formulas.tables import figure, table

MANY = 100_000
RNG = np.random.default_rng(1975)
J, PITCH, AREA = RNG.uniform(0, 1.2, MANY), RNG.uniform(0.5, 1.4, MANY), RNG.uniform(0.3, 1.05, MANY)
MIXED = RNG.integers(2, 8, MANY)
TERMS = {
    name: np.array([[figure(row, "coefficient"), *(float(row[power]) for power in "stuv")] for row in table(name)])
    for name in ("b_series_kt", "b_series_kq")
}


def _seconds(run: Callable[[], object], times: int) -> float:
    """The best of several runs: what the machine can do when nobody else has it."""
    best = np.inf
    for _ in range(times):
        start = perf_counter()
        run()
        best = min(best, perf_counter() - start)
    return best


def _naive(blades: np.ndarray) -> list[np.ndarray]:
    """The floor: every term of the printed sum for every propeller, by broadcasting."""
    j, pitch, area, count = (each[:, None] for each in (J, PITCH, AREA, blades))
    return [(c * j**s * pitch**t * area**u * count**v).sum(axis=1) for c, s, t, u, v in (x.T for x in TERMS.values())]


def _series(name: str, blades: np.ndarray) -> list[bool]:
    naive, ours = (
        _seconds(lambda: _naive(blades), 3),
        _seconds(lambda: open_water(J, PITCH, AREA, blades), 15),
    )
    found = open_water(J, PITCH, AREA, blades)
    apart = max(float(np.abs(a - b).max()) for a, b in zip(_naive(blades), found[:2], strict=True))
    return [
        _told(f"KT and KQ, {name}: million a second", MANY / ours / 1e6, at_least=5),
        _told(f"KT and KQ, {name}: times the naive sum", naive / ours, at_least=15),
        _told(f"KT and KQ, {name}: greatest difference", apart, at_most=1e-12),
    ]


def _meeting() -> list[bool]:
    speeds = np.linspace(1.0, 9.0, 33)
    hull = HullCurve(
        speed_mps=speeds, resistance_n=120 * speeds**2 + 25 * speeds**3, wake_ratio=0.12, deduction_ratio=0.10
    )
    drive = Drive(curve=power_curve_from_rating(55e3, 50.0), gear_ratio=2.5, kept_ratio=0.94)
    stock = Propellers(
        diameter_m=RNG.uniform(0.40, 0.75, MANY), pitch_ratio=PITCH, area_ratio=AREA, blades=RNG.integers(3, 6, MANY)
    )
    return [
        _told(
            "meeting points of 100,000 propellers: s", _seconds(lambda: meeting_point(drive, hull, stock), 3), at_most=1
        )
    ]


def _sizing() -> list[bool]:
    taken = _seconds(lambda: best_diameter(50e3, 1000 / 60, 3.6, 0.55, [3, 4]), 15)
    return [_told("best propeller for 3 and 4 blades: ms", 1e3 * taken, at_most=10)]


def _told(what: str, found: float, *, at_least: float = -np.inf, at_most: float = np.inf) -> bool:
    kept = at_least <= found <= at_most
    asked = f"at least {at_least:g}" if np.isfinite(at_least) else f"at most {at_most:g}"
    print(f"{what:<55} {found:>10.3g}   {asked:<15} {'kept' if kept else 'MISSED'}")
    return kept


def main() -> int:
    """Run all; 0 where every figure is kept."""
    kept = [*_series("four blades", np.full(MANY, 4)), *_series("mixed", MIXED), *_meeting(), *_sizing()]
    return 0 if all(kept) else 1


if __name__ == "__main__":
    sys.exit(main())
