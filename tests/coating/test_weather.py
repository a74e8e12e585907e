import psychrolib
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.coating.systems import LIMITS
from yardapp.coating.system import Limits
from yardapp.coating.weather import Reading, dew_of, gate, share_of


def reading(air_c=20.0, metal_c=20.0, relative_humidity=0.6, at_s=0.0, **said):
    return Reading(at_s=at_s, air_c=air_c, metal_c=metal_c, relative_humidity=relative_humidity, **said)


def test_the_guidance_sheets_cold_metal_waits():
    # Coating guidance sheet on ambient conditions: air 16 °C, 71 %, steel 13 °C: margin 2, not acceptable.
    judged = gate(reading(16, 13, 0.71), None, now_s=60)

    assert judged.verdict == "wait"
    assert judged.dew_c == pytest.approx(10.74, abs=0.05)
    assert judged.margin_c == pytest.approx(2.26, abs=0.05)
    assert judged.why == ("Metal is 2.3 degrees above the dew point; it must be 3 or more.",)


def test_the_guidance_sheets_whirled_wet_bulb_goes():
    # Coating guidance sheet on ambient conditions: dry 21, wet 17, steel 19 °C: margin 4, acceptable.
    judged = gate(reading(21, 19, None, wet_bulb_c=17), LIMITS, now_s=60)

    assert judged.verdict == "go"
    assert judged.dew_c == pytest.approx(14.73, abs=0.15)
    assert judged.margin_c == pytest.approx(4.27, abs=0.15)


@settings(max_examples=60, deadline=None)
@given(st.floats(5, 35), st.floats(0.35, 0.99))
def test_a_wet_bulb_tells_the_humidity_that_ashrae_tells(air_c, relative_humidity):
    # ASHRAE Handbook Fundamentals 2017, as psychrolib codes it.
    psychrolib.SetUnitSystem(psychrolib.SI)
    wet_bulb_c = psychrolib.GetTWetBulbFromRelHum(air_c, relative_humidity, 101325.0)
    if wet_bulb_c > 0.1:
        read = reading(air_c, air_c, None, wet_bulb_c=wet_bulb_c)

        assert share_of(read, dew_of(read)) == pytest.approx(relative_humidity, abs=0.02)


@settings(max_examples=60, deadline=None)
@given(st.floats(8, 35), st.floats(0.3, 0.99), st.floats(5, 35))
def test_the_gate_decides_as_psychrolibs_dew_point_does(air_c, relative_humidity, metal_c):
    psychrolib.SetUnitSystem(psychrolib.SI)
    margin_c = metal_c - psychrolib.GetTDewPointFromRelHum(air_c, relative_humidity)
    verdict = gate(reading(air_c, metal_c, relative_humidity), Limits(), now_s=0).verdict

    if abs(margin_c - 3) > 0.4:  # frost point below 0 °C lies up to 0.36 degrees off
        assert verdict == ("go" if margin_c > 3 else "wait")


def test_a_reading_of_thirty_minutes_stands_and_an_older_one_is_unknown_not_passed():
    assert gate(reading(), LIMITS, now_s=1800).verdict == "go"

    late = gate(reading(), LIMITS, now_s=1801)

    assert late.verdict == "unknown"
    assert "30 minutes old: measure again" in late.why[0]
    assert late.due_s == 1800


def test_nothing_read_is_unknown():
    assert gate(None, LIMITS, now_s=0).verdict == "unknown"


@pytest.mark.parametrize(
    ("missing", "said"),
    [
        ({"metal_c": None}, "Nobody has read the metal itself"),
        ({"relative_humidity": None}, "Nobody has read the humidity"),
        ({"air_c": None}, "Nobody has read the air"),
    ],
)
def test_what_was_not_read_is_unknown_and_named(missing, said):
    judged = gate(reading(**missing), LIMITS, now_s=0)

    assert judged.verdict == "unknown"
    assert any(said in why for why in judged.why)


def test_what_is_known_to_be_wrong_waits_though_something_else_was_not_read():
    judged = gate(reading(metal_c=5.0, relative_humidity=None), LIMITS, now_s=0)

    assert judged.verdict == "wait"
    assert judged.why[0] == "Metal is 5.0 °C; the sheet gives 10 to 30 °C."


@pytest.mark.parametrize(
    ("said", "why"),
    [
        ({"metal_c": 31.0}, "Metal is 31.0 °C; the sheet gives 10 to 30 °C."),
        ({"relative_humidity": 0.86, "metal_c": 29.0}, "Humidity is 86%; the sheet gives at most 85%."),
    ],
)
def test_a_limit_of_the_sheet_holds(said, why):
    assert why in gate(reading(**said), LIMITS, now_s=0).why


def test_a_coat_that_needs_moisture_waits_for_it():
    judged = gate(reading(relative_humidity=0.2), Limits(relative_humidity_least=0.3), now_s=0)

    assert judged.why == ("Humidity is 20%; the sheet gives at least 30%.",)


@pytest.mark.parametrize("share", [0.0, 1.2, -0.1])
def test_a_humidity_that_cannot_be_is_said_and_never_passed(share):
    judged = gate(reading(relative_humidity=share), LIMITS, now_s=0)

    assert judged.verdict == "unknown"
    assert "The humidity can't be right" in judged.why[0]


def test_exactly_three_degrees_goes():
    dew_c = dew_of(reading())

    assert gate(reading(metal_c=dew_c + 3.0), LIMITS, now_s=0).verdict == "go"
