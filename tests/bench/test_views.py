import re

import pytest
from sqlalchemy import func, select

from tests.factories.bench import make_diameter_sheet, make_pitch_sheet
from tests.factories.gear import make_propeller
from tests.factories.people import make_who
from tests.factories.vessels import make_drive, make_vessel
from yardapp.bench.models import Sheet
from yardapp.db import snapshot, transaction
from yardapp.gear import services as gear
from yardapp.gear.models import Evidence, Item

# reference/pitch_examples.csv M1 as it is typed: 33.3 ± 0.4 mm over 40 ± 0.2 degrees.
RISE = {
    "way": "rise",
    "rise_m": "33.3 mm",
    "plus_minus_rise_m": "0.4 mm",
    "swing_rad": "40",
    "plus_minus_swing_rad": "0.2",
    "rise_tool": "height gauge",
    "swing_tool": "degree ring",
    "radius_tool": "steel rule",
}
RADIUS = {"way": "radius", "tip_radius_m": "279.5", "tip_tool": "tape"}
BORE = {
    "way": "bore",
    "bore_kind": "taper",
    "bore_large_m": "1 1/4",
    "bore_small_m": "26.19",
    "bore_length_m": "3 1/2 in",
    "across_tool": "caliper",
    "along_tool": "steel rule",
}


@pytest.fixture
def tag(client):
    with transaction() as session:
        return make_propeller(session, diameter_m=(0.450, 0.0005), pitch_m=None, bore_large_m=None).tag


def sheets():
    with snapshot() as session:
        return session.scalars(select(Sheet).order_by(Sheet.id)).all()


def looked(client, address, **boxes):
    answer = client.post(address, data=boxes, headers={"HX-Request": "true"})
    assert answer.status_code == 200
    return " ".join(re.sub(r"<[^>]+>", " ", answer.text).split())


def test_measuring_pitch_keeps_what_was_typed_and_updates_the_working_figure(client, tag):
    answer = client.send(f"/bench/{tag}/pitch", **RISE)

    assert answer.status_code == 303
    (sheet,) = sheets()
    assert (sheet.readings["rise_m_typed"], sheet.readings["rise_m"]) == ("33.3 mm", pytest.approx(0.0333))
    assert sheet.readings["u_rise_m"] == pytest.approx(0.0002)
    assert sheet.readings["rise_m_tool"] == "height gauge"
    with snapshot() as session:
        # reference/pitch_examples.csv M1: 299.70 mm, u 1.95 mm.
        pitch_m, u_pitch_m = session.execute(select(Item.pitch_m, Item.u_pitch_m)).one()
        said = session.scalars(select(Evidence).where(Evidence.what == "pitch_m")).one()
    assert (pitch_m, u_pitch_m) == pytest.approx((0.29970, 0.00195), abs=5e-6)
    assert (said.basis, said.note, said.typed) == ("measured", "height gauge", "rise 33.3 mm, swing 40")


def test_the_live_pitch_has_its_plus_minus_in_both_systems(client, tag):
    text = looked(client, f"/bench/{tag}/pitch/preview", **RISE)

    # 299.7 ± 3.9 mm; over 25.4: 11.80 ± 0.15 in; over 450 mm: 0.666.
    assert "Pitch 299.7 ± 3.9 mm" in text
    assert "11.80 ± 0.15" in text
    assert "Pitch over diameter 0.6660" in text
    assert "yardapp.formulas.pitch.pitch_from_rise" in text


def test_a_rise_of_110_over_68_degrees_is_shown_as_582(client, tag):
    text = looked(client, f"/bench/{tag}/pitch/preview", **RISE | {"rise_m": "110", "swing_rad": "68"})

    # Common practice, no source: 110 x 360 / 68 is 582.35. Shares 0.4 / 110 and 0.2 / 68 together are 0.0047: 2.7 mm.
    assert "Pitch 582.4 ± 2.7 mm" in text


def test_the_live_answer_and_the_kept_sheet_say_the_same(client, tag):
    boxes = RISE | {"radius_m": "158", "blade": "2"}
    live = client.post(f"/bench/{tag}/pitch/preview", data=boxes, headers={"HX-Request": "true"}).text
    client.send(f"/bench/{tag}/pitch", **boxes)

    page = client.get("/bench/sheets/1").text

    assert " ".join(live.split("<output")[0].split()) in " ".join(page.split())


def test_a_look_needs_no_token_and_saves_nothing(client, tag):
    looked(client, f"/bench/{tag}/pitch/preview", **RISE)

    assert sheets() == []


def test_a_half_filled_sheet_says_what_is_still_to_read(client, tag):
    text = looked(client, f"/bench/{tag}/pitch/preview", way="rise", rise_tool="height gauge", rise_m="110")

    assert "Still to read: swing" in text


@pytest.mark.parametrize(
    ("boxes", "said"),
    [
        (RISE | {"swing_rad": "400"}, "`400` is too large for a swing"),
        (RISE | {"rise_m": "33..3"}, "`33..3` is not a rise"),
        (RISE | {"rise_m": "-33"}, "right-hand blade climbs anticlockwise"),
        (
            {"way": "edges", "leading_m": "10", "trailing_m": "43.3", "swing_rad": "40", "note": "33.3 mm"},
            "trailing edge stands higher",
        ),
    ],
)
def test_a_bad_reading_is_told_beside_its_box_and_saves_nothing(client, tag, boxes, said):
    looked_at = looked(client, f"/bench/{tag}/pitch/preview", **boxes)
    answer = client.send(f"/bench/{tag}/pitch", **boxes)

    box = next(name for name in ("swing_rad", "rise_m", "trailing_m") if f'id="{name}-said"' in answer.text)
    assert said in answer.text.split(f'id="{box}-said"')[1][:300]
    assert said in looked_at
    assert answer.status_code == 422
    for typed in ("33.3 mm", boxes["swing_rad"]):
        assert f'value="{typed}"' in answer.text or typed not in boxes.values()
    assert sheets() == []
    with snapshot() as session:
        assert session.scalar(select(func.count(Evidence.id)).where(Evidence.source == "sheet")) == 0


def test_an_empty_sheet_asks_for_what_it_needs(client, tag):
    answer = client.send(f"/bench/{tag}/pitch", way="rise")

    assert answer.status_code == 422
    assert "Read the rise off the height gauge." in answer.text
    assert "Read the swing off the ring." in answer.text


def test_a_retry_with_the_same_token_saves_once(client, tag):
    first = client.send(f"/bench/{tag}/pitch", once="one-and-only", **RISE)
    again = client.send(f"/bench/{tag}/pitch", once="one-and-only", **RISE)

    assert first.status_code == again.status_code == 303
    assert again.headers["Location"] == first.headers["Location"]
    assert len(sheets()) == 1


def test_a_tag_that_nothing_carries_is_not_found(client):
    assert client.send("/bench/P-9999/pitch", **RISE).status_code == 404
    assert client.get("/bench/P-9999").status_code == 404


def test_a_stamp_that_contradicts_the_reading_is_told_while_typing(client, tag):
    with transaction() as session:
        who, item = make_who(session), gear.item_by_tag(session, make_who(session), tag)
        gear.add_evidence(session, who, item, gear.Said(what="pitch_m", basis="stamped", value=0.3556))

    text = looked(client, f"/bench/{tag}/pitch/preview", **RISE)

    # 14 in is 355.6 mm; the reading is 299.7 ± 3.9.
    assert "Stamped: 355.6 mm (14 in), 55.9 mm more than read here; the readings allow 3.9" in text
    assert "Re-pitched since?" in text


def test_a_tip_radius_by_tape_is_a_diameter_within_two_millimetres(client, tag):
    live = looked(client, f"/bench/{tag}/diameter/preview", **RADIUS)
    answer = client.send(f"/bench/{tag}/diameter", **RADIUS)

    assert answer.status_code == 303
    assert "Diameter 559.0 ± 2.0 mm" in live
    with snapshot() as session:
        assert session.execute(select(Item.diameter_m, Item.u_diameter_m)).one() == pytest.approx((0.559, 0.001))


def test_straight_across_three_blades_is_refused_with_what_would_do(client, tag):
    answer = client.send(f"/bench/{tag}/diameter", way="across", across_m="500", blades="3", tip_tool="tape")

    assert answer.status_code == 422
    assert "Read a tip radius, or tip to tip." in answer.text.split('id="across_m-said"')[1][:300]


def test_five_blades_are_asked_which_tips(client, tag):
    asked = client.send(f"/bench/{tag}/diameter", way="tips", chord_m="475.5", blades="5", tip_tool="tape")
    told = looked(
        client, f"/bench/{tag}/diameter/preview", way="tips", chord_m="475.5", blades="5", tips="far", tip_tool="tape"
    )

    assert asked.status_code == 422
    assert "Which two tips?" in asked.text.split('id="tips-said"')[1][:200]
    # trade.md 4: on five blades the far tips are 0.951 D apart.
    assert "Diameter 500.0 ± 1.1 mm" in told


def test_a_bore_sheet_tells_its_taper_and_the_standard_that_it_is(client, tag):
    live = looked(client, f"/bench/{tag}/bore/preview", **BORE)
    answer = client.send(f"/bench/{tag}/bore", **BORE)

    assert answer.status_code == 303
    # SAE J755 1-1/4 in: 31.75 to 26.194 mm over 88.9 mm, 1:16.
    assert "Nearest standard taper: 1:16." in live
    assert "Standard shaft end: SAE J755 1-1/4 in." in live
    with snapshot() as session:
        item = session.scalars(select(Item)).one()
    assert (item.bore_kind, item.known["taper"]) == ("taper", "measured")
    assert item.taper == pytest.approx(1 / 16, abs=1e-4)


def test_swapped_ends_are_told_beside_the_small_end(client, tag):
    answer = client.send(f"/bench/{tag}/bore", **BORE | {"bore_small_m": "35"})

    assert answer.status_code == 422
    assert "Swap the two" in answer.text.split('id="bore_small_m-said"')[1][:200]


def test_an_empty_bore_sheet_says_that_one_box_will_do(client, tag):
    answer = client.send(f"/bench/{tag}/bore", way="bore", across_tool="caliper", along_tool="steel rule")

    assert answer.status_code == 422
    assert "One box will do." in answer.text


def test_a_correction_opens_as_it_was_typed_and_takes_the_old_ones_place(client, tag):
    client.send(f"/bench/{tag}/pitch", **RISE | {"blade": "2", "note": "by the window"})

    page = client.get("/bench/sheets/1/correct").text
    answer = client.send("/bench/sheets/1/correct", **RISE | {"rise_m": "34.3 mm", "why": "Misread the gauge"})

    for typed in ("33.3 mm", "0.4 mm", "40", "0.2", "2", "by the window"):
        assert f'value="{typed}"' in page
    assert answer.status_code == 303
    old, new = sheets()
    assert (new.replaces_id, new.why) == (old.id, "Misread the gauge")
    with snapshot() as session:
        # 34.3 x 360 / 40.
        assert session.scalars(select(Item.pitch_m)).one() == pytest.approx(0.3087)
    assert "This sheet was corrected." in client.get("/bench/sheets/1").text
    assert "Misread the gauge" in client.get("/bench/sheets/2").text


def test_a_correction_without_a_reason_is_refused_and_keeps_what_was_typed(client, tag):
    client.send(f"/bench/{tag}/pitch", **RISE)

    answer = client.send("/bench/sheets/1/correct", **RISE | {"rise_m": "34.3 mm"})

    assert answer.status_code == 422
    assert "Say why, in a few words" in answer.text
    assert 'value="34.3 mm"' in answer.text
    assert len(sheets()) == 1


def test_what_a_metric_hand_typed_is_not_read_as_inches_by_another(client, client_as, tag):
    client.send(f"/bench/{tag}/pitch", **RISE | {"rise_m": "33.3", "plus_minus_rise_m": "0.4"})
    finn = client_as("Finn Marsh", "hand")
    finn.send("/people/me/units", units="in")

    page = finn.get("/bench/sheets/1/correct").text

    assert 'value="33.3 mm"' in page
    assert 'value="0.4 mm"' in page


def test_a_sheet_that_was_never_typed_opens_for_correction_with_its_own_plus_minus(client, tag):
    with transaction() as session:
        make_pitch_sheet(session, tag)

    page = client.get("/bench/sheets/1/correct").text

    # reference/pitch_examples.csv M1, at k = 2.
    for typed in ("33.3 mm", "0.4 mm", "40 deg", "0.2 deg"):
        assert f'value="{typed}"' in page


def test_every_page_of_the_bench_holds_together_within_three_queries(client, fetch, tag):
    with transaction() as session:
        make_diameter_sheet(session, tag)
        make_pitch_sheet(session, tag)
    addresses = ["/bench", f"/bench/{tag}", "/bench/sheets/1", "/bench/sheets/2", "/bench/sheets/2/correct"]
    for way in ("rise", "edges", "angle"):
        addresses += [f"/bench/{tag}/pitch?way={way}", f"/bench/{tag}/pitch/blank?way={way}"]
    for way in ("radius", "across", "tips"):
        addresses += [f"/bench/{tag}/diameter?way={way}", f"/bench/{tag}/diameter/blank?way={way}"]
    for address in (*addresses, f"/bench/{tag}/bore", f"/bench/{tag}/bore/blank"):
        fetch(address)


def test_the_empty_bench_says_what_goes_here(fetch):
    assert "A sheet keeps what was read" in fetch("/bench")


def test_a_tag_typed_at_the_bench_opens_its_ways_of_measuring(client, fetch, tag):
    answer = client.get("/bench", query_string={"tag": tag.lower()})

    assert answer.headers["Location"] == f"/bench/{tag}"
    assert "Nothing here carries the tag P-77." in fetch("/bench?tag=P-77", status=404)


def test_the_mark_stands_at_seven_tenths_of_the_radius_already(client, tag):
    # 0.7 of half of 450 mm is 157.5 mm; a rule is read to the millimetre.
    assert 'value="158 mm"' in client.get(f"/bench/{tag}/pitch").text


def test_owners_read_the_sheets_of_their_boats_and_measure_nothing(client_as, fetch, tag):
    with transaction() as session:
        owner = make_who(session, name="R. Thorne", role="owner")
        drive = make_drive(session, make_vessel(session, owner_id=owner.person_id))
        make_pitch_sheet(session, tag)
    thorne = client_as("R. Thorne", "owner")
    hidden = thorne.get("/bench/sheets/1").status_code
    with transaction() as session:
        gear.move_item(session, make_who(session), tag, "went on", drive_id=drive.id)

    assert hidden == 404
    assert "Correct this sheet" not in fetch("/bench/sheets/1", by=thorne)
    assert "Measure</h2>" not in fetch(f"/bench/{tag}", by=thorne)
    for address in (f"/bench/{tag}/pitch", f"/bench/{tag}/pitch/blank", "/bench/sheets/1/correct"):
        assert thorne.get(address).status_code == 403
    assert thorne.send(f"/bench/{tag}/pitch", **RISE).status_code == 403
    assert thorne.post(f"/bench/{tag}/pitch/preview", data=RISE).status_code == 403


def test_the_sheet_can_be_worked_out_without_a_script(client, tag):
    answer = client.send(f"/bench/{tag}/pitch/preview", **RISE)

    assert "<h1>Pitch of" in answer.text
    assert "Pitch 299.7 ± 3.9 mm" in answer.text
    assert 'value="33.3 mm"' in answer.text
    assert sheets() == []
