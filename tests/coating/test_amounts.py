from dataclasses import replace

import pytest

from tests.coating.systems import CLEAR, HOUR, MINUTE, PRIMER, two_primers_and_a_top
from yardapp.coating.amounts import left_over, needed, shares_by_volume, use_m3pm2
from yardapp.coating.pieces import Piece
from yardapp.coating.stock import Tin, draw, makes
from yardapp.coating.system import Film, Part, Product
from yardapp.errors import Refused

LITRE = 1e-3
BASE, HARDENER = PRIMER.parts
SOLID_71 = Product(name="Paint", parts=(Part(name="Paint"),), solids_ratio=0.71)


def test_a_film_of_125_um_at_71_per_cent_takes_the_litre_that_is_printed():
    # 71 % solids, 125 um: 5.68 m2 to the litre, wet 176 um (film arithmetic, confirmed example).
    use = use_m3pm2(SOLID_71, Film(dry_m=125e-6))

    assert 5.68 * use == pytest.approx(LITRE, rel=1e-3)
    assert use == pytest.approx(176e-6, rel=1e-3)


@pytest.mark.parametrize(
    ("film", "use"),
    [
        (Film(use_m3pm2=150e-6), 150e-6),
        (Film(coverage_m2pm3=8000), 125e-6),
        (Film(wet_m=100e-6), 100e-6),
        (Film(wet_m=100e-6, use_m3pm2=120e-6), 120e-6),
        (Film(), None),
    ],
)
def test_what_the_sheet_says_of_its_use_goes_before_what_follows_from_films(film, use):
    found = use_m3pm2(replace(SOLID_71, solids_ratio=None), film)

    assert found == (None if use is None else pytest.approx(use))


def test_two_coats_are_needed_twice_and_loss_on_top():
    primer, clear = needed(two_primers_and_a_top(), 0.5, loss_ratio=0.2)

    # 50 um at 50 % is 100 um wet: 0.5 m2 x 2 coats x 100 um / 0.8 = 125 ml, 4 parts to 1.
    assert primer.volume_m3 == pytest.approx(125e-6)
    assert [part.volume_m3 for part in primer.parts] == [pytest.approx(100e-6), pytest.approx(25e-6)]
    # 120 um at 75 % is 160 um wet: 0.5 x 160 um / 0.8 = 100 ml.
    assert clear.volume_m3 == pytest.approx(100e-6)


def test_kits_are_whole_and_what_is_left_would_cover_more():
    # A kit makes 500 ml; 2.4 m2 take 600 ml: two kits, 400 ml left, which cover 400 x 0.8 / 0.1 = 3.2 m2 once.
    primer, _ = needed(two_primers_and_a_top(), 2.4, loss_ratio=0.2)

    assert primer.kits == 2
    assert primer.left_m3 == pytest.approx(400e-6)
    assert primer.left_covers_m2 == pytest.approx(3.2)


def test_a_kit_that_is_just_enough_is_enough():
    primer, _ = needed(two_primers_and_a_top(), 2.0, loss_ratio=0.2)

    assert primer.kits == 1
    assert primer.left_m3 == pytest.approx(0, abs=1e-9)


def test_a_ratio_by_weight_becomes_volumes_through_the_densities():
    # 100 to 16 by weight, 1500 and 960 kg/m3: 100/1500 to 16/960 is 4 to 1 by volume.
    parts = (Part(name="Base", share=100, density_kgpm3=1500), Part(name="Hardener", share=16, density_kgpm3=960))

    assert shares_by_volume(Product(name="P", parts=parts, ratio_by="weight")) == pytest.approx(
        {"Base": 0.8, "Hardener": 0.2}
    )


def test_by_weight_without_a_density_nobody_can_tell_the_parts():
    parts = (Part(name="Base", share=100, kit_m3=1e-3), Part(name="Hardener", share=16, kit_m3=1e-3))
    system = two_primers_and_a_top()
    system = replace(system, products=(replace(PRIMER, parts=parts, ratio_by="weight"), system.products[1]))

    primer = needed(system, 0.5)[0]

    assert primer.volume_m3 == pytest.approx(125e-6)
    assert primer.parts[0].volume_m3 is None
    assert primer.kits is None
    assert "densities would tell" in primer.why[0]


def test_where_the_sheet_is_silent_nothing_is_made_up():
    system = two_primers_and_a_top()
    system = replace(system, products=(replace(PRIMER, solids_ratio=None), system.products[1]))

    primer = needed(system, 0.5)[0]

    assert primer.volume_m3 is None
    assert "gives neither film with solids" in primer.why[0]


@pytest.mark.parametrize(
    ("area_m2", "loss", "argument"), [(0, 0.2, "area_m2"), (1, 1, "loss_ratio"), (1, -0.1, "loss_ratio")]
)
def test_an_area_or_a_loss_that_cannot_be_is_refused(area_m2, loss, argument):
    with pytest.raises(Refused) as refusal:
        needed(two_primers_and_a_top(), area_m2, loss)

    assert refusal.value.argument == argument


SHAFT = Piece(key="s", label="Shaft", kind="shaft", area_m2=0.3)
CUTTER = Piece(key="c", label="Cutter", kind="cutter", area_m2=0.05)
SOUNDER = Piece(key="t", label="Sounder", kind="transducer", area_m2=0.01)


def rest(volume_m3, good_until_s, pieces=(SHAFT, CUTTER, SOUNDER)):
    """What is left of the primer at minute 0, at a pace of 0.1 m2 in 5 minutes."""
    return left_over(
        two_primers_and_a_top(),
        1,
        volume_m3,
        now_s=0.0,
        good_until_s=good_until_s,
        pace_m2ps=0.1 / (5 * MINUTE),
        pieces=pieces,
    )


def test_a_rest_covers_what_its_volume_and_its_time_both_allow():
    # 50 ml x 0.8 at 100 ml a m2: 0.4 m2. In 10 minutes 0.2 m2 go on.
    long, short = rest(50e-6, HOUR), rest(50e-6, 10 * MINUTE)

    assert (long.by_volume_m2, long.covers_m2) == (pytest.approx(0.4), pytest.approx(0.4))
    assert (short.by_time_m2, short.covers_m2) == (pytest.approx(0.2), pytest.approx(0.2))
    assert [piece.label for piece in long.pieces] == ["Shaft", "Cutter"]
    assert [piece.label for piece in short.pieces] == ["Cutter"]


def test_a_rest_past_its_pot_life_covers_nothing():
    assert rest(50e-6, -1.0).covers_m2 == 0
    assert rest(50e-6, -1.0).pieces == ()


def test_nothing_is_no_rest():
    with pytest.raises(Refused, match="How much is left"):
        rest(0.0, HOUR)


def tin(key, volume_m3, **said):
    return Tin(key=key, product="Primer", part="Base", volume_m3=volume_m3, **said)


STOCK = (
    tin("dated", 0.5e-3, expires_s=2000.0),
    tin("open", 0.1e-3, expires_s=3000.0, opened=True),
    tin("old", 0.5e-3, expires_s=900.0),
    tin("undated", 0.5e-3),
    tin("other", 0.5e-3, expires_s=5000.0),
)


def test_what_is_open_goes_first_then_what_expires_first_and_what_has_expired_never():
    found = draw(STOCK, PRIMER, BASE, 0.3e-3, at_s=1000.0)

    assert found.takes == (("open", 0.1e-3), ("dated", pytest.approx(0.2e-3)))
    assert (found.short_m3, found.expired) == (0.0, ("old",))


def test_what_the_stock_does_not_hold_is_short_and_a_tin_without_a_date_is_named():
    found = draw(STOCK, PRIMER, BASE, 2e-3, at_s=1000.0)

    assert found.short_m3 == pytest.approx(0.4e-3)
    assert found.undated == ("undated",)
    assert found.takes[-1][0] == "undated"


def test_a_batch_that_is_named_goes_first_even_past_its_date():
    stock = (*STOCK, tin("named", 0.2e-3, batch="B 7", expires_s=500.0))

    found = draw(stock, PRIMER, BASE, 0.3e-3, at_s=1000.0, batch="b 7 / H2")

    # Taken is taken: that it was past its date is told, not undone.
    assert found.takes == (("named", 0.2e-3), ("open", pytest.approx(0.1e-3)))
    assert set(found.expired) == {"old", "named"}


def test_the_part_that_runs_out_first_says_how_much_can_be_mixed():
    hardener = Tin(key="h", product="primer", part="hardener", volume_m3=0.1e-3, expires_s=5000.0)

    found = makes((*STOCK, hardener), PRIMER, at_s=1000.0)

    # Four parts of base to one: 0.1 l of hardener makes half a litre, of 1.6 l of good base.
    assert found.volume_m3 == pytest.approx(0.5e-3)
    assert (found.lacks, found.until_s) == ("Hardener", 2000.0)


def test_a_product_of_one_part_needs_no_name_for_it():
    clear = Tin(key="c", product="clear", part="", volume_m3=0.2e-3)

    assert draw((clear,), CLEAR, CLEAR.parts[0], 0.1e-3, at_s=0.0).takes == (("c", 0.1e-3),)


def test_another_part_is_no_help():
    assert draw(STOCK, PRIMER, HARDENER, 1e-3, at_s=0.0).short_m3 == 1e-3
