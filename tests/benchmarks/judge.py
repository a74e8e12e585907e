"""One verdict on everything, against the floor: the same pair's meeting of engine, hull and propeller, bare.

Run: python -m tests.benchmarks.judge
"""

import time
from collections.abc import Callable
from dataclasses import replace
from statistics import median
from typing import Any

from tests.fit.pairings import mm
from tests.fit.power_pairings import BOAT, SUITED
from yardapp.fit.loading import premises
from yardapp.fit.verdict import EVERYTHING, GEOMETRY, judge
from yardapp.formulas.sizing import Propellers, meeting_point

ROUNDS = 60


def milliseconds(work: Callable[[int], Any]) -> float:
    """Median processor time of one call, each round with figures of its own, so that nothing is only looked up."""
    taken = []
    for number in range(ROUNDS):
        began = time.process_time()
        work(number)
        taken.append(1000 * (time.process_time() - began))
    return median(taken)


def main() -> None:
    """Print the times and their ratios to the floor."""
    ready: Any = premises(BOAT)

    def bare(number: int) -> Any:
        one = Propellers(diameter_m=0.42, pitch_ratio=0.69 + number / 1e4, area_ratio=0.7, blades=3)
        return meeting_point(ready.engine, ready.hull, one)

    floor = milliseconds(bare)
    print(f"bare meeting point            {floor:6.2f} ms")
    pitches = [replace(SUITED, pitch_m=mm(290 + number / 10, 1.5)) for number in range(ROUNDS)]
    boats = [replace(BOAT, speed_power=tuple((v, p + number) for v, p in BOAT.speed_power)) for number in range(ROUNDS)]
    for label, work in (
        ("geometry alone", lambda i: judge(pitches[i], BOAT, ask=GEOMETRY)),
        ("everything, one drive", lambda i: judge(pitches[i], BOAT, ask=EVERYTHING)),
        ("everything, a drive each time", lambda i: judge(pitches[i], boats[i], ask=EVERYTHING)),
    ):
        taken = milliseconds(work)
        print(f"{label:29} {taken:6.2f} ms   {taken / floor:4.1f} times the floor")


if __name__ == "__main__":
    main()
