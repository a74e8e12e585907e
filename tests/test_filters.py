"""What a page writes with filters alone."""

from datetime import UTC, date, datetime, timedelta

import pytest
from flask import Flask

from yardapp import filters

INCH = 0.0254  # 1959 international yard agreement
NOON = datetime(2026, 10, 14, 12, 0, tzinfo=UTC)


@pytest.fixture
def write():
    app = Flask(__name__)
    filters.register(app)

    def write(template: str, **names: object) -> str:
        return app.jinja_env.from_string(template).render(**names)

    return write


@pytest.fixture
def shed_time(monkeypatch):
    """A yard two hours east of UTC."""
    import time

    monkeypatch.setenv("TZ", "Etc/GMT-2")
    time.tzset()
    yield
    monkeypatch.undo()
    time.tzset()


@pytest.mark.parametrize(
    ("template", "written"),
    [
        ("{{ 0.5969 | length }}", "596.9 mm"),
        ("{{ 0.5969 | length('in') }}", "23 1/2 in"),
        ("{{ 0.559 | length(u=0.0117) }}", "559 ± 23 mm"),
        ("{{ 0.0625 | taper }}", "1:16"),
        ("{{ 28000 | power }}", "28 kW"),
        ("{{ 10 | rotation }}", "600 rpm"),
        ("{{ 10 | speed }}", "19.4 kn"),
        ("{{ 0.559 | plus_minus(0.0117, 'length') }}", "559 ± 23 mm"),
        ("{{ 0.5969 | both('length') }}", "596.9 mm (23 1/2 in)"),
        ("{{ 0.5969 | figure('diameter_m', 'in') }}", "23 1/2 in"),
        ("{{ 0.559 | figure('pitch_m', 'mm', 0.0117) }}", "559 ± 23 mm"),
        ("{{ 0.5969 | figure_both('diameter_m') }}", "596.9 mm (23 1/2 in)"),
        ("{{ 0.597 | exactly('diameter_m') }}", "597 mm"),
        ("{{ 4 | figure('blade_count') }}", "4"),
        ("{{ none | figure('bore_m') }}", "not known"),
        ("{{ 'right' | hand }}, {{ none | hand }}", "right hand, hand not known"),
        ("{{ [1, 2, 3] | length }}", "3"),
    ],
)
def test_a_filter_writes_the_figure_and_its_unit(write, template, written):
    assert write(template) == written


def test_a_page_in_inches_needs_to_say_so_once(write):
    assert write("{{ 0.5969 | length }} by {{ 0.4572 | figure('pitch_m') }}", system="in") == "23 1/2 in by 18 in"


@pytest.mark.parametrize(
    ("name", "kind"),
    [
        ("diameter_m", "length"),
        ("swing_rad", "angle"),
        ("taper", "taper"),
        ("bore_taper", "taper"),
        ("power_w", "power"),
        ("shaft_speed_rps", "rotation"),
        ("speed_mps", "speed"),
        ("blade_area_ratio", "number"),
        ("blade_count", "count"),
        ("density_kgpm3", "density"),
        ("air_c", "temperature"),
        ("torque_nm", "torque"),
        ("thrust_n", "force"),
        ("u_bore_m", "length"),
    ],
)
def test_a_figure_is_told_by_the_end_of_its_name(name, kind):
    assert filters.kind_of(name) == kind


def test_a_name_without_a_unit_is_a_slip_that_is_told():
    with pytest.raises(KeyError, match="bore ends in no unit"):
        filters.kind_of("bore")


@pytest.mark.usefixtures("shed_time")
def test_days_and_clocks_are_the_yards_own():
    late = datetime(2026, 10, 14, 22, 32, tzinfo=UTC)

    assert (filters.day(late), filters.clock(late)) == ("15 Oct 2026", "00:32")
    assert filters.clock(late.replace(tzinfo=None)) == "00:32"
    assert filters.day(date(2026, 10, 4)) == "4 Oct 2026"


@pytest.mark.parametrize(
    ("earlier", "said"),
    [
        (timedelta(seconds=40), "just now"),
        (timedelta(minutes=1), "1 minute ago"),
        (timedelta(minutes=59), "59 minutes ago"),
        (timedelta(hours=3, minutes=50), "3 hours ago"),
        (timedelta(days=1), "1 day ago"),
        (timedelta(days=13), "13 days ago"),
        (timedelta(days=14), "30 Sep 2026"),
        (timedelta(minutes=-20), "in 20 minutes"),
    ],
)
@pytest.mark.usefixtures("shed_time")
def test_ago_is_said_as_people_say_it(earlier, said):
    assert filters.ago(NOON - earlier, now=NOON) == said


def test_what_never_happened_is_not_known():
    assert (filters.ago(None), filters.day(None), filters.clock(None)) == ("not known",) * 3
