"""Whatever the figures, the judgement answers; and what is not known never passes."""

from dataclasses import fields, replace

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from tests.fit.pairings import GOOD_DRIVE, GOOD_PROPELLER, HUB_1_10, HUB_1_12, OK, PAIRINGS, PILOT, mm, one_in
from tests.fit.power_pairings import POWER_PAIRINGS
from yardapp.fit.figures import DriveFigures, Figure, PropellerFigures
from yardapp.fit.loading import HULL_KINDS
from yardapp.fit.verdict import BADNESS, EVERYTHING, RULES, judge, shaft_alloys

# They can only speak against a pass, and what stands in their place is said: taking one away is no unknown.
WITNESSES = {"contradictions", "hand_stamped", "kind", "safety_factor"}
PROPELLER_FIELDS = [field.name for field in fields(PropellerFigures) if field.name not in WITNESSES]
DRIVE_FIELDS = [field.name for field in fields(DriveFigures) if field.name not in WITNESSES]
EITHER = [("propeller", name) for name in PROPELLER_FIELDS] + [("drive", name) for name in DRIVE_FIELDS]

positive = st.floats(min_value=0, exclude_min=True, allow_nan=False, allow_infinity=False)
any_u = st.none() | st.floats(min_value=0, allow_nan=False, allow_infinity=False)
any_figure = st.none() | st.builds(
    Figure, value=positive, u=any_u, basis=st.sampled_from(["measured", "stamped", "guessed", None])
)
hands = st.sampled_from(["right", "left", "RH", "", "?", None])
OTHER_FIGURES = ("taper", "area_ratio", "mass_kg", "measured_age_s")
FIGURES_OF_HUB = [name for name in PROPELLER_FIELDS if name.endswith("_m") or name in OTHER_FIGURES]
WORDS_OF_DRIVE = {
    "hull_kind": st.sampled_from([None, "lugger", *HULL_KINDS]),
    "planing_kind": st.sampled_from([None, "average", "barge"]),
    "behind": st.sampled_from([None, "streamlined", "struts", "a barn door"]),
    "shaft_alloy": st.sampled_from([None, "string", *shaft_alloys()[:2]]),
    "speed_power": st.sampled_from(
        [(), ((2.0, 4e3), (3.0, 15e3), (4.0, 50e3)), ((3.0, 1e3), (2.0, 5e3)), ((1.0, 0.0),)]
    ),
    "engine_curve": st.sampled_from([(), ((10.0, 5e3), (50.0, 28e3)), ((50.0, 28e3), (10.0, 5e3)), ((1.0, 0.0),)]),
    "speed_power_kind": st.sampled_from([None, "shaft", "effective", "guess"]),
}
FIGURES_OF_DRIVE = [name for name in DRIVE_FIELDS if name not in ("hand", "is_twin", *WORDS_OF_DRIVE)]

any_propeller = st.builds(
    PropellerFigures,
    hand=hands,
    hand_stamped=hands,
    blades=st.none() | st.integers(min_value=-1, max_value=12),
    bore_kind=st.sampled_from(["taper", "parallel", "pilot", "spline", None]),
    kind=st.sampled_from([None, "fixed", "folding"]),
    material=st.sampled_from([None, "stainless steel", "cast iron", "aluminium bronze"]),
    open_faults=st.sampled_from([None, (), ("a nick",)]),
    coating=st.sampled_from([None, "bare"]),
    contradictions=st.sampled_from([(), ("taper",), ("hand", "diameter_m")]),
    **dict.fromkeys(FIGURES_OF_HUB, any_figure),
)
any_drive = st.builds(
    DriveFigures,
    hand=hands,
    is_twin=st.none() | st.booleans(),
    **WORDS_OF_DRIVE,
    **dict.fromkeys(FIGURES_OF_DRIVE, any_figure),
)


@settings(max_examples=300, deadline=None)
@given(propeller=any_propeller, drive=any_drive, rule=st.sampled_from(RULES), ask=st.sampled_from([None, EVERYTHING]))
def test_it_answers_whatever_finite_figures_it_is_given(propeller, drive, rule, ask):
    verdict = judge(propeller, drive, rule=rule, ask=ask)

    assert verdict.verdict in BADNESS
    assert verdict.lede


@pytest.mark.parametrize("wrong", [float("nan"), float("inf"), -0.05, 0.0])
@pytest.mark.parametrize("name", FIGURES_OF_HUB)
def test_a_figure_that_cannot_be_right_never_helps_a_propeller_on(name, wrong):
    verdict = judge(replace(GOOD_PROPELLER, **{name: Figure(value=wrong, u=0.0001)}), GOOD_DRIVE)

    without = judge(replace(GOOD_PROPELLER, **{name: None}), GOOD_DRIVE)
    assert BADNESS.index(verdict.verdict) >= min(BADNESS.index(without.verdict), BADNESS.index("goes on after work"))


# In this one two readings speak against each other: take one away, and what is left is a reading, not an unknown.
CONTRADICTED = {"taper on record 1:16, ends of the bore say 1:12"}
NOT_GOING = [
    pairing for pairing in [*PAIRINGS, *POWER_PAIRINGS] if pairing.verdict != OK and pairing.given not in CONTRADICTED
]


@pytest.mark.parametrize("pairing", NOT_GOING, ids=lambda pairing: pairing.given)
def test_taking_a_figure_away_never_makes_a_pair_go_on(pairing):
    for owner, name in EITHER:
        pair = {"propeller": pairing.propeller, "drive": pairing.drive}
        if getattr(pair[owner], name) is not None:
            pair[owner] = replace(pair[owner], **{name: None})

            assert judge(**pair, rule=pairing.rule, ask=pairing.ask).verdict != OK, name


sizes = st.floats(min_value=-3.0, max_value=3.0)


@st.composite
def _likely_pairs(draw):
    """Pairs near a fit, their readings consistent with each other."""
    hub = draw(st.sampled_from([{}, HUB_1_12, HUB_1_10, PILOT | {"bore_large_m": mm(25)}]))
    propeller = replace(GOOD_PROPELLER, **hub)
    large = propeller.bore_large_m.value * 1000 + draw(sizes)
    u = draw(st.sampled_from([0.01, 0.05, 0.3]))
    small = None if propeller.taper is None else mm(large - 114.3 * propeller.taper.value, u)
    propeller = replace(
        propeller,
        bore_large_m=mm(large, u),
        bore_small_m=small,
        hub_length_m=mm(114.3 + 5 * draw(sizes), 0.2),
        diameter_m=mm(560 + 20 * draw(sizes), 1),
        hub_diameter_m=mm(66 + 5 * draw(sizes), 0.5),
        keyway_width_m=mm(9.5 + draw(sizes) / 3, 0.03),
    )
    drive = replace(
        GOOD_DRIVE, taper=one_in(draw(st.sampled_from([10, 12, 16]))), hub_space_m=mm(22 + 5 * draw(sizes), 0.5)
    )
    return propeller, drive


@settings(max_examples=200, deadline=None)
@given(pair=_likely_pairs(), gone=st.sampled_from(EITHER), rule=st.sampled_from(RULES))
def test_an_unknown_never_passes_near_a_fit_either(pair, gone, rule):
    before = judge(*pair, rule=rule)
    assume(before.verdict != OK)
    owner, name = gone
    propeller, drive = pair
    if owner == "propeller":
        propeller = replace(propeller, **{name: None})
    else:
        drive = replace(drive, **{name: None})

    assert judge(propeller, drive, rule=rule).verdict != OK


@settings(max_examples=50, deadline=None)
@given(pair=_likely_pairs())
def test_the_same_pair_gets_the_same_verdict(pair):
    assert judge(*pair) == judge(*pair)


@settings(max_examples=100, deadline=None)
@given(pair=_likely_pairs(), wider=st.floats(min_value=1.0, max_value=20.0))
def test_a_coarser_gauge_never_makes_a_pair_go_on(pair, wider):
    propeller, drive = pair
    coarse = replace(propeller.bore_large_m, u=propeller.bore_large_m.u * wider)
    assume(judge(propeller, drive).verdict != OK)

    assert judge(replace(propeller, bore_large_m=coarse), drive).verdict != OK
