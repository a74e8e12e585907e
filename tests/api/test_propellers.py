import pytest

from tests.api.conftest import alike
from tests.factories import vessels as boats
from tests.factories.gear import make_propeller
from yardapp import db
from yardapp.gear import services as gear
from yardapp.gear.figures import figures_of

TYPED = {
    "place": "Rack C, bin 7",
    "hand": "right",
    "blades": "3",
    "diameter": "22 in",
    "pitch": '18"',
    "taper": "1:16",
    "bore_large": "1 1/2 in",
    "plus_minus": {"diameter": "2 mm", "taper": "0.4"},
}
# The inch is 25.4 mm; ± 0.4 of N in 1:16 is 0.4 / 16² of the taper.
IN_SI = {
    "place": "Rack C, bin 7",
    "hand": "right",
    "blades": 3.0,
    "diameter_m": 0.5588,
    "pitch_m": 0.4572,
    "taper": 0.0625,
    "bore_large_m": 0.0381,
    "plus_minus": {"diameter_m": 0.002, "taper": 0.4 / 256},
}


def test_a_propeller_gets_a_tag_and_an_address(ada):
    answer = ada.post("/propellers", TYPED)
    said = answer.get_json()

    assert answer.status_code == 201
    assert answer.headers["Location"] == "/api/v1/propellers/P-0001"
    assert (said["tag"], said["place"], said["version"]) == ("P-0001", "Rack C, bin 7", 1)
    assert said["figures"]["diameter_m"] == {"value": 0.5588, "unit": "m", "plus_minus": 0.002, "basis": "measured"}
    assert said["figures"]["blades"] == {"value": 3, "unit": "1", "plus_minus": 0.0, "basis": "measured"}
    assert said["figures"]["hand"] == {"value": "right", "unit": None, "plus_minus": None, "basis": "measured"}
    assert said["figures"]["pitch_m"]["plus_minus"] is None
    assert {one["typed"] for one in said["evidence"] if one["what"] == "pitch_m"} == {'18"'}
    assert ada.get("/propellers/P-0001").get_json() == said


def test_text_and_si_say_the_same(ada):
    typed = ada.post("/propellers", TYPED).get_json()["figures"]
    in_si = ada.post("/propellers", IN_SI).get_json()["figures"]

    assert typed.keys() == in_si.keys()
    for name, figure in typed.items():
        assert in_si[name] == alike(figure)


def test_only_the_place_is_needed(ada, must_refuse):
    assert ada.post("/propellers", {"place": "shed"}).get_json()["figures"] == {}
    assert must_refuse(ada.post("/propellers", {}), 422) == {"place": "Is missing."}
    assert set(must_refuse(ada.post("/propellers", {"place": "  "}), 422)) == {"place"}


def test_every_figure_of_a_propeller_may_be_said(ada):
    words = {"hand": "left", "bore_kind": "pilot", "material": "aluminium bronze"}
    numbers = {figure.name: 0.2 for figure in figures_of("propeller") if figure.name.endswith("_m")}
    numbers |= {"keyway_width_m": 0.01, "keyway_depth_m": 0.0, "taper": 0.1, "blades": 4}

    said = ada.post("/propellers", {"place": "shed", **words, **numbers}).get_json()

    assert {name: figure["value"] for name, figure in said["figures"].items()} == words | numbers


def test_a_stamp_is_read_and_a_contradiction_is_said(ada):
    body = {"place": "shed", "stamp": "22 x 18 RH", "diameter": "560 mm", "plus_minus": {"diameter": "0.1 mm"}}
    body |= {"pitch": "410 mm"}

    said = ada.post("/propellers", {**body, "plus_minus": {"pitch": "8 mm"}}).get_json()

    assert said["stamp"] == "22 x 18 RH"
    assert said["figures"]["hand"]["basis"] == "stamped"
    assert said["figures"]["pitch_m"]["value"] == 0.41
    [odd] = [one for one in said["contradictions"] if one["what"] == "pitch_m"]
    by_id = {one["id"]: one for one in said["evidence"]}
    assert by_id[odd["working"]]["basis"] == "measured"
    assert by_id[odd["other"]]["value"] == pytest.approx(0.4572)


def test_the_basis_is_kept_with_each_figure(ada):
    said = ada.post("/propellers", {"place": "shed", "diameter": "22 in", "basis": "guessed"}).get_json()

    assert said["figures"]["diameter_m"]["basis"] == "guessed"


def test_what_can_not_stand_is_told_by_name_and_saves_nothing(ada, must_refuse, subtests):
    cases = [
        ({"diameter": "23..5"}, "diameter"),
        ({"diameter": 22}, "diameter"),
        ({"diameter_m": "0.5"}, "diameter_m"),
        ({"diameter_m": 0}, "diameter_m"),
        ({"diameter_m": 55.88}, "diameter_m"),
        ({"diameter": "22 mm"}, "diameter"),
        ({"diameter": "22 in", "diameter_m": 0.5588}, "diameter_m"),
        ({"blades": 3.5}, "blades"),
        ({"blades": "12"}, "blades"),
        ({"taper": True}, "taper"),
        ({"taper": "1:16", "plus_minus": {"taper": 0.2}}, "plus_minus.taper"),
        ({"hand": "port"}, "hand"),
        ({"came_off_id": 77}, "came_off_id"),
        ({"came_off_id": 2**70}, "came_off_id"),
        ({"diametre": "22 in"}, "diametre"),
        ({"plus_minus": {"diameter": "1 mm"}}, "plus_minus.diameter"),
        ({"place": "Rack\x00C"}, "place"),
        ({"stamp": "x" * 81}, "stamp"),
        ({"length": "1 m"}, "length"),
    ]
    for body, field in cases:
        with subtests.test(str((body, field))):
            said = must_refuse(ada.post("/propellers", {"place": "shed", **body}), 422)

            assert set(said) == {field}
            assert said[field].endswith((".", "…"))
            assert ada.get("/propellers").get_json()["items"] == []


def test_the_rack_is_read_page_by_page(ada):
    for number in range(5):
        ada.post("/propellers", {"place": f"bin {number}"})

    first = ada.get("/propellers?limit=2").get_json()
    second = ada.get(f"/propellers?limit=2&before={first['before']}").get_json()
    third = ada.get(f"/propellers?limit=2&before={second['before']}").get_json()

    tags = [one["tag"] for page in (first, second, third) for one in page["items"]]
    assert tags == ["P-0005", "P-0004", "P-0003", "P-0002", "P-0001"]
    assert third["before"] is None


def test_a_propeller_on_a_boat_says_so(ada, count_queries):
    with db.transaction() as session:
        drive = boats.make_drive(session)
        item = make_propeller(session)
        gear.move_item(session, ada.who, item.tag, "went on", drive_id=drive.id)

    with count_queries() as asked:
        said = ada.get(f"/propellers/{item.tag}").get_json()

    assert (said["aboard"], said["aboard_id"]) == ("Kittiwake, centre", drive.id)
    assert [one["kind"] for one in said["events"]] == ["went on", "logged"]
    assert len(asked) <= 3, asked


def test_a_change_names_the_version_that_it_was_made_on(ada, caller_as, must_refuse):
    ada.post("/propellers", {"place": "shed", "note": "blue paint"})

    first = ada.patch("/propellers/P-0001", {"version": 1, "place": "Rack A"})
    late = caller_as("Finn Marsh", "hand").patch("/propellers/P-0001", {"version": 1, "place": "Rack B"})

    assert first.status_code == 200
    assert (first.get_json()["place"], first.get_json()["note"], first.get_json()["version"]) == (
        "Rack A",
        "blue paint",
        2,
    )
    must_refuse(late, 409)
    problem = late.get_json()
    assert (problem["version"], problem["sent_version"], problem["by"]) == (2, 1, "Ada Brook")
    assert problem["theirs"]["place"] == "Rack A"


def test_a_tag_that_nothing_carries_is_not_found(ada, must_refuse):
    ada.post("/shafts", {"place": "shed"})

    for tag in ("P-0099", "S-0001", "%00", "é"):
        must_refuse(ada.get(f"/propellers/{tag}"), 404)
    must_refuse(ada.patch("/propellers/S-0001", {"version": 1, "place": "here"}), 404)


def test_an_owner_sees_only_what_is_theirs(ada, caller_as, must_refuse):
    owner = caller_as("R. Thorne", "owner")
    with db.transaction() as session:
        hers = boats.make_vessel(session, name="Sea Otter", owner_id=owner.who.person_id)
        drive = boats.make_drive(session, hers)
        on_her = make_propeller(session)
        gear.move_item(session, ada.who, on_her.tag, "went on", drive_id=drive.id)
        other = make_propeller(session)

    seen = owner.get("/propellers").get_json()["items"]

    assert [one["tag"] for one in seen] == [on_her.tag]
    must_refuse(owner.get(f"/propellers/{other.tag}"), 404)
    must_refuse(owner.patch(f"/propellers/{on_her.tag}", {"version": 1, "note": "mine"}), 403)


def test_what_an_owner_logs_is_a_proposal(caller_as):
    owner = caller_as("R. Thorne", "owner")

    answer = owner.post("/propellers", {"place": "my shed", "diameter": "22 in", "stamp": "22 x 18"})

    assert answer.status_code == 201
    assert answer.get_json()["is_proposed"] is True
