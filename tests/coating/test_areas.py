import math

import numpy as np
import pytest

from yardapp.coating.areas import (
    PropellerSize,
    bracket_area_of,
    cutter_area_of,
    disc_area_of,
    propeller_area_of,
    shaft_area_of,
)
from yardapp.errors import OutsideRange, Refused

# Blade width c Z / (D AE/A0) of the B-series at 0.2 R to 0.9 R for four blades and more; at the tip zero.
# Oosterveld and van Oossanen 1975, Table 2.
B_SERIES = (1.662, 1.882, 2.050, 2.152, 2.187, 2.144, 1.970, 1.582)


def b_series(diameter_m, blades, area_ratio):
    """Radii and widths of a B-series outline."""
    radii_m = [diameter_m / 2 * share / 10 for share in range(2, 11)]
    widths_m = [one * diameter_m * area_ratio / blades for one in B_SERIES] + [0.0]
    return tuple(radii_m), tuple(widths_m)


@pytest.mark.parametrize(("diameter_m", "blades", "area_ratio"), [(0.56, 4, 0.55), (1.2, 4, 0.40), (0.4, 5, 0.75)])
def test_widths_of_the_b_series_give_the_area_that_its_name_says(diameter_m, blades, area_ratio):
    radii_m, widths_m = b_series(diameter_m, blades, area_ratio)
    hub_m = 0.167 * diameter_m  # the series' own hub
    measured = propeller_area_of(
        PropellerSize(
            diameter_m=diameter_m,
            blades=blades,
            radii_m=radii_m,
            widths_m=widths_m,
            hub_diameter_m=hub_m,
            hub_length_m=hub_m,
        )
    )

    named_m2 = 2 * area_ratio * math.pi / 4 * diameter_m**2
    # The table is rounded and the tip is read between two stations.
    assert measured.blades_m2 == pytest.approx(named_m2, rel=0.03)


def test_flat_plates_on_a_cylinder_are_their_own_area():
    # Three plates, 100 mm wide, from the hub's 40 mm radius to 200 mm; hub 80 mm wide and 100 mm long.
    size = PropellerSize(
        blades=3,
        radii_m=(0.05, 0.10, 0.15, 0.20),
        widths_m=(0.1, 0.1, 0.1, 0.1),
        hub_diameter_m=0.08,
        hub_length_m=0.10,
    )
    found = propeller_area_of(size)

    assert found.blades_m2 == pytest.approx(2 * 3 * 0.1 * 0.16)
    assert found.hub_m2 == pytest.approx(math.pi * 0.08 * 0.10)
    assert found.area_m2 == pytest.approx(found.blades_m2 + found.hub_m2)
    assert found.needs == ()


def test_a_ratio_stands_where_nobody_measured_widths():
    found = propeller_area_of(
        PropellerSize(diameter_m=0.5, blades=3, area_ratio=0.5, hub_length_m=0.1, hub_diameter_m=0.08)
    )

    assert found.blades_m2 == pytest.approx(2 * 0.5 * math.pi / 4 * 0.25)
    assert "blade area ratio" in found.rests_on


def test_what_the_roots_cover_is_taken_off_the_hub():
    plain = PropellerSize(diameter_m=0.5, blades=3, area_ratio=0.5, hub_length_m=0.1, hub_diameter_m=0.08)
    rooted = PropellerSize(
        diameter_m=0.5,
        blades=3,
        area_ratio=0.5,
        hub_length_m=0.1,
        hub_diameter_m=0.08,
        root_width_m=0.06,
        root_thickness_m=0.015,
    )

    off_m2 = propeller_area_of(plain).hub_m2 - propeller_area_of(rooted).hub_m2
    assert off_m2 == pytest.approx(3 * math.pi / 4 * 0.06 * 0.015)


def test_a_propeller_whose_blades_nobody_measured_names_what_is_missing():
    found = propeller_area_of(PropellerSize(diameter_m=0.5, blades=3))

    assert found.area_m2 is None
    assert found.needs == ("blade area ratio, or widths across one blade", "hub length", "hub diameter")


def test_a_shaft_is_coated_but_for_its_bearings():
    assert shaft_area_of(2.0, 0.05, 0.5) == pytest.approx(math.pi * 0.05 * 1.5)
    with pytest.raises(Refused, match="nothing is left to coat"):
        shaft_area_of(0.5, 0.05, 0.5)


def test_small_pieces_are_simple_bodies():
    assert cutter_area_of(0.2, 0.1) == pytest.approx(2 * math.pi / 4 * (0.2**2 - 0.1**2))
    assert disc_area_of(0.05, 2) == pytest.approx(2 * math.pi / 4 * 0.05**2)
    assert bracket_area_of(0.15, 0.08, 0.30, 0.10) == pytest.approx(math.pi * 0.08 * 0.15 + 0.06)


def test_a_size_that_cannot_be_is_refused():
    with pytest.raises(OutsideRange):
        propeller_area_of(
            PropellerSize(diameter_m=0.5, blades=3, area_ratio=0.5, hub_length_m=-0.1, hub_diameter_m=0.08)
        )
    with pytest.raises(OutsideRange):
        shaft_area_of(1.0, np.inf)
