from dataclasses import replace

import pytest

from tests.coating.systems import MINUTE, two_primers_and_a_top
from yardapp.coating.pieces import NEVER, Piece, allowed, units_of

SYSTEM = two_primers_and_a_top()


def piece(kind, **said):
    return Piece(**{"key": "x", "label": kind.capitalize(), "kind": kind, "area_m2": 0.1} | said)


@pytest.mark.parametrize("kind", ["anode", "bearing face", "bore", "taper", "thread", "keyway"])
def test_what_works_bare_is_never_coated(kind):
    judged = allowed(piece(kind), SYSTEM)

    assert judged.verdict == "no"
    assert judged.why.startswith(NEVER[kind])


def test_a_transducer_waits_for_who_said_so_and_when():
    assert allowed(piece("transducer"), SYSTEM).verdict == "waits"
    assert allowed(piece("transducer", allowed_by="the maker's letter"), SYSTEM).verdict == "waits"
    said = piece("transducer", allowed_by="the maker's letter", allowed_on="2026-03-01")
    assert allowed(said, SYSTEM).verdict == "yes"


def test_what_the_sheet_keeps_it_off_stays_bare():
    judged = allowed(piece("cutter"), replace(SYSTEM, not_on=("cutter",)))

    assert (judged.verdict, judged.why) == ("no", "The sheet of Test system keeps it off: cutter.")


def test_foul_release_warns_whoever_comes_next():
    under = allowed(piece("shaft", last_foul_release=True), replace(SYSTEM, foul_release=False))
    over = allowed(piece("shaft"), SYSTEM)

    assert "later paint will not hold" in under.cautions[0]
    assert "tell the next person" in over.cautions[0]


def test_each_blade_has_a_clock_of_its_own_and_other_pieces_take_time_by_their_area():
    propeller = piece("propeller", key="p", area_m2=0.6, blades=3)
    shaft = piece("shaft", key="s", area_m2=0.3)
    cutter = piece("cutter", key="c", work_s=120.0)

    units = units_of([propeller, shaft, cutter], 8 * MINUTE)

    assert [unit.label for unit in units] == ["Blade 1", "Blade 2", "Blade 3", "Shaft", "Cutter"]
    assert [unit.key for unit in units] == ["p.1", "p.2", "p.3", "s", "c"]
    # A blade is 0.2 m2 in 8 minutes; a shaft of 0.3 m2 takes 12.
    assert [unit.work_s / MINUTE for unit in units] == [8, 8, 8, pytest.approx(12), 2]
    assert sum(unit.area_m2 for unit in units[:3]) == pytest.approx(0.6)


def test_blades_of_two_propellers_are_told_apart():
    units = units_of([piece("propeller", key=key, label=key, blades=2) for key in ("Port", "Starboard")], MINUTE)

    assert [unit.label for unit in units] == [
        "Port, blade 1",
        "Port, blade 2",
        "Starboard, blade 1",
        "Starboard, blade 2",
    ]


def test_without_a_propeller_a_piece_takes_as_long_as_was_said():
    assert units_of([piece("shaft")], 5 * MINUTE)[0].work_s == 5 * MINUTE
