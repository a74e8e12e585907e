"""What holds for every public formula, by the good call of its docstring's example.

Zero, a figure below zero, infinity and shapes that do not go together are refused by the argument's own name, with its
value and what is allowed; what is not known passes; an array gives what its numbers give. Where a formula takes what
others refuse, TAKEN says why.
"""

import inspect
import re

import numpy as np
import pytest

from tests.factories.formulas import Call, calls, is_row, leaves, numbers_in
from yardapp.formulas.ranges import OutsideRange

CALLS = calls()
BAD = {"zero": 0, "below zero": -1, "infinite": np.inf, "infinite below zero": -np.inf}

# What another formula gave was held there, and is not held again.
GIVEN_BY_A_FORMULA = re.compile(r"(engine\.\w+\.curve|repitch\.\w+\.means|survey_class\.\w+\.spread)\..*")
ZERO, SIGNED = {"zero"}, {"zero", "below zero"}
# Where an argument of this name may be what is else refused, and why. The first that fits counts.
TAKEN = [
    (r".*\.(advance_speed_mps|advance_ratio)", ZERO, "a boat at the mooring"),
    (r"(slip|propulsion)\.\w+\.speed_mps", ZERO, "a boat at the mooring"),
    (r".*\.\w+_c", SIGNED, "a temperature below freezing"),
    (r".*\.(u_\w+|errors\.\w+)", ZERO, "a reading that is taken as exact"),
    (r".*\.(wake_ratio|deduction_ratio)", ZERO, "a propeller out of the hull's wake"),
    (r"wake_holtrop.*\.lcb_ratio|hull_holtrop.*\.lcb_ratio", ZERO, "a centre that is at half the length"),
    (r".*\.stern_number", SIGNED, "normal, or V-shaped sections"),
    (r".*\.(bulb_m2|bulb_height_m|transom_m2|appendage_m2)", ZERO, "a ship that has none"),
    (r".*\.(shaft_depth_m|keyway_depth_m|tip_ratio|station_m|gap_m|wall_m|swing_m|lift_m)", ZERO, "nothing of it"),
    (r".*\.(hub_space_m|cutter_length_m)", ZERO, "no room, or no cutter"),
    (r"cavitation\.keller_area_ratio\.allowance_ratio", ZERO, "fast twin screws"),
    (r".*\.(deadrise_rad|shaft_angle_rad)", ZERO, "a flat bottom; a level shaft"),
    (r"hull_savitsky.*\.thrust_arm_m", SIGNED, "a shaft's line through the centre of gravity, or above it"),
    (r".*\.bore_taper", ZERO, "a parallel bore"),
    (r".*\.(set_up_m|overhang_m|rake_m)", SIGNED, "a length with a direction"),
    (r".*\.(leading_m|trailing_m|root_height_m|tip_height_m|heights_m)", SIGNED, "a height above any mark"),
    (r".*\.(readings|figures_m|figure_m|dial_m)", SIGNED, "readings of any kind"),
    (r".*\.(deviation_m|deviation_rad)", SIGNED, "a deviation has a sign"),
    (r".*\.(loss_ratio|thinner_ratio|least_ratio)", ZERO, "none of it"),
    (r".*\.(gearbox_count|bearing_count)", ZERO, "a line without one"),
    (r"coating\.waiting_time\.sheet_s", ZERO, "the next coat at once"),
    (r"lives\.\w+\.(lives_s|has_ended|at_s)", ZERO, "gone at once; still on; the beginning"),
    (r"blade_rubbing\.\w+\.(x_m|y_m)", SIGNED, "a point either side of where the outline is counted from"),
    (r"blade_rubbing\.\w+\.(whole_count|part_count|part_ratio|root_\w+)", ZERO, "no square of that kind; no root"),
    (r"coated_area\.disc_area\.bore_m", ZERO, "a disc without a hole"),
]
# A bad figure that only another one makes bad: the other is named, for it may be the wrong one.
NAMED_INSTEAD = {
    "dew.dew_point_from_wet_bulb.air_c": "wet_bulb_c",
    "dew.humidity_of.air_c": "dew_point_c",
}
# Not known and yet something is said, by the formula's own docstring.
KNOWN_ALL_THE_SAME = {
    "clearance.class_rule.rudder_thickness_m": "left out of c",
    "hull_savitsky.savitsky.thrust_arm_m": "all forces go through the centre of gravity",
    "hull_savitsky.savitsky_at_trim.thrust_arm_m": "all forces go through the centre of gravity",
    "wake.wake_fraction.block_ratio": "the usual range is always known",
    "wake.thrust_deduction.wake_ratio": "the usual range is always known",
}
UNITLESS = re.compile(r".*(_ratio|_count|_number|_factor|taper)|blades|relative_humidity|diameters?_power|(is|has)_\w+")
UNITS = re.compile(r".*_(m|m2|m3|m3ps|rad|kg|s|n|nm|w|pa|c|mps|mps2|rps|kgpm3|m2ps)")

# Of geometry alone and yet not of one size with it: what is counted per metre, and where a standard counts in metres.
OF_THEIR_OWN_SIZE = {"film.spreading_rate", "iso484.scope"}

FIGURES = [
    (call, figure)
    for call in CALLS.values()
    for figure in call.figures
    if not GIVEN_BY_A_FORMULA.fullmatch(f"{call.name}.{figure}")
]
SPREAD = [(call, figure) for call in CALLS.values() for figure in call.broadcast]


def names(pairs):
    return [f"{call.name}.{figure}" for call, figure in pairs]


def in_place_of(figure, bad):
    """The bad figure; in a row, amid the good ones."""
    if not is_row(figure):
        return bad
    row = np.array(figure, float)
    row.flat[row.size // 2] = bad
    return row


def taken(where):
    return next((kinds for pattern, kinds, _ in TAKEN if re.fullmatch(pattern, where)), set())


@pytest.mark.parametrize("call", CALLS.values(), ids=list(CALLS))
def test_its_own_example_is_known_and_warns_of_nothing(call):
    result = call.given()

    if call.figures and not call.name.endswith(("key_for",)):
        assert not any(np.isnan(one).any() for one in numbers_in(result))
    assert result is not None


@pytest.mark.parametrize(("call", "figure"), FIGURES, ids=names(FIGURES))
@pytest.mark.parametrize("bad", BAD)
def test_it_refuses_what_can_not_be_by_name_value_and_what_is_allowed(call, figure, bad):
    where = f"{call.name}.{figure}"
    given = in_place_of(call.figure(figure), BAD[bad])

    if bad in taken(where) and takes(call, figure, BAD[bad]):
        return
    with pytest.raises(OutsideRange) as refusal:
        call.given(**{figure: given})

    assert refusal.value.argument in {figure.rpartition(".")[2], NAMED_INSTEAD.get(where)}
    assert refusal.value.figure is not None, str(refusal.value)
    assert str(refusal.value).startswith(f"{refusal.value.argument} is ")
    assert refusal.value.said.strip()


@pytest.mark.parametrize("entry", TAKEN, ids=lambda entry: entry[0])
def test_every_exception_is_one(entry):
    pattern, kinds, why = entry

    fits = [(call, figure) for call, figure in FIGURES if re.fullmatch(pattern, f"{call.name}.{figure}")]
    assert any(takes(call, figure, BAD[kind]) for call, figure in fits for kind in kinds)
    assert why


def takes(call, figure, bad):
    try:
        call.given(**{figure: in_place_of(call.figure(figure), bad)})
    except OutsideRange:
        return False
    return True


@pytest.mark.parametrize(("call", "figure"), SPREAD, ids=names(SPREAD))
def test_shapes_that_do_not_go_together_are_refused_by_name(call, figure):
    others = [other for other in call.broadcast if other != figure]
    for other in others:
        shapes = {figure: np.full(2, call.figure(figure)), other: np.full(3, call.figure(other))}

        with pytest.raises(OutsideRange, match=r"is of shape") as refusal:
            call.given(**shapes)

        assert refusal.value.argument in shapes
    assert figure not in others


@pytest.mark.parametrize(("call", "figure"), SPREAD, ids=names(SPREAD))
def test_what_is_not_known_passes_and_warns_of_nothing(call, figure):
    if f"{call.name}.{figure}" in KNOWN_ALL_THE_SAME:
        assert call.given(**{figure: np.nan}) is not None
        return
    alone = call.given(**{figure: np.nan})
    in_a_row = call.given(**{figure: np.array([np.nan, call.figure(figure)])})

    assert any(np.isnan(one).any() for one in numbers_in(alone))
    assert any(np.isnan(one).any() and not np.isnan(one).all() for one in numbers_in(in_a_row))


@pytest.mark.parametrize(("call", "figure"), SPREAD, ids=names(SPREAD))
def test_an_array_gives_what_its_numbers_give(call, figure):
    first, second = two_good_ones(call, figure)

    many = numbers_in(call.given(**{figure: np.array([first, second])}))

    for place, one in enumerate((first, second)):
        for row, alone in zip(many, numbers_in(call.given(**{figure: one})), strict=True):
            assert part_of(row, alone, place) == pytest.approx(alone, rel=1e-11, abs=1e-8)


@pytest.mark.parametrize("call", CALLS.values(), ids=list(CALLS))
def test_where_numbers_go_in_numbers_come_out_and_no_array_of_no_dimension(call):
    assert not [one for one in leaves(call.given()) if isinstance(one, np.ndarray) and one.ndim == 0]


@pytest.mark.parametrize("call", [call for call in CALLS.values() if call.broadcast], ids=lambda call: call.name)
def test_arrays_of_a_shape_give_arrays_of_that_shape(call):
    many = call.given(**{figure: np.full((2, 3), call.figure(figure)) for figure in call.broadcast})

    for row, alone in zip(numbers_in(many), numbers_in(call.given()), strict=True):
        if row.shape != alone.shape:
            assert row.shape in ((2, 3, *alone.shape), (*alone.shape, 2, 3))
    assert any(row.shape != alone.shape for row, alone in zip(numbers_in(many), numbers_in(call.given()), strict=True))


def size_power(name):
    """How often a length goes into a figure, by its name; None where it is of something else than geometry."""
    lengths = re.search(r"_m([23]?)$", name)
    if lengths:
        return int(lengths[1] or 1)
    return 0 if re.search(r"(_rad|_ratio|_count|taper)$|^(blades|stations)$", name) else None


GEOMETRY = [
    call
    for call in CALLS.values()
    if call.name not in OF_THEIR_OWN_SIZE
    and {size_power(figure) for figure in call.figures} & {1, 2, 3}
    and None not in {size_power(figure) for figure in call.figures}
    and len(numbers_in(call.given())) == 1
]


@pytest.mark.parametrize("call", GEOMETRY, ids=lambda call: call.name)
def test_of_everything_twice_as_large_lengths_double_and_areas_grow_fourfold(call):
    result = re.search(r"Returns\n-+\n(\w+) :", inspect.getdoc(call.formula))[1]
    twice = {figure: np.multiply(call.figure(figure), 2.0 ** size_power(figure)) for figure in call.figures}

    small, large = numbers_in(call.given())[0], numbers_in(call.given(**twice))[0]

    assert large == pytest.approx(small * 2.0 ** (size_power(result) or 0), rel=1e-9, abs=1e-12)


def test_most_of_the_bench_is_geometry():
    assert len(GEOMETRY) > 40


def two_good_ones(call: Call, figure: str) -> tuple[float, float]:
    """The call's own figure and another near it."""
    own = float(call.figure(figure))
    for other in (own * 1.001, own * 0.999) if not own.is_integer() or abs(own) > 10 else (own,):
        if takes(call, figure, other):
            return own, other
    return own, own


def part_of(row, alone, place):
    """What belongs to one of the two, wherever the formula puts the axis; what has no such axis stays as it is."""
    if row.shape == alone.shape:
        return row
    return row[place] if row.shape[1:] == alone.shape else row[..., place]


@pytest.mark.parametrize("call", CALLS.values(), ids=list(CALLS))
def test_it_says_of_every_array_its_shape_and_by_its_name_its_unit(call):
    said = inspect.getdoc(call.formula)
    arrays = re.findall(r"^(\w+) : array_like(.*)$", said, re.MULTILINE)

    assert [name for name, kind in arrays if "shape" not in kind] == []
    assert [name for name, _ in arrays if not has_unit(name)] == []


def has_unit(name):
    """A unit at its end, or the name of a pure number; readings may be of anything."""
    return UNITS.fullmatch(name) or UNITLESS.fullmatch(name) or name == "readings"


@pytest.mark.parametrize("call", [call for call in CALLS.values() if call.broadcast], ids=lambda call: call.name)
def test_it_says_what_comes_of_what_is_not_known(call):
    returns = inspect.getdoc(call.formula).partition("Returns\n---")[2].partition("Raises\n---")[0]

    assert re.search(r"NaN|not known", returns)


@pytest.mark.parametrize("call", CALLS.values(), ids=list(CALLS))
def test_where_a_range_ends_at_two_figures_its_validity_says_so(call):
    said = inspect.getdoc(call.formula)
    raises = said.partition("Raises\n---")[2].partition("Source\n---")[0]

    ends = re.search(r"outside [-\d.]+ to ", raises)
    assert not ends or "Validity\n---" in said
