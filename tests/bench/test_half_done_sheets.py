import json
import re

import pytest
from sqlalchemy import select

from tests.factories.bench import make_diameter_sheet
from tests.factories.gear import make_propeller
from tests.factories.people import make_who
from yardapp.bench import forms
from yardapp.bench.models import HalfDone, Sheet
from yardapp.db import snapshot, transaction
from yardapp.gear import services as gear

# 280 mm from the centre to a tip is 560 mm across.
RADIUS = {"way": "radius", "tip_radius_m": "280", "tip_radius_tool": "tape", "unit": "mm"}


@pytest.fixture
def tag(client):
    with transaction() as session:
        return make_propeller(session, diameter_m=None, pitch_m=None, blades=(4, 0.0)).tag


@pytest.fixture
def shaft(client):
    with transaction() as session:
        return gear.log_item(session, make_who(session), kind="shaft", place="Rack S").tag


@pytest.fixture
def begun(client, tag):
    return client.send(f"/bench/{tag}/diameter/half-done?way=radius", **RADIUS).headers["Location"]


def sheets():
    with snapshot() as session:
        return session.scalars(select(Sheet).order_by(Sheet.id)).all()


def write(client, address, **boxes):
    return client.send(f"{address}/boxes", seen="0", boxes=json.dumps(boxes))


@pytest.mark.parametrize("method", list(forms.WAYS))
def test_a_sheet_of_every_method_can_be_kept_half_done_and_opened_again(client, fetch, tag, shaft, method):
    of = shaft if method in ("wear", "run_out", "shaft_end", "bearing") else tag
    way = next(iter(forms.WAYS[method]))
    answer = client.send(f"/bench/{of}/{method}/half-done?way={way}", way=way, note="went to lunch")

    page = fetch(answer.headers["Location"])

    assert "By Ada Brook; begun just now" in page
    assert 'value="went to lunch"' in page
    assert "went to lunch" not in fetch(f"/bench/{of}/{method.replace('_', '-')}?way={way}")
    assert sheets() == []


def test_what_was_typed_stands_there_as_it_was_typed_even_if_it_can_not_be_read(client, begun):
    write(client, begun, tip_radius_m="28o", note="a smudge")

    page = client.get(begun).text

    assert 'value="28o"' in page
    refused = client.send(begun, **RADIUS | {"tip_radius_m": "28o"})
    assert refused.status_code == 422
    assert 'href="#tip_radius_m"' in refused.text
    assert "28o" in refused.text.partition('id="tip_radius_m-said">')[2].partition("</p>")[0]


def test_the_list_of_a_propeller_and_the_bench_say_whose_it_is(client, fetch, tag, begun):
    for address in (f"/bench/{tag}", "/bench"):
        page = fetch(address).replace("&#39;", "'")
        assert "Diameter, half done" in page
        assert "Ada Brook's, last written just now" in page
        assert f'href="{begun}"' in page


def test_an_owner_is_not_told_of_half_done_sheets(client, client_as, fetch, tag, begun):
    assert client_as("R. Thorne", "owner").get(begun).status_code == 403


def test_keeping_it_makes_the_sheet_and_it_is_half_done_no_more(client, tag, begun):
    answer = client.send(begun, seen="99", **RADIUS)

    kept = sheets()[0]
    assert answer.headers["Location"] == f"/bench/sheets/{kept.id}"
    assert kept.results["diameter_m"] == pytest.approx(0.560)
    assert kept.readings["tip_radius_m_typed"] == "280"
    assert "Diameter, half done" not in client.get(f"/bench/{tag}").text
    assert f'href="/bench/sheets/{kept.id}"' in client.get(begun).text
    with snapshot() as session:
        assert session.scalars(select(HalfDone.sheet_id)).one() == kept.id


def test_what_a_second_person_wrote_meanwhile_is_kept_with_it(client, client_as, begun):
    seen = re.search(r'name="seen" value="(\d+)"', client.get(begun).text)[1]
    write(client_as("Finn Marsh", "hand"), begun, note="tip 2 is bent")

    client.send(begun, seen=seen, **RADIUS | {"note": ""})

    # Ada left the note as she had seen it: empty. Finn's stays.
    assert "By Ada Brook, Finn Marsh" in client.get(begun).text
    assert sheets()[0].note == "tip 2 is bent"


def test_a_box_that_can_not_stand_is_told_and_nothing_is_lost(client, begun):
    answer = client.send(begun, seen="99", **RADIUS | {"tip_radius_m": "", "note": "later"})

    assert answer.status_code == 422
    assert sheets() == []
    assert 'value="later"' in answer.text


def test_without_a_script_it_is_kept_half_done_by_its_own_act(client, begun):
    answer = client.send(begun, seen="99", act="half", **RADIUS | {"tip_radius_m": "281"})

    assert answer.headers["Location"] == begun
    assert 'value="281"' in client.get(begun).text
    assert sheets() == []


def test_a_retry_begins_one_sheet_and_keeps_one(client, tag):
    address = f"/bench/{tag}/diameter/half-done?way=radius"
    first, again = (client.send(address, once="one", **RADIUS).headers["Location"] for _ in range(2))
    kept = [client.send(first, once="two", seen="99", **RADIUS).headers["Location"] for _ in range(2)]

    assert first == again
    assert kept[0] == kept[1]
    assert len(sheets()) == 1


def test_a_bare_figure_means_the_same_whoever_opens_the_sheet(client, client_as, begun):
    inch = client_as("Finn Marsh", "hand")
    inch.send("/people/me/units", units="in")
    page = inch.get(begun).text

    inch.send(begun, seen="99", **RADIUS)

    assert "A bare figure on this sheet is read in millimetres, as it was begun." in page
    assert sheets()[0].results["diameter_m"] == pytest.approx(0.560)


def test_a_correction_is_kept_half_done_too_and_takes_the_old_sheets_place(client, fetch, tag):
    with transaction() as session:
        old = make_diameter_sheet(session, tag).id
    why = {"why": "wrong tip"}
    at = client.send(f"/bench/sheets/{old}/correct/half-done", **RADIUS, **why).headers["Location"]

    page = fetch(at)
    answer = client.send(at, seen="99", **RADIUS | {"tip_radius_m": "285"}, **why)

    assert "Correct the diameter of" in page
    assert 'value="wrong tip"' in page
    new = sheets()[-1]
    assert (new.replaces_id, new.why) == (old, "wrong tip")
    assert answer.headers["Location"] == f"/bench/sheets/{new.id}"


def test_a_half_done_sheet_put_aside_is_listed_no_more_and_can_be_taken_up(client, tag, begun):
    client.send(f"{begun}/drop", act="drop")
    aside = client.get(begun).text
    listed = client.get(f"/bench/{tag}").text
    client.send(f"{begun}/drop", act="take_up")

    assert "This sheet was put aside." in aside
    assert "half done" not in listed
    assert "half done" in client.get(f"/bench/{tag}").text


def test_a_sheet_from_another_site_is_not_begun(client, tag):
    answer = client.post(f"/bench/{tag}/diameter/half-done", data=RADIUS | {"csrf_token": "forged"})

    assert answer.status_code == 422
    with snapshot() as session:
        assert session.scalars(select(HalfDone)).all() == []
