import pytest

from tests.drawings.reading import Drawn
from yardapp.drawings.timeline import Bar, TimeRow, timeline

ROWS = [
    TimeRow(
        label="Blade 1", bars=[Bar(start_s=0, end_s=600, kind="coat"), Bar(start_s=1200, end_s=2400, kind="window")]
    ),
    TimeRow(label="Blade 2", bars=[Bar(start_s=600, end_s=1200, kind="coat")]),
]


def _long(drawn, name):
    across = [x for x, _ in drawn.corners(name)]
    return max(across) - min(across)


def test_spans_are_to_scale_with_each_other():
    drawn = Drawn(timeline(ROWS))

    assert _long(drawn, "Blade 1 window") / _long(drawn, "Blade 1 coat") == pytest.approx(2, abs=1e-2)
    assert _long(drawn, "Blade 2 coat") == pytest.approx(_long(drawn, "Blade 1 coat"), abs=0.02)


def test_now_stands_between_what_was_and_what_will_be():
    drawn = Drawn(timeline(ROWS, now_s=900, now_label="14:32"))

    now = drawn.corners("now")[0][0]
    assert max(x for x, _ in drawn.corners("Blade 1 coat")) < now < min(x for x, _ in drawn.corners("Blade 1 window"))
    assert "14:32" in drawn.text


def test_a_job_on_which_nothing_has_begun_still_has_its_rows():
    drawn = Drawn(timeline([TimeRow(label="Blade 1", bars=[])]))

    assert "Blade 1" in drawn.text
