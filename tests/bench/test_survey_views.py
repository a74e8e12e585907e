import json
import re

import pytest
from sqlalchemy import select

from tests.factories.gear import make_propeller
from tests.factories.people import make_who
from yardapp.bench.models import HalfDone, Sheet
from yardapp.db import snapshot, transaction
from yardapp.gear import services as gear
from yardapp.gear.models import Item

RADII, ANGLES = (0.5, 0.7, 0.9), (0, 20, 40)
SETUP = {
    "way": "steps",
    "blades": "3",
    "hand": "right",
    "radii": "0.5 0,7 0.9R",
    "angles": "0 20 40",
    "counts": "anticlockwise",
    "unit": "mm",
    "diameter_m": "600",
    "design_pitch_m": "450",
    "wanted_class": "II",
    "height_tool": "height gauge",
    "angle_tool": "degree ring",
    "plus_minus_angle_rad": "0",
    "common_angle_rad": "0.02",
}


def heights(pitch_mm=450.0, blades=(1, 2, 3)):
    """Boxes of a helicoid: 20 mm and pitch x angle / 360."""
    return {
        f"h-{blade}-{radius:g}-{station}": f"{20 + pitch_mm * angle / 360:g}".replace(".", ",")
        for blade in blades
        for radius in RADII
        for station, angle in enumerate(ANGLES, 1)
    }


@pytest.fixture
def tag(client):
    with transaction() as session:
        item = make_propeller(session, diameter_m=(0.600, 0.0005), pitch_m=None, bore_large_m=None)
        gear.add_evidence(session, make_who(session), item, gear.Said(what="pitch_m", basis="stamped", value=0.4572))
        return item.tag


@pytest.fixture
def begun(client, tag):
    """The address of a survey that Ada Brook began."""
    return client.send(f"/bench/{tag}/survey", **SETUP).headers["Location"]


def write(client, address, seen, **boxes):
    return client.send(f"{address}/boxes", seen=str(seen), boxes=json.dumps(boxes))


def looked(client, address, **boxes):
    answer = client.post(f"{address}/look", data=SETUP | boxes, headers={"HX-Request": "true"})
    assert answer.status_code == 200
    return " ".join(re.sub(r"<[^>]+>", " ", answer.text).split())


def kept_sheet():
    with snapshot() as session:
        return session.scalars(select(Sheet).order_by(Sheet.id.desc())).first()


def test_a_begun_survey_has_a_cell_for_every_blade_radius_and_station(client, begun):
    page = client.get(begun).text

    assert len(re.findall(r'class="grid-box', page)) == 27
    assert 'aria-label="Blade 2, 0.7 R, station 3"' in page
    assert "By Ada Brook; begun just now" in page


def test_the_stamped_pitch_is_what_it_should_have_where_nobody_says_otherwise(client, tag):
    begun = client.send(f"/bench/{tag}/survey", **SETUP | {"design_pitch_m": ""}).headers["Location"]

    (box,) = re.findall(r'<input[^>]*name="design_pitch_m"[^>]*>', client.get(begun).text)
    assert 'value="457.2 mm"' in box


def test_the_live_survey_says_pitch_classes_and_shop_list(client, begun):
    high = heights() | {
        name: f"{20 + 480 * angle / 360:g}"
        for name, angle in zip([f"h-2-0.7-{station}" for station in (1, 2, 3)], ANGLES, strict=True)
    }
    text = looked(client, begun, **high)

    # Eight sections of 450 and one of 480: blade 2 has 460, the propeller 453.33.
    assert "Pitch survey 453.3" in text
    assert "Check blade 2, 0.7 R: 480 mm, the others 450 mm." in text
    assert "3.33 mm (0.7%) more than it should have" in text
    assert "ISO 484 begins at 0.80 m" in text
    # 30 mm of pitch over 40 degrees: 30 x 40 / 360 / 2 at each edge.
    assert "Blade 2, 0.7 R Leading edge 1.67 mm down, trailing edge 1.67 mm up" in text
    assert "Stamped: 457.2 mm (18 in)" in text


def test_a_look_saves_nothing(client, begun):
    written = write(client, begun, 0).get_json()["version"]

    looked(client, begun, **heights())

    with snapshot() as session:
        assert session.scalars(select(Sheet)).all() == []
        assert session.scalars(select(HalfDone)).one().version == written


def test_a_cell_that_can_not_be_read_is_told_by_its_name(client, begun):
    text = looked(client, begun, **heights() | {"h-1-0.5-2": "45..4"})

    assert "Blade 1, 0.5 R, station 2 : `45..4` is not a height" in text


def test_a_grid_that_is_hardly_begun_says_where_to_go_on(client, begun):
    text = looked(client, begun, **{"h-1-0.5-1": "20"})

    assert "26 cells are empty; next: blade 1, 0.5 r, station 2" in text


def test_cells_are_kept_one_by_one_and_others_hear_of_them(client, client_as, begun):
    finn = client_as("Finn Marsh", "hand")
    version = write(client, begun, 0).get_json()["version"]

    write(client, begun, version, **{"h-1-0.5-1": "20,0"})
    answer = write(finn, begun, version, **{"h-2-0.5-1": "20,4"}).get_json()

    assert answer["version"] == version + 2
    assert answer["boxes"] == {
        "h-1-0.5-1": {"typed": "20,0", "by": "Ada Brook"},
        "h-2-0.5-1": {"typed": "20,4", "by": "Finn Marsh"},
    }
    heard = client.get(f"{begun}/boxes?seen={version + 1}").get_json()
    assert list(heard["boxes"]) == ["h-2-0.5-1"]
    page = client.get(begun).text
    assert 'value="20,0"' in page
    assert "By Ada Brook, Finn Marsh" in page


@pytest.mark.parametrize("boxes", ["", "[1]", '{"a": 1}', "{"])
def test_boxes_that_are_none_are_refused(client, begun, boxes):
    assert client.send(f"{begun}/boxes", seen="0", boxes=boxes).status_code == 422


def test_boxes_from_another_site_are_refused(client, begun):
    answer = client.post(f"{begun}/boxes", data={"seen": "0", "boxes": "{}", "csrf_token": "forged"})

    assert answer.status_code == 422


def test_keeping_the_survey_makes_a_sheet_and_evidence(client, begun):
    answer = client.send(begun, seen="0", **SETUP, **heights())

    assert answer.status_code == 303
    sheet = kept_sheet()
    assert answer.headers["Location"] == f"/bench/surveys/{sheet.id}"
    assert (sheet.method, len(sheet.readings["cells"])) == ("survey", 27)
    assert sheet.readings["cells"][1]["height_m_typed"] == "45"
    assert sheet.readings["boxes"]["radii"] == "0.5 0,7 0.9R"
    with snapshot() as session:
        assert session.scalars(select(Item.pitch_m)).one() == pytest.approx(0.450)
        assert session.scalars(select(HalfDone.sheet_id)).one() == sheet.id


def test_a_retry_keeps_it_once(client, begun):
    first = client.send(begun, once="one-and-only", seen="0", **SETUP, **heights())
    again = client.send(begun, once="one-and-only", seen="0", **SETUP, **heights())

    assert first.headers["Location"] == again.headers["Location"]
    with snapshot() as session:
        assert len(session.scalars(select(Sheet)).all()) == 1


def test_what_another_wrote_meanwhile_goes_into_the_sheet_too(client, client_as, begun):
    seen = write(client, begun, 0).get_json()["version"]
    write(client_as("Finn Marsh", "hand"), begun, seen, **heights(blades=(3,)))

    client.send(begun, seen=str(seen), **SETUP, **heights(blades=(1, 2)), **dict.fromkeys(heights(blades=(3,)), ""))

    assert len(kept_sheet().readings["cells"]) == 27


def test_a_kept_survey_takes_no_more_cells(client, begun):
    client.send(begun, seen="0", **SETUP, **heights())

    answer = write(client, begun, 0, **{"h-1-0.5-1": "21"})

    assert (answer.status_code, "kept already" in answer.get_json()["said"]) == (409, True)
    assert "This survey was kept." in client.get(begun).text


@pytest.mark.parametrize(
    ("change", "said"),
    [
        ({"h-1-0.5-2": "45..4"}, "Blade 1, 0.5 R, station 2"),
        ({"blades": ""}, "Blades"),
        ({"radii": "0.5 1.4"}, "above 0, at most 1"),
        ({"angles": "0 20 10"}, "must go one way"),
        ({"h-3-0.9-3": "10"}, "its face falls where the others climb"),
    ],
)
def test_what_can_not_be_is_told_and_nothing_is_kept(client, begun, change, said):
    answer = client.send(begun, seen="99", **SETUP | heights() | change)

    assert answer.status_code == 422
    assert said in answer.text
    assert kept_sheet() is None


def test_laying_it_out_again_loses_nothing(client, begun):
    answer = client.send(begun, seen="0", act="layout", **SETUP | heights() | {"radii": "0.5 0.7"})
    narrow = client.get(answer.headers["Location"]).text
    client.send(begun, seen="99", act="layout", **SETUP | {"radii": "0.5 0.7 0.9"})
    wide = client.get(begun).text

    assert len(re.findall(r'class="grid-box', narrow)) == 18
    assert 'name="h-1-0.9-2" value="45"' in wide


def test_angles_of_their_own_are_read_and_a_missing_one_is_asked_for(client, tag):
    own = SETUP | {
        "way": "angles",
        "stations": "2",
        "radii": "0.7",
        "plus_minus_angle_rad": "0.02",
        "common_angle_rad": "",
    }
    begun = client.send(f"/bench/{tag}/survey", **own).headers["Location"]
    boxes = {}
    for blade in "123":
        boxes |= {f"h-{blade}-0.7-1": "20", f"a-{blade}-0.7-1": "5", f"h-{blade}-0.7-2": "70"}
    boxes |= {"a-1-0.7-2": "45", "a-2-0.7-2": "45"}

    text = looked(client, begun, **own | boxes)

    # 50 mm over 40 degrees: 450 mm.
    assert "Pitch survey 450.0" in text
    assert "Still to read: blade 3, 0.7 r, station 2, angle" in text
    assert client.send(begun, seen="0", **own | boxes).status_code == 422
    assert client.send(begun, seen="0", **own | boxes | {"a-3-0.7-2": "45"}).status_code == 303


def test_heights_in_inches_are_read_as_inches_by_everybody(client, client_as, tag):
    inches = SETUP | {"unit": "in", "design_pitch_m": "18", "diameter_m": "24"}
    begun = client.send(f"/bench/{tag}/survey", **inches).headers["Location"]
    boxes = {f"h-{blade}-{radius:g}-{station}": text for blade in (1, 2, 3) for radius in RADII
             for station, text in enumerate(("1", "2", "3"), 1)}  # fmt: skip

    text = looked(client_as("Finn Marsh", "hand"), begun, **inches | boxes)

    # 2 in over 40 degrees are 18 in a turn: 457.2 mm.
    assert "Pitch survey 457.2" in text
    assert "Nothing to move" in text


def test_a_dropped_survey_can_be_taken_up_again(client, tag, begun):
    client.send(f"{begun}/drop", act="drop")
    aside = client.get(begun).text
    client.send(f"{begun}/drop", act="take_up")

    assert "This survey was put aside." in aside
    assert "Ada Brook's, last written just now" in client.get(f"/bench/{tag}/survey").text.replace("&#39;", "'")


def test_a_correction_opens_as_it_was_typed_and_takes_the_old_ones_place(client, begun):
    client.send(begun, seen="0", note="by the window", **SETUP, **heights())
    old = kept_sheet()

    refused = client.send(f"/bench/surveys/{old.id}/correct", why="")
    opened = client.send(f"/bench/surveys/{old.id}/correct", why="Misread the ring").headers["Location"]
    page = client.get(opened).text
    answer = client.send(opened, seen="99", **SETUP, **heights(460.0))

    assert refused.status_code == 422
    for typed in ('value="45"', 'value="0.5 0,7 0.9R"', "by the window", "Misread the ring"):
        assert typed in page
    new = kept_sheet()
    assert answer.headers["Location"] == f"/bench/surveys/{new.id}"
    assert (new.replaces_id, new.why) == (old.id, "Misread the ring")
    with snapshot() as session:
        assert session.scalars(select(Item.pitch_m)).one() == pytest.approx(0.460)
    assert "This sheet was corrected." in client.get(f"/bench/surveys/{old.id}").text
    assert client.send(f"/bench/surveys/{old.id}/correct", why="Again").status_code == 422


def test_the_live_answer_and_the_kept_survey_say_the_same(client, begun):
    live = client.post(f"{begun}/look", data=SETUP | heights(), headers={"HX-Request": "true"}).text
    client.send(begun, seen="0", **SETUP, **heights())

    page = client.get(f"/bench/surveys/{kept_sheet().id}").text

    says = " ".join(live[live.index('<p class="lede">') : live.index("<output")].split())
    assert says in " ".join(page.split())


def test_every_page_of_a_survey_holds_together(client, fetch, tag, begun):
    fetch(f"/bench/{tag}/survey")
    fetch(f"/bench/{tag}/survey/blank?radii=0.3+0.4+0.5&angles=0+10+20")
    fetch(begun)
    client.send(begun, seen="0", **SETUP, **heights())
    sheet_id = kept_sheet().id
    fetch(f"/bench/surveys/{sheet_id}")
    fetch(f"/bench/surveys/{sheet_id}/correct")
    assert "Nothing to move" in fetch(f"/bench/surveys/{sheet_id}/shop")
    fetch(begun)
    assert client.get(f"/bench/sheets/{sheet_id}").headers["Location"] == f"/bench/surveys/{sheet_id}"
    assert "Pitch survey 450.0" in fetch(f"/bench/{tag}")


def test_the_survey_can_be_worked_out_without_a_script(client, begun):
    page = client.send(f"{begun}/look", **SETUP, **heights()).text

    assert "<h1>Pitch survey of" in page
    assert "Pitch survey 450.0" in page
    assert 'value="45"' in page


def test_a_blank_survey_has_room_for_every_reading(fetch, tag):
    page = fetch(f"/bench/{tag}/survey/blank?radii=0.5+0.7&angles=0+20+40&blades=4")

    assert page.count("<td></td>") == 4 * 2 * 3
    assert "Blade 4" in page


def test_owners_read_kept_surveys_of_their_own_and_write_none(client, client_as, begun, tag):
    client.send(begun, seen="0", **SETUP, **heights())
    thorne = client_as("R. Thorne", "owner")

    assert thorne.get(f"/bench/surveys/{kept_sheet().id}").status_code == 404
    for address in (begun, f"/bench/{tag}/survey", f"/bench/{tag}/survey/blank", f"{begun}/boxes"):
        assert thorne.get(address).status_code in (403, 404)
    assert write(thorne, begun, 0).status_code in (403, 404)
    assert thorne.send(f"{begun}/drop", act="drop").status_code in (403, 404)


def test_a_sheet_of_another_method_has_no_survey_page(client, tag):
    client.send(f"/bench/{tag}/diameter", way="radius", tip_radius_m="300", tip_tool="tape")

    assert client.get(f"/bench/surveys/{kept_sheet().id}").status_code == 404


def test_the_bench_lists_what_is_half_done_and_whose_it_is(client, client_as, fetch, begun, tag):
    page = fetch("/bench").replace("&#39;", "'")

    assert f'href="{begun}"' in page
    assert "Ada Brook's, last written just now" in page
    assert "Half done" not in client_as("R. Thorne", "owner").get("/bench").text


@pytest.mark.parametrize("change", [{"unit": "furlongs"}, {"way": "by eye"}, {"blades": "90"}, {"stations": "x"}])
def test_a_set_up_that_makes_no_sense_is_told_and_breaks_nothing(client, begun, change):
    assert client.post(f"{begun}/look", data=SETUP | heights() | change).status_code == 200
    assert client.send(begun, seen="99", **SETUP | heights() | change).status_code == 422
    assert kept_sheet() is None


def test_a_slip_of_the_clipboard_does_not_stop_the_sheet(client, begun):
    answer = write(client, begun, 0, **{"note": "x" * 5000, "h-1-0.5-1": "20"})

    assert answer.status_code == 200
    assert len(answer.get_json()["boxes"]["note"]["typed"]) == 300


@pytest.mark.parametrize("address", ["half-done/9", "half-done/9/boxes", "surveys/9", "half-done/99999999999999999999"])
def test_a_number_that_nothing_has_is_not_found(client, address):
    assert client.get(f"/bench/{address}").status_code == 404


def test_the_letter_to_the_shop_says_what_to_do_to_which_blade(client, fetch, begun):
    high = {f"h-2-0.7-{station}": f"{20 + 480 * angle / 360:g}" for station, angle in enumerate(ANGLES, 1)}
    client.send(begun, seen="0", **SETUP, **heights() | high)

    letter = fetch(f"/bench/surveys/{kept_sheet().id}/shop")

    assert "Blade 2, 0.7 R" in letter
    assert "Leading edge 1.67 mm down, trailing edge 1.67 mm up" in letter
    assert "450 mm (17.717 in)" in letter
    assert "Promised" in letter


def test_a_kept_survey_says_what_age_it_is_of_and_leads_to_a_comparison(client, fetch, tag):
    for pitch in (450.0, 452.0):
        address = client.send(f"/bench/{tag}/survey", **SETUP).headers["Location"]
        client.send(address, seen="0", **SETUP, **heights(pitch))
    second = kept_sheet().id
    with transaction() as session:
        gear.record_work(session, make_who(session), tag, "re-pitched")

    page = fetch(f"/bench/surveys/{second - 1}")

    assert "This survey is from before the re-pitch of" in page
    href = f"/bench/compare?first={second - 1}&amp;second={second}"
    assert f'href="{href}"' in page
    assert "2 mm" in fetch(href.replace("&amp;", "&"))
