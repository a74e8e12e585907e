import re

import pytest

from tests.drawings.reading import Drawn
from yardapp.drawings.bore_on_taper import LONG, bore_on_taper
from yardapp.formulas.taper import contact_gap

SHAFT_12 = (0.030, 1 / 12, 0.100)
HUB_16 = (0.030, 1 / 16, 0.100)


def _times_across(drawn):
    return int(re.search(r"across ×(\d+)", drawn.text).group(1))


def test_lengthwise_the_hub_and_the_shaft_are_at_one_scale():
    drawn = Drawn(bore_on_taper(0.030, 1 / 12, 0.080, 0.030, 1 / 12, 0.100))

    shaft = [x for x, _ in drawn.corners("shaft")]
    hub = [x for x, _ in drawn.corners("hub upper")]
    assert (max(shaft) - min(shaft)) / (max(hub) - min(hub)) == pytest.approx(0.8, abs=1e-3)


def test_the_gap_at_the_small_end_is_drawn_as_often_larger_as_the_sheet_says():
    # 1:12 and 1:16 part by 2.08 mm on diameter in 100 mm: 100/12 - 100/16.
    drawn = Drawn(bore_on_taper(*SHAFT_12, *HUB_16))

    corners = drawn.corners("gap upper")
    far = max(x for x, _ in corners)
    bore_y, shaft_y = sorted(y for x, y in corners if x == far)
    assert (shaft_y - bore_y) / (LONG / 100) / _times_across(drawn) == pytest.approx(2.083 / 2, abs=0.02)


def test_a_slower_hub_is_marked_where_it_bears_at_the_large_end():
    drawn = Drawn(bore_on_taper(*SHAFT_12, *HUB_16, gap_label="2.1 mm"))

    shaft_left = min(x for x, _ in drawn.corners("shaft"))
    assert [float(mark.get("cx")) for mark in drawn.named("touch")] == pytest.approx([shaft_left] * 2, abs=0.02)
    assert "Bears at: large end." in drawn.text
    assert "2.1 mm" in drawn.title


def test_a_faster_hub_is_marked_where_it_bears_at_the_small_end():
    drawn = Drawn(bore_on_taper(0.030, 1 / 16, 0.120, 0.030, 1 / 12, 0.080))

    hub_right = max(x for x, _ in drawn.corners("hub upper"))
    assert [float(mark.get("cx")) for mark in drawn.named("touch")] == pytest.approx([hub_right] * 2, abs=0.02)


def test_a_hub_that_seats_bears_on_its_whole_length():
    drawn = Drawn(bore_on_taper(0.030, 1 / 12, 0.100, 0.030, 1 / 12, 0.090))

    assert "Bears at: whole length." in drawn.text
    assert "whole length" in drawn.title


def test_set_up_and_overhang_are_to_scale_along_the_shaft():
    # 0.2 mm on a 1:16 bore moves the hub 3.2 mm up; a hub of 100 mm on a taper of 90 mm then hangs 6.8 mm past it.
    drawn = Drawn(
        bore_on_taper(
            0.0300, 1 / 16, 0.090, 0.0302, 1 / 16, 0.100, set_up_label="up 3.2 mm", overhang_label="6.8 mm past"
        )
    )

    per_mm = LONG / 100
    assert drawn.long("set-up") / per_mm == pytest.approx(3.2, abs=0.02)
    assert drawn.long("overhang") / per_mm == pytest.approx(6.8, abs=0.02)


def test_a_contact_worked_out_by_the_caller_is_the_one_that_is_drawn():
    contact = contact_gap(0.0302, 1 / 16, 0.0300, 1 / 16, 0.100)
    ours = bore_on_taper(0.0300, 1 / 16, 0.100, 0.0302, 1 / 16, 0.100)

    assert bore_on_taper(0.0300, 1 / 16, 0.100, 0.0302, 1 / 16, 0.100, contact=contact) == ours


def test_a_hub_that_slides_past_the_taper_is_refused_in_words_and_not_drawn():
    drawn = Drawn(bore_on_taper(0.030, 1 / 16, 0.080, 0.050, 1 / 16, 0.080))

    assert not drawn.named("hub upper")
    assert drawn.named("shaft")
    assert "must be small enough to stop on the taper" in drawn.text


def test_a_bore_that_was_never_measured_leaves_the_shaft_alone_on_the_sheet():
    drawn = Drawn(bore_on_taper(0.030, 1 / 16, 0.080, 0.030, None, 0.080))

    assert not drawn.named("hub upper")
    assert "Hub bore not known." in drawn.text
