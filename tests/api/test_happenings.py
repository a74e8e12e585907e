import pytest

from tests.factories import vessels as boats
from yardapp import db


@pytest.fixture
def tag(ada) -> str:
    return ada.post("/propellers", {"place": "shed", "diameter": "22 in", "pitch": "18 in"}).get_json()["tag"]


def test_one_more_statement_moves_the_working_figure(ada, tag):
    body = {"diameter": "560 mm", "plus_minus": {"diameter": "1 mm"}, "note": "bar caliper"}

    answer = ada.post(f"/propellers/{tag}/evidence", body)
    said = answer.get_json()

    assert answer.status_code == 201
    assert answer.headers["Location"] == f"/api/v1/propellers/{tag}"
    assert said["figures"]["diameter_m"]["value"] == 0.56
    assert [one["note"] for one in said["evidence"] if one["value"] == 0.56] == ["bar caliper"]


def test_to_say_nothing_is_refused(ada, tag, must_refuse):
    assert must_refuse(ada.post(f"/propellers/{tag}/evidence", {}), 422) == {
        "": "Nothing was said. Send at least one figure."
    }


def test_a_shaft_takes_evidence_at_its_own_address(ada, tag, must_refuse):
    ada.post("/shafts", {"place": "shed"})

    said = ada.post("/shafts/S-0001/evidence", {"length_m": 2.0, "material": "stainless steel"}).get_json()

    assert said["figures"]["length_m"]["value"] == 2.0
    must_refuse(ada.post(f"/shafts/{tag}/evidence", {"length_m": 2.0}), 404)


def test_a_propeller_goes_on_a_boat_and_comes_off_again(ada, tag):
    with db.transaction() as session:
        drive_id = boats.make_drive(session).id

    on = ada.post(f"/items/{tag}/moves", {"kind": "went on", "drive_id": drive_id, "at": "2020-05-01T09:00:00Z"})
    off = ada.post(f"/items/{tag}/moves", {"kind": "came off", "place": "Rack A"})

    assert on.status_code == 201
    assert on.headers["Location"] == f"/api/v1/items/{tag}"
    assert (on.get_json()["aboard"], on.get_json()["place"]) == ("Kittiwake, centre", "")
    assert (off.get_json()["aboard"], off.get_json()["came_off"]) == ("", "Kittiwake, centre")
    assert ada.get(f"/items/{tag}").get_json() == off.get_json()


def test_a_move_that_can_not_be_is_told_by_name(ada, tag, must_refuse, subtests):
    cases = [
        ({"kind": "went on"}, "drive_id"),
        ({"kind": "went on", "drive_id": 77}, "drive_id"),
        ({"kind": "moved", "place": "shed", "drive_id": 77}, "drive_id"),
        ({"kind": "moved"}, "place"),
        ({"kind": "came off", "place": "shed"}, "kind"),
        ({"kind": "sank"}, "kind"),
        ({"kind": "lost", "at": "2999-01-01T00:00:00Z"}, "at"),
        ({"kind": "lost", "at": "2020-01-01T00:00:00"}, "at"),
        ({"kind": "lost", "at": "0001-01-01T00:00:00+14:00"}, "at"),
    ]
    for body, field in cases:
        with subtests.test(str(body)):
            assert set(must_refuse(ada.post(f"/items/{tag}/moves", body), 422)) == {field}


def test_figures_from_before_the_work_no_longer_speak(ada, tag):
    said = ada.post(f"/propellers/{tag}/work", {"kind": "re-pitched", "pitch": "17 in"}).get_json()

    # 17 times 25.4 mm.
    assert said["figures"]["pitch_m"] == {"value": 0.4318, "unit": "m", "plus_minus": None, "basis": "paper"}
    assert said["figures"]["diameter_m"]["basis"] == "measured"
    assert said["contradictions"] == []


def test_owners_move_nothing(caller_as, must_refuse):
    owner = caller_as("R. Thorne", "owner")
    tag = owner.post("/propellers", {"place": "my shed"}).get_json()["tag"]

    must_refuse(owner.post(f"/items/{tag}/moves", {"kind": "moved", "place": "my loft"}), 403)
    must_refuse(owner.post(f"/propellers/{tag}/work", {"kind": "keyed"}), 403)
