"""Boxes of a form: what was typed stays, what was meant becomes SI."""

import pytest
from werkzeug.datastructures import MultiDict
from wtforms import Form
from wtforms.validators import InputRequired, Optional

from yardapp.fields import (
    AngleField,
    CountField,
    LengthField,
    MassField,
    PowerField,
    RatioField,
    RotationField,
    SpeedField,
    TaperField,
)

INCH = 0.0254  # 1959 international yard agreement


class Sheet(Form):
    diameter_m = LengthField("Diameter", [Optional()])
    rise_m = LengthField("Rise", [InputRequired("Read the rise off the height gauge.")], default_unit="mm", at_most=0.5)
    bore_m = LengthField("Bore", default_unit="in", what="bore", at_most=0.3)
    swing_rad = AngleField("Swing", default_unit="deg")
    taper = TaperField("Taper")
    power_w = PowerField("Power")
    shaft_speed_rps = RotationField("Shaft")
    speed_mps = SpeedField("Speed")
    mass_kg = MassField("Weight")
    reduction_ratio = RatioField("Reduction")
    blade_count = CountField("Blades")


def typed(**boxes: str) -> Sheet:
    return Sheet(MultiDict({"rise_m": "33.3"} | boxes))


@pytest.mark.parametrize(
    ("box", "text", "expected"),
    [
        ("diameter_m", '23 1/2"', 23.5 * INCH),
        ("rise_m", "33.3", 0.0333),
        ("bore_m", "1-3/4", 1.75 * INCH),
        ("swing_rad", "180", 3.141592653589793),
        ("taper", "1:16", 0.0625),
        ("power_w", "28 kW", 28000.0),
        ("shaft_speed_rps", "600", 10.0),
        ("speed_mps", "36 km/h", 10.0),
        ("mass_kg", "12.5", 12.5),
        ("reduction_ratio", "2.03:1", 2.03),
        ("blade_count", "4", 4),
    ],
)
def test_a_box_gives_si_and_keeps_what_was_typed(box, text, expected):
    form = typed(**{box: text})

    assert form.validate()
    assert form[box].data == pytest.approx(expected, rel=1e-12)
    assert form[box].typed == text
    assert form[box].reading.typed == text


def test_the_box_shows_what_was_typed_and_not_what_was_read():
    form = typed(diameter_m=" 23½ ")

    assert form.diameter_m._value() == " 23½ "
    assert form.diameter_m.understood == "596.9 mm (23 1/2 in)"


def test_an_unreadable_size_says_what_would_do_and_stays_in_the_box():
    form = typed(diameter_m="23..5")

    assert not form.validate()
    assert form.errors == {"diameter_m": ["`23..5` is not a size. Try 23.5, 23 1/2 or 597 mm."]}
    assert form.diameter_m.data is None
    assert 'value="23..5"' in form.diameter_m()


@pytest.mark.parametrize("blank", ["", "   "])
def test_an_empty_box_stays_empty(blank):
    form = typed(diameter_m=blank, bore_m=blank)

    assert form.validate()
    assert (form.diameter_m.data, form.bore_m.data, form.bore_m.reading) == (None, None, None)


@pytest.mark.parametrize("blank", ["", "   "])
def test_a_box_that_must_be_filled_says_so_when_blank(blank):
    form = typed(rise_m=blank)

    assert not form.validate()
    assert form.errors == {"rise_m": ["Read the rise off the height gauge."]}


def test_an_emptied_box_does_not_fall_back_on_the_record():
    form = Sheet(MultiDict({"rise_m": "", "diameter_m": ""}), data={"diameter_m": 0.597, "rise_m": 0.03})

    assert (form.diameter_m.data, form.diameter_m._value()) == (None, "")


def test_a_box_has_bounds_and_a_word_of_its_own():
    form = typed(bore_m="22")

    assert not form.validate()
    assert form.errors == {
        "bore_m": ["`22` is too large for a bore: at most 11.81 in (no unit typed; this box reads inches)."]
    }


@pytest.mark.parametrize(
    ("box", "value", "shown"),
    [
        ("diameter_m", 0.597, "597 mm"),
        ("rise_m", 0.0333, "33.3 mm"),
        ("bore_m", 1.75 * INCH, "1 3/4 in"),
        ("bore_m", 0.045, "45 mm"),  # an awkward inch figure is shown as the millimetres that it is
        ("taper", 0.0625, "1:16"),
        ("shaft_speed_rps", 10.0, "600 rpm"),
        ("blade_count", 4, "4"),
    ],
)
def test_a_record_is_shown_so_that_it_reads_back_the_same(box, value, shown):
    form = Sheet(data={box: value})

    assert form[box]._value() == shown
    assert typed(**{box: shown})[box].data == pytest.approx(value, rel=1e-12)


def test_a_box_follows_the_person_who_fills_it_in():
    metric, inches = ({"system": system} for system in ("mm", "in"))

    assert Sheet(MultiDict({"diameter_m": "45"}), meta=metric).diameter_m.data == 0.045
    assert Sheet(MultiDict({"diameter_m": "45"}), meta=inches).diameter_m.data == pytest.approx(45 * INCH)
    assert Sheet(MultiDict({"diameter_m": "597"}), meta=inches).diameter_m.data == 0.597
    assert Sheet(MultiDict({"diameter_m": "1-3/4"}), meta=metric).diameter_m.data == pytest.approx(1.75 * INCH)
    assert Sheet(data={"diameter_m": 23.5 * INCH}, meta=inches).diameter_m._value() == "23 1/2 in"
    assert Sheet(MultiDict({"power_w": "38"}), meta=metric).power_w.data == 38000.0


def test_a_box_offers_the_other_reading_of_an_assumed_unit():
    form = typed(diameter_m="45", swing_rad="40 deg")

    assert form.diameter_m.other_reading.value == 0.045
    assert form.swing_rad.other_reading is None


def test_every_box_says_what_kind_of_figure_it_takes():
    assert {field.kind for field in Sheet()} == {
        "length", "angle", "taper", "power", "rotation", "speed", "mass", "number", "count",
    }  # fmt: skip
