"""The judge in columns against the judge himself: check by check, on the hand-worked pairings and on made ones."""

import random
from dataclasses import fields, replace

import numpy as np
import pytest

from tests.fit.pairings import GOOD_DRIVE, GOOD_PROPELLER, PAIRINGS
from tests.fit.power_pairings import BOAT, SUITED
from yardapp.fit.figures import Figure
from yardapp.fit.loading import loading, premises
from yardapp.fit.ranking.case import BITS
from yardapp.fit.ranking.columns import drive_columns, propeller_columns
from yardapp.fit.ranking.loads import Wheel, load_ratios
from yardapp.fit.ranking.prejudge import NAMES, prejudge
from yardapp.fit.verdict import BADNESS, RULES, judge

HUBS = [one.propeller for one in PAIRINGS]
SHAFTS = [one.drive for one in PAIRINGS]
BASES = ("measured", "measured", "paper", "stamped", "guessed")


def said_by_judge(propeller, drive, rule):
    """Each check of the judge by name, and the works that those checks ask for."""
    checks = [check for check in judge(propeller, drive, rule=rule).checks if check.name in NAMES]
    works = {check.work for check in checks if check.verdict in ("goes on after work", "does not go on")}
    return {check.name: check.verdict for check in checks}, works - {None}


def said_in_columns(found, row):
    named = {name: BADNESS[code[row]] for name, code in found.checks.items() if code[row] >= 0}
    return named, {work for work, bit in BITS.items() if found.works[row] & bit}


def differences(pairs, rule="15 %"):
    """Where the two disagree: the pair's number, what the judge said, what the columns say."""
    hubs, shafts = zip(*pairs, strict=True)
    found = prejudge(propeller_columns(hubs), drive_columns(shafts), rule=rule)
    both = [(said_by_judge(*pair, rule), said_in_columns(found, row)) for row, pair in enumerate(pairs)]
    return [(row, ours, columns) for row, (ours, columns) in enumerate(both) if ours != columns]


def shaken(side, chance, rng):
    """The same side with some figures shifted, coarse, guessed, without a ±, or not known."""
    changed = {}
    for one in fields(side):
        figure = getattr(side, one.name)
        if not isinstance(figure, Figure) or rng.random() > chance:
            continue
        value = figure.value * rng.choice([1, 1, 0.998, 1.002, 1.02, 0.9, 1.3, 0.0])
        u = rng.choice([figure.u, None, (figure.u or 0) * 10, 0.0, figure.value / 50])
        changed[one.name] = rng.choice([None, Figure(value=value, u=u, basis=rng.choice(BASES))])
    odd = ("diameter_m", "bore_large_m", "taper", "keyway_width_m", "shaft_diameter_m")
    doubted = tuple(name for name in odd if hasattr(side, name) and rng.random() < chance / 6)
    return replace(side, contradictions=doubted, **changed)


def worded(hub, rng):
    """The same hub, its words shaken too."""
    return replace(
        hub,
        hand=rng.choice(["right", "right", "right", "left", None]),
        hand_stamped=rng.choice(["right", None, None, "left"]),
        bore_kind=rng.choice(["taper", "taper", "taper", "pilot", "parallel", None]),
    )


@pytest.mark.parametrize("rule", RULES)
def test_every_hand_worked_pairing_is_judged_alike(rule):
    assert differences(list(zip(HUBS, SHAFTS, strict=True)), rule) == []


def test_hubs_and_shafts_crossed_are_judged_alike():
    rng = random.Random(16)
    pairs = [(rng.choice(HUBS), rng.choice(SHAFTS)) for _ in range(300)]

    assert differences(pairs) == []


@pytest.mark.parametrize("seed", range(4))
def test_made_pairings_with_gaps_guesses_and_coarse_readings_are_judged_alike(seed):
    rng = random.Random(seed)
    pairs = []
    for _ in range(150):
        hub = shaken(rng.choice([GOOD_PROPELLER, *HUBS]), rng.choice([0.05, 0.2, 0.5]), rng)
        pairs.append((worded(hub, rng), shaken(rng.choice([GOOD_DRIVE, *SHAFTS]), rng.choice([0.05, 0.2, 0.5]), rng)))

    assert differences(pairs, rng.choice(RULES)) == []


def test_it_is_never_better_than_the_whole_verdict():
    rng = random.Random(3)
    pairs = [(worded(shaken(rng.choice(HUBS), 0.2, rng), rng), rng.choice(SHAFTS)) for _ in range(150)]
    hubs, shafts = zip(*pairs, strict=True)

    found = prejudge(propeller_columns(hubs), drive_columns(shafts)).verdict

    for code, pair in zip(found, pairs, strict=True):
        assert code <= BADNESS.index(judge(*pair).verdict)


@pytest.mark.parametrize("many", ["propellers", "drives"])
def test_one_row_on_a_side_is_put_before_every_row_of_the_other(many):
    hubs = HUBS if many == "propellers" else HUBS[:1]
    shafts = SHAFTS if many == "drives" else SHAFTS[:1]

    found = prejudge(propeller_columns(hubs), drive_columns(shafts))

    pairs = [(hub, shaft) for hub in hubs for shaft in shafts]
    assert [BADNESS[code] for code in found.verdict] == [
        max(said_by_judge(*pair, "15 %")[0].values(), key=BADNESS.index) for pair in pairs
    ]


def test_nothing_to_rank_is_an_empty_answer():
    found = prejudge(propeller_columns([]), drive_columns([GOOD_DRIVE]))

    assert (found.verdict.tolist(), found.works.tolist()) == ([], [])


def test_how_many_checks_can_not_be_told_is_counted():
    bare = replace(GOOD_PROPELLER, diameter_m=None, hub_length_m=None)

    found = prejudge(propeller_columns([GOOD_PROPELLER, bare]), drive_columns([GOOD_DRIVE]))

    # Without its diameter the room, and without its length the hub, can't be told.
    assert found.gaps.tolist() == [0, 2]


def test_there_is_no_other_rule():
    with pytest.raises(ValueError, match="rule"):
        prejudge(propeller_columns(HUBS), drive_columns(SHAFTS), rule="7 %")


def test_a_part_of_the_columns_keeps_its_rows():
    columns = propeller_columns(HUBS)

    part = columns.part(np.array([3, 1]))

    assert part.count == 2
    assert part.values["diameter_m"].tolist() == columns.values["diameter_m"][[3, 1]].tolist()


def stock_of(*sizes):
    """(diameter, pitch, blades, area) of each: columns and wheels."""
    hubs = [
        replace(SUITED, diameter_m=Figure(value=one[0]), pitch_m=None if one[1] is None else Figure(value=one[1]))
        for one in sizes
    ]
    columns = propeller_columns(hubs)
    pitch = np.array([np.nan if one[1] is None else one[1] for one in sizes])
    columns = replace(columns, values={**columns.values, "pitch_m": pitch}, u={**columns.u, "pitch_m": pitch * 0})
    return columns, [Wheel(one[2], one[3]) for one in sizes]


def test_a_list_meets_engine_and_hull_where_the_judge_does():
    sizes = [(0.42, 0.25, 3, None), (0.46, 0.30, 4, None), (0.40, 0.32, 3, 0.70)]
    columns, wheels = stock_of(*sizes)

    ratios = load_ratios(premises(BOAT), columns, wheels.__getitem__, [2, 0])

    assert np.isnan(ratios[1])
    for row in (0, 2):
        diameter_m, pitch_m, blades, area = sizes[row]
        figures = {"diameter_m": Figure(value=diameter_m), "pitch_m": Figure(value=pitch_m), "blades": blades}
        measured = None if area is None else Figure(value=area, u=0.01)
        told = loading(replace(SUITED, **figures, area_ratio=measured), BOAT)
        assert ratios[row] == pytest.approx(told.free_speed_rps.value / told.rated_speed_rps, rel=1e-6)


def test_without_a_pitch_or_blades_or_with_folding_ones_no_load_is_told():
    columns, wheels = stock_of((0.42, None, 3, None), (0.42, 0.3, None, None), (0.42, 0.3, 3, None))
    wheels[2] = wheels[2]._replace(kind="folding")

    assert np.isnan(load_ratios(premises(BOAT), columns, wheels.__getitem__, [0, 1, 2])).all()
