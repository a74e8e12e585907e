"""Pairs in stock: for the two shafts of one boat."""

import numpy as np

from tests.factories.gear import make_propeller
from tests.factories.vessels import make_drive, make_vessel
from tests.fit.pairings import GOOD_PROPELLER, mm
from yardapp.db import transaction
from yardapp.fit.figures import Figure
from yardapp.fit.ranking.columns import LEFT, RIGHT, Columns
from yardapp.fit.ranking.mates import mates


def columns(*sizes):
    """(hand, diameter, pitch, bore) of each."""
    names = ("diameter_m", "pitch_m", "bore_large_m")
    values = {name: np.array([size[place + 1] for size in sizes], float) for place, name in enumerate(names)}
    hand, nothing = np.array([size[0] for size in sizes], np.int8), np.zeros(len(sizes), np.int8)
    return Columns(values=values, u=values, hand=hand, hand_stamped=nothing, bore_kind=nothing)


def tags(found):
    return [(one.right, one.left) for one in found]


def test_the_most_alike_come_first_and_each_propeller_stands_in_one_pair():
    stock = columns(
        (RIGHT, 0.560, 0.400, 0.038),
        (LEFT, 0.562, 0.404, 0.038),
        (LEFT, 0.560, 0.401, 0.038),
        (RIGHT, 0.5615, 0.404, 0.038),
        (LEFT, 0.700, 0.400, 0.038),
    )

    assert tags(mates(stock, np.full(5, 3.0))) == [(3, 1), (0, 2)]


def test_other_blades_or_the_same_hand_or_an_unknown_size_make_no_pair():
    stock = columns(
        (RIGHT, 0.560, 0.400, 0.038), (LEFT, 0.560, 0.400, 0.038), (RIGHT, 0.560, 0.400, 0.038), (LEFT, 0.56, np.nan, 0)
    )

    assert mates(stock, np.array([3.0, 4.0, 3.0, 3.0])) == []
    assert mates(stock, np.full(4, np.nan)) == []


def test_a_bore_that_nobody_measured_does_not_part_a_pair():
    stock = columns((RIGHT, 0.56, 0.4, np.nan), (LEFT, 0.56, 0.4, 0.038))

    assert tags(mates(stock, np.full(2, 3.0))) == [(0, 1)]


def bladed(session, hand, **said):
    return make_propeller(session, hand=hand, blades=(3.0, 0.0), **said)


def test_the_page_lists_pairs_and_opens_each_to_its_checks(fetch):
    with transaction() as session:
        right, left = (bladed(session, hand).tag for hand in ("right", "left"))
        bladed(session, "left", diameter_m=(0.800, 0.001))

    html = fetch("/fit/pairs")

    assert f"{right} and {left}" in html
    pair = fetch(f"/fit/pairs/{right}/{left}")
    assert "One is right hand, the other left." in pair
    assert "Both have 3 blades." in pair


def test_two_of_one_hand_are_no_pair(fetch):
    with transaction() as session:
        one, other = (bladed(session, "right").tag for _ in range(2))

    assert "No pair" in fetch(f"/fit/pairs/{one}/{other}")
    assert "opposite hands" in fetch("/fit/pairs")


def test_for_a_drive_only_bores_near_its_shaft_are_paired(fetch, client):
    with transaction() as session:
        drive = make_drive(session, make_vessel(session), position="port").id
        near = [bladed(session, hand).tag for hand in ("right", "left")]
        far = [bladed(session, hand, bore_large_m=(0.060, 0.001)).tag for hand in ("right", "left")]

    html = fetch(f"/fit/pairs?drive={drive}")

    assert near[0] in html
    assert far[0] not in html
    assert far[0] in fetch("/fit/pairs")
    assert client.get("/fit/pairs?drive=99").status_code == 404


def test_pairs_are_narrowed_by_place(fetch):
    with transaction() as session:
        for hand in ("right", "left"):
            bladed(session, hand, place="Shed")

    assert "P-0001 and P-0002" in fetch("/fit/pairs?place=shed")
    assert "P-0001 and" not in fetch("/fit/pairs?place=rack")


def test_the_good_propeller_of_the_pairings_is_the_pair_of_itself_in_the_other_hand():
    from dataclasses import replace

    from yardapp.fit.verdict import judge_pair

    sized = replace(GOOD_PROPELLER, pitch_m=mm(400, 0.5), area_ratio=Figure(value=0.5, u=0.005))

    assert judge_pair(sized, replace(sized, hand="left")).verdict == "goes on"
