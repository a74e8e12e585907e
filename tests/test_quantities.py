"""What people type, in SI; SI, as people read it. Sources of the figures: see beside them."""

from math import isclose, pi, tan

import pytest
from hypothesis import given
from hypothesis import strategies as st

from yardapp.quantities import Unreadable, both, exact, flip, plus_minus, read, show

INCH = 0.0254  # 1959 international yard agreement

# Each text means 23 1/2 inches, or what stands beside it in metres.
SIZES = [
    ('23 1/2"', 23.5 * INCH), ("23-1/2 in", 23.5 * INCH), ("23½", 23.5 * INCH), ("23.5", 23.5 * INCH),
    ("23,5 in.", 23.5 * INCH), ("23½”", 23.5 * INCH), ("⌀ 23.5 IN", 23.5 * INCH), ("23–1/2 inches", 23.5 * INCH),
    ("1-3/4", 1.75 * INCH), ('7/8"', 0.875 * INCH), (".5 in", 0.5 * INCH), ("0,125 in", 0.125 * INCH),
    ("2' 3\"", 27 * INCH), ("2′ 3″", 27 * INCH), ("2'-3", 27 * INCH), ("2 ft 3 1/2 in", 27.5 * INCH),
    ("2' 3''", 27 * INCH), ("597", 0.597), ("597mm", 0.597), ("597 MM", 0.597), ("59.7 cm", 0.597), ("0,597 m", 0.597),
    ("1.5 M", 1.5), ("2 ft", 24 * INCH), ("127 um", 0.000127), ("5 thou", 5 * 0.0000254),
    ("100 \u00b5m", 0.0001), ("100 \u03bcm", 0.0001), ("100 micron", 0.0001),  # 10⁻⁶ m, SI Brochure, 9th edition
]  # fmt: skip

OTHERS = [
    ("power", "38 hp", 38 * 745.699872),  # 550 ft lbf/s
    ("power", "38 H.P.", 38 * 745.699872),
    ("power", "38 PS", 38 * 735.49875),  # 75 kgf m/s
    ("power", "38 cv", 38 * 735.49875),
    ("power", "28 kW", 28000.0),
    ("rotation", "2800 rpm", 2800 / 60),
    ("rotation", "2800 r.p.m.", 2800 / 60),
    ("rotation", "600", 10.0),
    ("speed", "7.5 kn", 7.5 * 1852 / 3600),  # nautical mile: 1929 Monaco conference
    ("speed", "7,5 kts", 7.5 * 1852 / 3600),
    ("angle", "68 deg", 68 * pi / 180),
    ("angle", "68°", 68 * pi / 180),
    ("angle", "3° 35'", 215 / 60 * pi / 180),
    ("mass", "2 lb", 2 * 0.45359237),  # 1959 agreement
    ("mass", "2 t", 2000.0),
    ("number", "2.03", 2.03),
    ("number", "2.03:1", 2.03),
    ("number", "55 %", 0.55),
    ("count", "4", 4.0),
    ("force", "1 kN", 1000.0),
    ("force", "1 lbf", 4.4482216152605),  # 0.45359237 kg and 9.80665 m/s2
    ("force", "230 kgf", 230 * 9.80665),  # standard gravity: 3rd CGPM, 1901
    ("torque", "100 lbf ft", 135.5817948),  # derived from 0.45359237 kg, 9.80665 m/s2 and 0.3048 m
    ("torque", "120 Nm", 120.0),
    ("pressure", "1 psi", 6894.757293),  # derived likewise
    ("pressure", "250 N/mm2", 250e6),
    ("density", "0.286 lb/in3", 0.286 * 27679.905),  # derived likewise
    ("area", "1 sq ft", 0.09290304),  # 0.3048 squared
    ("volume", "750 ml", 0.00075),
    ("temperature", "14", 14.0),
    ("temperature", "50 °F", 10.0),  # water boils at 212 and freezes at 32
    ("temperature", "-40 F", -40.0),
    ("temperature", "0 °C", 0.0),
    ("duration", "20 min", 1200.0),
    ("duration", "2 h 30 min", 9000.0),
    ("duration", "2h30", 9000.0),
    ("duration", "3 days", 3 * 86400.0),
]

TAPERS = [
    ("1:16", 1 / 16), ("1 : 16", 1 / 16), ("1 in 12", 1 / 12), ("1 to 16", 1 / 16), ("1/16", 1 / 16),
    ("3/4 in per foot", 1 / 16), ('3/4"/ft', 1 / 16), ("1 in per ft", 1 / 12), ("0.75 in/ft", 1 / 16),
    ("6.25 mm per 100 mm", 1 / 16), ("3.58°", 2 * tan(3.58 / 2 * pi / 180)),
    ("1.79 deg per side", 2 * tan(1.79 * pi / 180)),
    ("half 1.79 deg", 2 * tan(1.79 * pi / 180)), ("16", 1 / 16), ("0.0625", 1 / 16),
]  # fmt: skip


@pytest.mark.parametrize(("typed", "metres"), SIZES)
def test_a_size_is_read_as_a_yard_writes_it(typed, metres):
    assert isclose(read(typed, "length").value, metres, rel_tol=1e-12)


@pytest.mark.parametrize(("kind", "typed", "expected"), OTHERS)
def test_every_other_kind_is_read_as_a_yard_writes_it(kind, typed, expected):
    assert isclose(read(typed, kind).value, expected, rel_tol=2e-8)  # the published figures have eight places


@pytest.mark.parametrize(("typed", "ratio"), TAPERS)
def test_a_taper_is_change_of_diameter_over_length_however_it_is_said(typed, ratio):
    assert isclose(read(typed, "taper").value, ratio, rel_tol=1e-12)


@pytest.mark.parametrize(
    "typed",
    ["", "  ", "２３", "nan", "inf", "-inf", "2**3", "9**9**8 mm", "23..5", "1e3", "0x17", "(23)", "23 + 1/2",
     "1,234", "1/0", "13/4", "16/16", "-5", "0", "0 mm", "40 m", "3-Aug", "Mar-08", "8 March", "3/8/2026", "2026-08-03",
     "23 1/2 1", "1 234", "२३ mm", "x" * 61, "38 kW", "23 furlongs", "5 mil", "2' 14\"", "2.5' 3\"", "23\u200b5"],
)  # fmt: skip
def test_what_is_no_size_is_refused_in_a_sentence(typed):
    with pytest.raises(Unreadable) as refusal:
        read(typed, "length")

    assert refusal.value.said.endswith(".")
    assert len(refusal.value.said) < 200


@pytest.mark.parametrize(
    ("typed", "kind", "said"),
    [
        ("23..5", "length", "`23..5` is not a size. Try 23.5, 23 1/2 or 597 mm."),
        ("13/4", "length", "`13/4` may be 3-1/4 or 1-3/4. Type the one you mean."),
        ("1,234", "length", "`1,234` may be 1.234 or 1234. Type it without the comma."),
        ("38", "power", "`38` has no unit, and hp, PS and kW differ. Type 38 hp, 38 PS or 28 kW."),
        ("38 kW", "length", "`38 kW` is a power, not a size. Try 23.5, 23 1/2 or 597 mm."),
        ("40 m", "length", "`40 m` is too large for a size: at most 20 m."),
        ("10 Hz", "rotation", "`10 Hz`: Hz is not how a shaft is counted here. Type rpm."),
        ("1/8", "taper", "`1/8` may be a ratio or inches per foot. Try 1:16, 3/4 in per foot or 3.58 deg."),
        ("16:1", "taper", "`16:1` is not a taper. Try 1:16, 3/4 in per foot or 3.58 deg."),
        ("20", "duration", "`20` has no unit, and minutes and hours differ. Type 20 min, 2 h or 2 h 30 min."),
        ("1 gal", "volume", "`1 gal`: gal may be a US or an imperial gallon, 20 % apart. Type litres."),
        ("-3.58 deg", "taper", "`-3.58 deg` is not a taper. Try 1:16, 3/4 in per foot or 3.58 deg."),
        ("-80 °C", "temperature", "`-80 °C` is too small for a temperature: at least -60 °C."),
        ("4.5", "count", "`4.5` is not a whole number. Try 3 or 4."),
    ],
)
def test_a_refusal_names_what_was_read_and_what_would_do(typed, kind, said):
    with pytest.raises(Unreadable) as refusal:
        read(typed, kind)

    assert refusal.value.said == said


def test_a_caller_sets_its_own_bounds_and_its_own_word():
    with pytest.raises(Unreadable, match=r"`900 mm` is too large for a bore: at most 300 mm\."):
        read("900 mm", "length", at_most=0.3, what="bore")


def test_zero_and_less_are_read_where_the_box_allows_them():
    assert read("0", "length", assume="mm", at_least=0).value == 0
    assert isclose(read("-2 mm", "length", at_least=-0.01).value, -0.002)


def test_mechanical_and_metric_horsepower_are_never_mixed():
    # 745.699872 / 735.49875
    assert isclose(read("1 hp", "power").value / read("1 PS", "power").value, 1.013870, rel_tol=1e-6)


@pytest.mark.parametrize(
    ("typed", "unit", "why"),
    [
        ("597", "mm", "no unit typed; a size above 60 is read as mm"),
        ("23.5", "in", "no unit typed; a size up to 60 is read as inches"),
        ("1-3/4", "in", "no unit typed; a fraction is read as inches"),
    ],
)
def test_a_unit_that_was_assumed_is_told_with_the_reason(typed, unit, why):
    found = read(typed, "length")

    assert (found.unit, found.assumed, found.why) == (unit, True, why)


def test_a_box_with_a_unit_of_its_own_says_so():
    assert read("597", "length", assume="in").why == "no unit typed; this box reads inches"


def test_a_unit_that_was_typed_is_not_an_assumption():
    found = read("23 in", "length", assume="mm")

    assert (found.unit, found.assumed, found.why, found.typed) == ("in", False, "", "23 in")


def test_an_assumed_unit_can_be_flipped_and_flipped_back():
    found = read("45", "length")

    other = flip(found)

    assert other is not None
    assert (found.unit, other.unit, other.value) == ("in", "mm", 0.045)
    assert flip(other).value == found.value


def test_a_typed_unit_cannot_be_flipped():
    assert flip(read("45 mm", "length")) is None


def test_an_angle_given_for_a_taper_is_told_to_be_the_full_one():
    assert "FULL included angle" in read("3.58 deg", "taper").why


@pytest.mark.parametrize(
    ("value", "kind", "system", "shown"),
    [
        (23.5 * INCH, "length", "in", "23 1/2 in"),
        (23.5 * INCH, "length", "mm", "596.9 mm"),
        (0.597, "length", "mm", "597 mm"),
        (0.597, "length", "in", "23.504 in"),
        (1.75 * INCH, "length", "mm", "44.45 mm"),
        (INCH / 64, "length", "in", "1/64 in"),
        (0.00005, "length", "mm", "0.05 mm"),
        (11.2, "length", "mm", "11.2 m"),
        (36.75 * 12 * INCH, "length", "in", "36 ft 9 in"),
        (1 / 16, "taper", "mm", "1:16"),
        (1 / 15.9, "taper", "in", "1:15.9"),
        (68 * pi / 180, "angle", "mm", "68°"),
        (28000.0, "power", "mm", "28 kW"),
        (38 * 745.699872, "power", "in", "38 hp"),
        (2800 / 60, "rotation", "mm", "2800 rpm"),
        (7.5 * 1852 / 3600, "speed", "mm", "7.5 kn"),
        (2.03, "number", "mm", "2.03"),
        (4.0, "count", "mm", "4"),
        (14.04, "temperature", "mm", "14 °C"),
        (10.0, "temperature", "in", "50 °F"),
        (7700.0, "density", "mm", "7700 kg/m³"),
        (9000.0, "duration", "mm", "2 h 30 min"),
        (1200.0, "duration", "mm", "20 min"),
        (3 * 86400.0, "duration", "mm", "3 d"),
        (None, "length", "mm", "not known"),
        (float("nan"), "taper", "mm", "not known"),
    ],
)
def test_a_figure_is_shown_as_the_trade_writes_it(value, kind, system, shown):
    assert show(value, kind, system) == shown


@pytest.mark.parametrize(
    ("value", "u", "kind", "system", "shown"),
    [  # JCGM 100:2008, 7.2.6: at most two significant figures, the value to match; k = 2
        (0.559, 0.00117, "length", "mm", "559.0 ± 2.3 mm"),
        (0.559, 0.0117, "length", "mm", "559 ± 23 mm"),
        (0.559, 0.117, "length", "mm", "560 ± 230 mm"),
        (0.559, 0.00498, "length", "mm", "559 ± 10 mm"),
        (0.559, None, "length", "mm", "559 mm"),
        (0.559, float("nan"), "length", "mm", "559 mm"),
        (22 * INCH, 0.05 * INCH, "length", "in", "22.00 ± 0.10 in"),
        (None, 0.1, "length", "mm", "not known"),
        (0.0625, 0.0005, "taper", "mm", "1:16.00 ± 0.26"),
        (0.5 * pi / 180, 0.05 * pi / 180, "angle", "mm", "0.50° ± 0.10°"),
    ],
)
def test_plus_minus_has_two_figures_and_the_value_as_many_places(value, u, kind, system, shown):
    assert plus_minus(value, u, kind, system) == shown
    assert show(value, kind, system, u=u) == shown


def test_both_systems_stand_side_by_side_where_they_differ():
    assert both(23.5 * INCH, "length", "mm") == "596.9 mm (23 1/2 in)"
    assert both(23.5 * INCH, "length", "in") == "23 1/2 in (596.9 mm)"
    assert both(1 / 16, "taper") == "1:16 (3/4 in per foot)"
    assert both(7.5 * 1852 / 3600, "speed") == "7.5 kn"
    assert both(None, "length") == "not known"


KINDS = {
    "length": (1e-6, 19.0),
    "angle": (1e-4, 6.2),
    "taper": (0.001, 0.33),
    "power": (1.0, 1e7),
    "rotation": (0.01, 400.0),
    "speed": (0.01, 50.0),
    "mass": (0.001, 1e6),
    "number": (1e-3, 1e5),
    "force": (0.1, 1e6),
    "torque": (0.1, 1e6),
    "pressure": (100.0, 1e9),
    "area": (1e-4, 100.0),
    "volume": (1e-5, 100.0),
    "density": (100.0, 20_000.0),
    "temperature": (1.0, 200.0),
    "duration": (1.0, 1e6),
}


@given(st.data(), st.sampled_from(sorted(KINDS)), st.sampled_from(["mm", "in"]))
def test_exact_text_reads_back_to_the_same_figure(data, kind, system):
    low, high = KINDS[kind]
    value = data.draw(st.floats(low, high))

    assert isclose(read(exact(value, kind, system), kind).value, value, rel_tol=1e-12)


ABOVE_ZERO = [*sorted(KINDS.keys() - {"temperature"}), "count"]


def test_noise_in_the_last_bit_is_not_written_out():
    assert exact(0.044449999999999996, "length", "in") == "1 3/4 in"
    assert exact(0.044449999999999996, "length", "mm") == "44.45 mm"


@given(st.integers(1, 60 * 64), st.sampled_from(["mm", "in"]))
def test_every_sixty_fourth_is_shown_as_a_fraction_that_reads_back(sixty_fourths, system):
    value = sixty_fourths / 64 * INCH

    assert "." not in show(value, "length", "in")
    assert isclose(read(show(value, "length", "in"), "length").value, value, rel_tol=1e-12)
    assert isclose(read(exact(value, "length", system), "length").value, value, rel_tol=1e-12)


@given(st.text(alphabet="0123456789 /-.,'\"½:°inftmdegpr", max_size=70), st.sampled_from(ABOVE_ZERO))
def test_any_text_is_either_a_finite_figure_above_zero_or_refused(text, kind):
    try:
        value = read(text, kind).value
    except Unreadable:
        value = 1.0

    assert 0 < value <= 1e10


@given(
    st.floats(-1e15, 1e15) | st.just(float("nan")) | st.just(float("inf")), st.sampled_from([*sorted(KINDS), "count"])
)
def test_any_float_can_be_shown(value, kind):
    assert show(value, kind, "in")
    assert plus_minus(value, abs(value) / 1000, kind, "mm")


@pytest.mark.parametrize(
    ("volume_m3", "said"), [(12.5e-6, "12.5 ml"), (0.00025, "250 ml"), (0.001, "1 l"), (0.0015, "1.5 l")]
)
def test_less_than_a_litre_is_said_in_millilitres(volume_m3, said):
    assert show(volume_m3, "volume") == said
