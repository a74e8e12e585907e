"""Nuts, keys, anodes and the rest: tags, figures and pages of their own."""

import pytest

from tests.factories.people import make_who
from tests.factories.vessels import make_drive
from yardapp.db import snapshot, transaction
from yardapp.errors import Refused
from yardapp.gear import services as gear
from yardapp.gear.figures import KINDS, LETTERS, PARTS, figures_of


def test_every_kind_has_a_letter_of_its_own_and_a_few_figures():
    assert len(set(LETTERS.values())) == len(KINDS)
    assert all(1 <= len(figures_of(kind)) <= 7 for kind in PARTS)


@pytest.mark.parametrize("kind", PARTS)
def test_every_kind_of_part_is_logged_and_has_a_page(client, fetch, kind):
    fetch(f"/log/{kind}")

    answer = client.send(f"/log/{kind}", place="Rack P, bin 1", note="off the floor")

    address = answer.headers["Location"]
    assert address.endswith(f"/{LETTERS[kind]}-0001")
    html = fetch(address)
    assert KINDS[kind].label in html
    assert "not known" in html
    assert client.get(f"/t/{LETTERS[kind]}-0001").headers["Location"] == address
    assert f"{LETTERS[kind]}-0001" in fetch(f"/rack?kind={kind}")
    assert f"{LETTERS[kind]}-0001" in fetch("/rack?kind=parts")


def test_the_figures_that_matter_are_evidence_like_any_other(client, fetch):
    client.send("/log/nut", place="Bench", hand="right", thread_diameter_m="1 1/4 in", thread_pitch_m="1/8 in")
    client.send("/log/key", place="Bench", width_m="9.5 mm", height_m="8 mm", length_m="75 mm", key_kind="parallel")
    client.send("/log/anode", place="Bench", bore_m="35 mm", left_ratio="0.5", anode_metal="zinc")

    assert "typed “1 1/4 in”" in fetch("/items/N-0001/figures/thread_diameter_m")
    assert "9.50" in fetch("/keys/K-0001")
    html = fetch("/anodes/A-0001")
    assert "Zinc" in html
    assert "0.50" in html
    client.send("/items/A-0001/figures/left_ratio", number="0.3", basis="measured")
    assert "0.3" in fetch("/anodes/A-0001")


def test_a_part_is_found_by_its_kind_and_its_tag(register):
    with transaction() as session:
        who = make_who(session)
        gear.log_part(session, who, kind="anode", place="Rack P")
        gear.log_part(session, who, kind="gland", place="Rack P")

    with snapshot() as session:
        assert [row.tag for row in gear.search(session, make_who(session), "anode")] == ["A-0001"]
        assert [row.tag for row in gear.search(session, make_who(session), "G-0001")] == ["G-0001"]


def test_a_figure_of_another_kind_is_refused(register):
    with transaction() as session:
        who = make_who(session)
        nut = gear.log_part(session, who, kind="nut", place="Rack P")

        with pytest.raises(Refused, match="A nut has no figure called pitch_m"):
            gear.add_evidence(session, who, nut, gear.Said(what="pitch_m", basis="measured", value=0.4))


def test_a_kind_that_is_none_is_not_found(client):
    assert client.get("/log/banana").status_code == 404
    assert client.get("/nuts/P-0001").status_code == 404


def test_a_part_needs_a_place_or_something_that_it_lies_with(client):
    assert client.send("/log/nut").status_code == 422
    assert client.send("/log/nut", with_tag="P-0999").status_code in (404, 422)


def test_what_kind_is_asked_first(fetch):
    html = fetch("/log/part")

    assert all(f"/log/{kind}" in html for kind in PARTS)


def test_what_is_on_her_shaft_line_stands_on_the_boat_s_page(client, fetch):
    with transaction() as session:
        who, drive = make_who(session), make_drive(session)
        for kind in PARTS:
            item = gear.log_part(session, who, kind=kind, place="Bench")
            gear.move_item(session, who, item.tag, "went on", drive_id=drive.id)
        vessel_id = drive.vessel_id

    for address in (f"/boats/{vessel_id}", f"/drives/{drive.id}"):
        html = fetch(address)
        assert all(f"{LETTERS[kind]}-0001" in html for kind in PARTS)
