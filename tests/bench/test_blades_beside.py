import re
from datetime import UTC, datetime
from math import hypot

import pytest

from tests.factories.gear import make_propeller
from tests.factories.people import make_who
from yardapp.bench import services as bench
from yardapp.bench.services import Filled, PitchReading
from yardapp.db import Clock, transaction
from yardapp.gear import services as gear

# Of 600 mm, 0.6 R is 180 mm. By angle, pitch is 2 pi r tan(angle); a rise over half a turn is half a pitch.
HALF_TURN = 3.14159265358979
MARK = 0.180


@pytest.fixture
def tag(register):
    with transaction() as session:
        return make_propeller(session, diameter_m=(0.600, 0.0005), pitch_m=None, blades=(4, 0.0)).tag


def reading(blade, pitch_mm, radius_m=MARK, common=(), u_swing_rad=0.0):
    return PitchReading(
        blade=blade,
        radius_m=radius_m,
        u_radius_m=0.0005,
        rise_m=pitch_mm / 2000,
        u_rise_m=0.0005,
        swing_rad=HALF_TURN,
        u_swing_rad=u_swing_rad,
        common=common,
    )


def measured(session, tag, *pitches_mm, **said):
    who = make_who(session)
    return [
        bench.measure_pitch(session, who, tag, reading(blade, pitch, **said))
        for blade, pitch in enumerate(pitches_mm, 1)
        if pitch
    ]


def looked(session, tag, blade, pitch_mm, **said):
    corrects = said.pop("corrects", None)
    return bench.look(session, make_who(session), tag, bench.PITCH, reading(blade, pitch_mm, **said), corrects).outcome


def test_one_blade_far_off_the_others_is_named_with_its_figure_and_theirs(tag):
    with transaction() as session:
        measured(session, tag, 287, 312, 289)
        outcome = looked(session, tag, 4, 291)

    # The three figures in inches: 312 / 25.4, 287 / 25.4 and 291 / 25.4, to the thousandth.
    others = "the others 287 mm (11.299 in) to 291 mm (11.457 in)"
    assert outcome.remarks[0] == f"Check blade 2, 0.6 R: 312 mm (12.283 in), {others}."


def test_the_blade_in_hand_is_named_when_it_is_the_one(tag):
    with transaction() as session:
        measured(session, tag, 287, None, 289, 291)
        sheet = bench.measure_pitch(session, make_who(session), tag, reading(2, 346))

    assert sheet.results["remarks"][0].startswith("Check blade 2, 0.6 R: 346 mm")


def test_blades_as_they_should_be_give_their_mean_and_no_warning(tag):
    with transaction() as session:
        measured(session, tag, 287, 290, 289)
        outcome = looked(session, tag, 4, 294)

    # (287 + 290 + 289 + 294) / 4
    assert outcome.sum_of("blades_pitch_m").value == pytest.approx(0.290)
    # Each rise is read by itself: 2 x 0.5 mm of pitch each, over the root of four blades.
    assert outcome.sum_of("blades_pitch_m").u == pytest.approx(0.0005)
    assert not any(remark.startswith("Check") for remark in outcome.remarks)


def test_what_one_template_gets_wrong_on_every_blade_does_not_average_out(tag):
    common = {"common": ("swing_rad",), "u_swing_rad": 0.01}
    with transaction() as session:
        measured(session, tag, 290, 290, 290, **common)
        outcome = looked(session, tag, 4, 290, **common)
        separate = looked(session, tag, 4, 290, u_swing_rad=0.01)

    # 0.01 rad of half a turn is 290 x 0.01 / pi = 0.923 mm on every blade; the rises' 1 mm each is halved by four.
    assert outcome.sum_of("blades_pitch_m").u * 1000 == pytest.approx(hypot(0.9231, 0.5), rel=1e-3)
    # The fourth blade's swing by a tool of its own shares nothing: (0.923 of three)/4, its own 0.923/4, rises 0.5.
    by_hand = hypot(0.9231 * 3 / 4, 0.9231 / 4, 0.5)
    assert separate.sum_of("blades_pitch_m").u * 1000 == pytest.approx(by_hand, rel=1e-3)


def test_another_radius_another_blade_unsaid_and_a_corrected_sheet_do_not_count(tag):
    with transaction() as session:
        who = make_who(session)
        measured(session, tag, 400, radius_m=0.250)
        bench.measure_pitch(session, who, tag, reading(None, 400))
        wrong, right, _ = measured(session, tag, 400, 289, 290)
        about = Filled(corrects=wrong.id, why="misread")
        bench.measure_pitch(session, who, tag, reading(1, 288), about)
        outcome = looked(session, tag, 2, 292, corrects=right.id)

    rows = [(one["blade"], round(one["pitch_m"] * 1000)) for one in outcome.more["beside"]["blades"]]
    assert rows == [(1, 288), (2, 292), (3, 290)]


def test_the_newest_sheet_of_a_blade_stands_for_it(tag):
    with transaction() as session:
        measured(session, tag, 350, 289)
        measured(session, tag, 288)
        outcome = looked(session, tag, 3, 290)

    assert outcome.sum_of("blades_pitch_m").value == pytest.approx((288 + 289 + 290) / 3000)


def test_blades_from_before_a_re_pitch_are_of_another_age(tag, monkeypatch):
    with transaction() as session:
        measured(session, tag, 400, 400)
        moment = datetime(2030, 1, 2, tzinfo=UTC)
        monkeypatch.setattr(Clock, "tells", staticmethod(lambda: moment))
        gear.record_work(session, make_who(session), tag, "re-pitched")
        outcome = looked(session, tag, 3, 290)

    assert outcome.sum_of("blades_pitch_m") is None


def test_the_page_shows_the_blades_and_warns_above_all_else(fetch):
    with transaction() as session:
        tag = make_propeller(session, diameter_m=(0.600, 0.0005), pitch_m=None, blades=(4, 0.0)).tag
        *_, last = measured(session, tag, 287, 345, 289, 291)
        number = last.id

    page = fetch(f"/bench/sheets/{number}")

    assert "Check blade 2, 0.6 R: 345 mm" in page
    assert "The blades at 180" in page
    assert re.search(rf"<td[^>]*>{number - 1}</td>", page)


def test_a_sheet_keeps_which_of_its_tools_err_alike_on_every_blade(client):
    with transaction() as session:
        tag = make_propeller(session, diameter_m=(0.600, 0.0005), pitch_m=None).tag
    boxes = {"way": "rise", "blade": "1", "radius_m": "180", "rise_m": "33.3", "swing_rad": "40"}
    tools = {"rise_tool": "height gauge", "swing_tool": "swing template", "radius_tool": "tape"}

    answer = client.send(f"/bench/{tag}/pitch", **boxes, **tools)

    assert answer.status_code == 303
    with transaction() as session:
        kept = bench.sheets_of(session, make_who(session), tag).sheets[0].sheet
    # 33.3 mm over 40 degrees is 299.7 mm (pitch_examples.csv M1); half a degree (k = 2) of 40 is 1/160 of it.
    assert kept.readings["common"] == ["swing_rad"]
    said = client.get(answer.headers["Location"]).text.replace("&#39;", "'")
    assert "Of it, ± 3.7 mm is the swing template's: the same on every blade" in said
    assert kept.results["more"]["u_same_m"] == pytest.approx(0.2997 / 160, rel=1e-4)


def test_a_kept_sheet_leads_to_the_next_blade_at_the_same_mark(client, fetch):
    with transaction() as session:
        tag = make_propeller(session, diameter_m=(0.600, 0.0005), pitch_m=None, blades=(3, 0.0)).tag
        third = measured(session, tag, None, None, 289)[0].id

    href = re.search(r'href="([^"]+)"[^>]*>Read blade 1<', fetch(f"/bench/sheets/{third}"))[1]
    page = fetch(href.replace("&amp;", "&"))

    assert re.search(r'name="blade"[^>]*value="1"|value="1"[^>]*name="blade"', page)
    assert 'value="180 mm"' in page
