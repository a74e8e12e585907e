import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from yardapp.formulas.engine import power_curve, power_curve_from_rating
from yardapp.formulas.ranges import OutsideRange
from yardapp.formulas.sizing import Drive, HullCurve, Propellers, meeting_point
from yardapp.formulas.tables import figure, table

SPEEDS = np.linspace(1.0, 9.0, 33)
# R / V^2 is linear, so that what lies between the points is not in question.
HULL = HullCurve(speed_mps=SPEEDS, resistance_n=120 * SPEEDS**2 + 25 * SPEEDS**3, wake_ratio=0.12, deduction_ratio=0.10)
DRIVE = Drive(curve=power_curve([15.0, 30.0, 45.0, 50.0], [8e3, 30e3, 52e3, 55e3]), gear_ratio=2.5, kept_ratio=0.94)
STOCK = 40


def _stock(count, seed):
    rng = np.random.default_rng(seed)
    return Propellers(
        diameter_m=rng.uniform(0.40, 0.75, count),
        pitch_ratio=rng.uniform(0.55, 1.3, count),
        area_ratio=rng.uniform(0.4, 0.9, count),
        blades=rng.integers(3, 6, count),
    )


def _one(stock, i):
    return Propellers(**{name: np.asarray(figures)[i] for name, figures in vars(stock).items()})


def _cubic(name, pitch_ratio, area_ratio, blades):
    """Coefficients in J by the printed sum, in plain floats."""
    cubic = [0.0] * 4
    for row in table(name):
        s, t, u, v = (int(row[power]) for power in "stuv")
        cubic[s] += figure(row, "coefficient") * pitch_ratio**t * area_ratio**u * blades**v
    return lambda j: cubic[0] + j * (cubic[1] + j * (cubic[2] + j * cubic[3]))


def _bisect(function, low, high):
    """Where a function that starts above zero ends; 200 halvings at most."""
    for _ in range(200):
        middle = (low + high) / 2
        if middle in (low, high):
            break
        low, high = (middle, high) if function(middle) > 0 else (low, middle)
    return (low + high) / 2


def _scalar_meeting(diameter, pitch_ratio, area_ratio, blades):
    """Another way round: at each speed first the turns that the engine reaches, then the thrust that is left over."""
    kt, kq = (_cubic(name, pitch_ratio, area_ratio, blades) for name in ("b_series_kt", "b_series_kq"))
    zero_thrust = _bisect(kt, 0.0, 1.6)
    most = DRIVE.curve.engine_speed_rps[-1] / DRIVE.gear_ratio

    def spare_torque(turns, advance):
        given = np.interp(turns * DRIVE.gear_ratio, DRIVE.curve.engine_speed_rps, DRIVE.curve.torque_nm)
        taken = kq(advance / (turns * diameter)) * 1025 * turns**2 * diameter**5
        return float(given) * DRIVE.gear_ratio * DRIVE.kept_ratio - taken

    def turns_at(speed):
        advance = speed * (1 - HULL.wake_ratio)
        if spare_torque(most, advance) >= 0:
            return most
        return _bisect(lambda turns: spare_torque(turns, advance), advance / (zero_thrust * diameter), most)

    def spare_thrust(speed):
        turns = turns_at(speed)
        thrust = kt(speed * (1 - HULL.wake_ratio) / (turns * diameter)) * 1025 * turns**2 * diameter**4
        return thrust * (1 - HULL.deduction_ratio) - (120 * speed**2 + 25 * speed**3)

    speed = _bisect(spare_thrust, SPEEDS[0], SPEEDS[-1])
    return turns_at(speed), speed


def test_it_is_where_a_scalar_bisection_the_other_way_round_finds_it():
    stock = _stock(STOCK, 3)

    found = meeting_point(DRIVE, HULL, stock)

    by_hand = [
        _scalar_meeting(float(d), float(p), float(a), int(z))
        for d, p, a, z in zip(stock.diameter_m, stock.pitch_ratio, stock.area_ratio, stock.blades, strict=True)
    ]
    known = ~np.isnan(found.speed_mps)
    assert known.sum() > STOCK / 2
    np.testing.assert_allclose(found.shaft_speed_rps[known], [n for n, _ in np.array(by_hand)[known]], rtol=1e-9)
    np.testing.assert_allclose(found.speed_mps[known], [v for _, v in np.array(by_hand)[known]], rtol=1e-9)


def test_a_stock_of_many_blocks_gives_what_each_propeller_gives_alone():
    stock = _stock(9_000, 4)

    together = meeting_point(DRIVE, HULL, stock)

    for i in (0, 4_095, 4_096, 8_999):
        alone = meeting_point(DRIVE, HULL, _one(stock, i))
        np.testing.assert_allclose([each[i] for each in together], [np.float64(each) for each in alone], rtol=1e-9)


def test_thrust_carries_the_hull_and_torque_is_what_the_engine_brings():
    found = meeting_point(DRIVE, HULL, _stock(200, 5))
    v, pulls = found.speed_mps, ~found.is_governed & ~np.isnan(found.speed_mps)

    np.testing.assert_allclose(found.thrust_n * 0.9, 120 * v**2 + 25 * v**3, rtol=1e-9)
    brought = np.interp(found.engine_speed_rps, DRIVE.curve.engine_speed_rps, DRIVE.curve.torque_nm) * 2.5 * 0.94
    np.testing.assert_allclose(found.torque_nm[pulls], brought[pulls], rtol=1e-9)
    assert pulls.any()
    assert np.all(found.torque_nm[found.is_governed] <= brought[found.is_governed] * (1 + 1e-9))


def test_a_propeller_too_small_to_hold_the_engine_turns_at_the_governed_speed():
    found = meeting_point(DRIVE, HULL, Propellers(diameter_m=0.40, pitch_ratio=0.6, area_ratio=0.5, blades=3))

    assert found.is_governed
    assert float(found.engine_speed_rps) == pytest.approx(50.0)


def test_a_propeller_that_holds_the_engine_below_its_curve_reaches_nothing_known():
    found = meeting_point(DRIVE, HULL, Propellers(diameter_m=1.2, pitch_ratio=1.3, area_ratio=0.8, blades=4))

    assert np.isnan(found.engine_speed_rps)
    assert np.isnan(found.power_w)


def test_a_boat_that_outruns_its_curve_reaches_nothing_known():
    short = HullCurve(speed_mps=[1.0, 2.0], resistance_n=[100.0, 400.0])

    assert np.isnan(meeting_point(DRIVE, short, _one(_stock(1, 1), 0)).speed_mps)


def test_speeds_at_which_the_resistance_is_not_known_are_left_out():
    one = _one(_stock(STOCK, 3), 0)
    gaps = HullCurve(
        speed_mps=[0.5, *SPEEDS, 20.0],
        resistance_n=[np.nan, *HULL.resistance_n, np.nan],
        wake_ratio=HULL.wake_ratio,
        deduction_ratio=HULL.deduction_ratio,
    )

    np.testing.assert_array_equal(meeting_point(DRIVE, gaps, one), meeting_point(DRIVE, HULL, one))


def test_a_hull_of_which_one_speed_is_known_is_no_curve():
    with pytest.raises(OutsideRange, match="speed_mps"):
        meeting_point(DRIVE, HullCurve(speed_mps=[1.0, 2.0], resistance_n=[100.0, np.nan]), _one(_stock(1, 1), 0))


def test_a_boat_that_cannot_cross_its_hump_stays_below_it():
    humped = HullCurve(
        speed_mps=np.linspace(1.0, 13.0, 121),
        resistance_n=np.interp(np.linspace(1.0, 13.0, 121), [1.0, 4.0, 6.0, 13.0], [100.0, 9e3, 2.5e3, 9e3]),
    )

    found = meeting_point(DRIVE, humped, Propellers(diameter_m=0.55, pitch_ratio=0.9, area_ratio=0.55, blades=3))

    assert float(found.speed_mps) < 4.0


@settings(max_examples=20, deadline=None)
@given(st.floats(0.45, 0.7), st.floats(0.4, 0.9), st.integers(3, 5))
def test_more_pitch_never_lets_the_engine_turn_faster(diameter, area, blades):
    stock = Propellers(diameter_m=diameter, pitch_ratio=np.linspace(0.6, 1.2, 13), area_ratio=area, blades=blades)

    turns = meeting_point(DRIVE, HULL, stock).engine_speed_rps

    assert np.all(np.diff(turns[~np.isnan(turns)]) <= 1e-9)


def test_two_screws_share_the_hull():
    one = Propellers(diameter_m=0.5, pitch_ratio=0.8, area_ratio=0.55, blades=3)
    half = HullCurve(speed_mps=SPEEDS, resistance_n=60 * SPEEDS**2)
    whole = HullCurve(speed_mps=SPEEDS, resistance_n=120 * SPEEDS**2, screw_count=2)

    np.testing.assert_allclose(meeting_point(DRIVE, half, one), meeting_point(DRIVE, whole, one), rtol=1e-12)


@pytest.mark.parametrize("argument", ["diameter_m", "pitch_ratio", "area_ratio", "blades"])
def test_a_propeller_that_is_not_fully_known_reaches_nothing_known_and_spares_its_neighbour(argument):
    figures = {"diameter_m": 0.5, "pitch_ratio": 0.8, "area_ratio": 0.55, "blades": 3.0}
    stock = Propellers(**figures | {argument: [np.nan, figures[argument]]})

    found = meeting_point(DRIVE, HULL, stock)

    assert list(np.isnan(found.speed_mps)) == [True, False]
    assert not found.is_governed[0]


@pytest.mark.parametrize(
    ("part", "argument", "figure_given"),
    [
        ("drive", "gear_ratio", 0.0),
        ("drive", "kept_ratio", 1.1),
        ("hull", "wake_ratio", 1.0),
        ("hull", "deduction_ratio", 1.5),
        ("hull", "screw_count", 0),
        ("hull", "speed_mps", SPEEDS[::-1]),
        ("hull", "resistance_n", [1.0, 2.0, 3.0]),
        ("propeller", "pitch_ratio", 1.5),
        ("propeller", "diameter_m", -0.5),
    ],
)
def test_an_impossible_part_is_refused_by_its_name(part, argument, figure_given):
    figures = {
        "drive": vars(DRIVE),
        "hull": vars(HULL),
        "propeller": {"diameter_m": 0.5, "pitch_ratio": 0.8, "area_ratio": 0.55, "blades": 3},
    }
    figures[part] = figures[part] | {argument: figure_given}

    with pytest.raises(OutsideRange) as refusal:
        meeting_point(Drive(**figures["drive"]), HullCurve(**figures["hull"]), Propellers(**figures["propeller"]))

    assert refusal.value.argument == argument


def test_a_rated_engine_meets_a_hull_too():
    drive = Drive(curve=power_curve_from_rating(55e3, 50.0), gear_ratio=2.5, kept_ratio=0.94)

    found = meeting_point(drive, HULL, Propellers(diameter_m=0.5, pitch_ratio=0.9, area_ratio=0.55, blades=3))

    assert 12.5 < float(found.engine_speed_rps) <= 50.0


def test_what_is_said_of_engine_and_hull_propeller_by_propeller_is_what_is_said_of_each_alone():
    one = Propellers(diameter_m=0.55, pitch_ratio=0.8, area_ratio=0.55, blades=3)
    said = {
        "wake_ratio": np.array([0.05, 0.12, 0.2]),
        "deduction_ratio": np.array([0.05, 0.10, 0.15]),
        "resistance_factor": np.array([0.9, 1.0, 1.2]),
    }
    engine = {"kept_ratio": np.array([0.9, 0.94, 0.95]), "torque_factor": np.array([1.05, 1.0, 0.97])}
    curve = {"speed_mps": SPEEDS, "resistance_n": HULL.resistance_n}

    together = meeting_point(Drive(curve=DRIVE.curve, gear_ratio=2.5, **engine), HullCurve(**curve, **said), one)

    for i in range(3):
        drive = Drive(curve=DRIVE.curve, gear_ratio=2.5, **{name: each[i] for name, each in engine.items()})
        alone = meeting_point(drive, HullCurve(**curve, **{name: each[i] for name, each in said.items()}), one)
        np.testing.assert_allclose([each[i] for each in together], [np.float64(each) for each in alone], rtol=1e-9)


def test_a_hull_that_resists_more_is_the_hull_with_every_row_raised():
    one = Propellers(diameter_m=0.55, pitch_ratio=0.8, area_ratio=0.55, blades=3)
    rows = np.asarray(HULL.resistance_n)

    by_factor = meeting_point(DRIVE, HullCurve(speed_mps=SPEEDS, resistance_n=rows, resistance_factor=1.3), one)

    raised = meeting_point(DRIVE, HullCurve(speed_mps=SPEEDS, resistance_n=1.3 * rows), one)
    np.testing.assert_allclose(by_factor.speed_mps, raised.speed_mps, rtol=1e-12)


def test_a_few_propellers_swept_at_once_meet_where_a_block_swept_speed_by_speed_does():
    stock = _stock(300, 6)

    swept = meeting_point(DRIVE, HULL, stock)

    for i in range(0, 300, 50):
        alone = meeting_point(DRIVE, HULL, _one(stock, i))
        np.testing.assert_allclose([each[i] for each in swept], [np.float64(each) for each in alone], rtol=1e-9)
