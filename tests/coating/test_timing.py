import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.coating.systems import CLEAR, HOUR, PRIMER, two_primers_and_a_top
from yardapp.coating.system import Product, Step, TimeAt, Window, WindowAt
from yardapp.coating.timing import cure_s, pot_life_s, span_said, window_s
from yardapp.errors import OutsideRange

SYSTEM = two_primers_and_a_top()
STEP = Step(
    kind="coat",
    window=Window(
        rows=(
            WindowAt(temperature_c=10, earliest_s=2 * HOUR, latest_s=8 * HOUR),
            WindowAt(temperature_c=20, earliest_s=1 * HOUR, latest_s=4 * HOUR),
            WindowAt(temperature_c=30, earliest_s=0.5 * HOUR, latest_s=2 * HOUR),
        )
    ),
)


@pytest.mark.parametrize("at_c", [9.9, 30.1, 5, -20])
def test_outside_the_rows_there_is_no_time_and_the_sheet_is_quoted(at_c):
    for ask in (
        lambda: window_s(STEP, at_c),
        lambda: pot_life_s(PRIMER, at_c),
        lambda: cure_s(SYSTEM, at_c),
    ):
        with pytest.raises(OutsideRange, match="the sheet gives 10 to 30 °C") as refusal:
            ask()
        assert refusal.value.argument == "metal_c"


def test_at_a_row_the_time_is_the_row():
    times = window_s(STEP, 20)

    assert (times.earliest_s, times.latest_s) == (pytest.approx(HOUR), pytest.approx(4 * HOUR))
    # General two-part practice: 2 h at 20, 1 h at 30 °C, as the invented primer's rows stand.
    assert pot_life_s(PRIMER, 30) == pytest.approx(HOUR)


@given(st.floats(10, 30))
def test_between_rows_a_window_is_never_wider_than_straight_lines_make_it(at_c):
    times = window_s(STEP, at_c)
    colder, part = (0, (at_c - 10) / 10) if at_c < 20 else (1, (at_c - 20) / 10)
    rows = STEP.window.rows[colder : colder + 2]

    assert times.earliest_s >= rows[0].earliest_s * (1 - part) + rows[1].earliest_s * part - 1e-3
    assert times.latest_s <= rows[0].latest_s * (1 - part) + rows[1].latest_s * part + 1e-3
    assert rows[1].latest_s - 1e-3 <= times.latest_s <= rows[0].latest_s + 1e-3


def test_where_the_sheet_is_silent_there_is_no_time():
    assert pot_life_s(CLEAR, 20) is None
    assert window_s(Step(kind="coat", window=Window(by_touch=True)), 20) is None
    assert window_s(Step(kind="coat"), 20) is None


def test_a_sheet_without_a_latest_has_none():
    step = Step(kind="coat", window=Window(rows=(WindowAt(temperature_c=20, earliest_s=60),)))

    assert window_s(step, 20).latest_s is None


def test_one_row_holds_at_its_own_temperature_only():
    product = Product(name="Primer", parts=(), pot_life=(TimeAt(temperature_c=20, time_s=600),))

    assert pot_life_s(product, 20) == pytest.approx(600)
    assert span_said(product.pot_life) == "the sheet gives 20 °C only"
    with pytest.raises(OutsideRange):
        pot_life_s(product, 20.5)
