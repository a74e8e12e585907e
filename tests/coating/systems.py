"""Invented systems for the tests: times in whole minutes, so that a clock can be followed on paper."""

from yardapp.coating.system import (
    Film,
    Limits,
    Part,
    Product,
    Remedies,
    Step,
    System,
    TimeAt,
    Window,
    WindowAt,
)

MINUTE = 60.0
HOUR = 3600.0
LIMITS = Limits(metal_low_c=10, metal_high_c=30, relative_humidity_most=0.85, margin_c=3)
PRIMER = Product(
    name="Primer",
    parts=(Part(name="Base", share=4, kit_m3=4e-4), Part(name="Hardener", share=1, kit_m3=1e-4)),
    stirring_s=3 * MINUTE,
    induction_s=2 * MINUTE,
    pot_life=(
        TimeAt(temperature_c=10, time_s=240 * MINUTE),
        TimeAt(temperature_c=20, time_s=120 * MINUTE),
        TimeAt(temperature_c=30, time_s=60 * MINUTE),
    ),
    solids_ratio=0.5,
)
CLEAR = Product(name="Clear", parts=(Part(name="Clear", kit_m3=2.5e-4),), stirring_s=5 * MINUTE, solids_ratio=0.75)


def window(earliest_min, latest_min, *, by_touch=True):
    """A window that is the same from 10 to 30 °C."""
    return Window(
        by_touch=by_touch,
        rows=tuple(
            WindowAt(temperature_c=at_c, earliest_s=earliest_min * MINUTE, latest_s=latest_min * MINUTE)
            for at_c in (10, 30)
        ),
    )


def two_primers_and_a_top(*, first=(20, 60), second=(15, 50), by_touch=True, **said):
    """Two primer coats and a clear one; the first window opens after `first[0]` minutes."""
    test = (Step(kind="touch test"),) if by_touch else ()
    steps = (
        Step(kind="mix", product="Primer"),
        Step(
            kind="coat",
            title="Primer 1",
            product="Primer",
            film=Film(dry_m=50e-6),
            limits=LIMITS,
            window=window(*first, by_touch=by_touch),
            remedies=Remedies(too_late="Abrade that blade and give it coat 1 again."),
        ),
        *test,
        Step(
            kind="coat",
            title="Primer 2",
            product="Primer",
            film=Film(dry_m=50e-6),
            limits=LIMITS,
            window=window(*second, by_touch=by_touch),
        ),
        Step(kind="stir", product="Clear"),
        *test,
        Step(kind="top coat", title="Clear", product="Clear", film=Film(dry_m=120e-6), limits=LIMITS),
        Step(
            kind="leave alone",
            cure=(TimeAt(temperature_c=10, time_s=24 * HOUR), TimeAt(temperature_c=30, time_s=12 * HOUR)),
        ),
    )
    return System(**{"name": "Test system", "products": (PRIMER, CLEAR), "steps": steps, "foul_release": True} | said)
