import pytest

from tests.factories import relaunch as launches
from tests.factories.vessels import make_vessel
from yardapp import db

SOON = "2030-04-01T10:00:00+02:00"


@pytest.fixture
def there(ada):
    """A boat with a launch: its number, the drive's, the tag."""
    with db.transaction() as session:
        drive, tag = launches.make_boat(session)
    body = {"vessel_id": drive.vessel_id, "planned": SOON}
    return ada.post("/launches", body).get_json()["id"], drive.id, tag


def line(sheet, key, drive_id=None):
    return next(one for one in sheet["lines"] if (one["line"], one["drive_id"]) == (key, drive_id))


def test_a_launch_is_planned_and_stands_on_the_board(ada, there):
    board = ada.get("/launches").get_json()["launches"]

    assert [(one["launch_id"], one["boat"], one["next_release"]) for one in board] == [(1, "Kittiwake", "to launch")]
    assert {one["has"] for one in board[0]["open"]} >= {"fitter", "hand", "office"}


def test_what_is_wrong_with_a_plan_names_its_field(ada, there, must_refuse):
    with db.transaction() as session:
        other = make_vessel(session, name="Sea Otter").id

    assert set(must_refuse(ada.post("/launches", {"vessel_id": 1, "planned": SOON}), 422)) == {"vessel_id"}
    assert set(must_refuse(ada.post("/launches", {"vessel_id": 99, "planned": SOON}), 422)) == {"vessel_id"}
    wrong = {"vessel_id": other, "planned": SOON, "list_name": "balloons"}
    assert set(must_refuse(ada.post("/launches", wrong), 422)) == {"list_name"}


def test_a_scan_an_answer_and_a_figure_settle_lines(ada, caller_as, there):
    launch, drive, tag = there
    finn = caller_as("Finn Marsh", "hand")

    finn.post(f"/launches/{launch}/scans", {"drive_id": drive, "tag": tag, "hand": "right"})
    ada.post(f"/launches/{launch}/answers", {"line": "propeller", "drive_id": drive, "answer": "yes"})
    ada.post(f"/launches/{launch}/answers", {"line": "turns", "drive_id": drive, "answer": "ask", "note": "dark"})
    answer = ada.post(f"/launches/{launch}/answers", {"line": "coupling", "drive_id": drive, "figure": 0.00005})
    sheet = answer.get_json()

    assert answer.status_code == 201
    assert (line(sheet, "propeller", drive)["verdict"], line(sheet, "turns", drive)["verdict"]) == ("yes", "ask")
    assert line(sheet, "propeller", drive)["by"] == ["Finn Marsh", "Ada Brook"]
    assert line(sheet, "coupling", drive)["said"] == "0.05 mm"


def test_a_line_that_is_not_on_the_sheet_is_a_wrong_field(ada, there, must_refuse):
    launch, _drive, _tag = there

    refused = ada.post(f"/launches/{launch}/answers", {"line": "sails", "answer": "yes"})

    assert set(must_refuse(refused, 422)) == {"line"}


def test_a_release_is_refused_overridden_and_kept_with_the_whole_sheet(ada, caller_as, there, must_refuse):
    launch, _drive, _tag = there
    refused = ada.post(f"/launches/{launch}/releases", {"release": "to launch"})
    must_refuse(refused, 422)
    by_hand = caller_as("Finn Marsh", "hand").post(f"/launches/{launch}/releases", {"release": "to launch"})
    must_refuse(by_hand, 403)

    sheet = ada.post(
        f"/launches/{launch}/releases", {"release": "to launch", "override": "crane leaves at noon"}
    ).get_json()
    kept = sheet["releases"][0]

    assert (kept["is_override"], kept["said_by"], kept["note"]) == (True, "Ada Brook", "crane leaves at noon")
    assert {one["key"] for one in kept["kept"]["lines"]} >= {"propeller", "lock", "faults"}
    assert ada.get(f"/launches/{launch}/lift").get_json()["may_go"] is True
    back = ada.post(f"/launches/{launch}/taken-back", {"act_id": kept["act_id"], "why": "wind"}).get_json()
    assert back["releases"] == []
    assert ada.get(f"/launches/{launch}/lift").get_json()["may_go"] is False


def test_there_is_no_way_to_alter_or_remove_an_act(ada, there):
    launch, _drive, _tag = there
    for method in ("put", "patch", "delete"):
        for address in (f"/launches/{launch}", f"/launches/{launch}/answers", "/yard-faults/y1", "/policies"):
            answer = getattr(ada.client, method)(
                f"/api/v1{address}", json={}, headers={"Authorization": f"Bearer {ada.token}"}
            )
            assert answer.status_code in (404, 405)


def test_a_fault_is_raised_accepted_until_a_day_and_closed(ada, there, must_refuse):
    _launch, _drive, tag = there
    body = {"severity": "stop", "what": "Crack", "tag": tag}

    made = ada.post("/yard-faults", body)
    key = made.get_json()["key"]
    late = ada.post(
        f"/yard-faults/{key}/decisions", {"kind": "accepted", "name": "A", "note": "b", "until": "2020-01-01"}
    )
    none = ada.post(
        f"/yard-faults/{key}/decisions", {"kind": "accepted", "name": "A", "note": "b", "until": "2030-02-30"}
    )
    given = {"kind": "accepted", "name": "The surveyor", "note": "hairline", "until": "2031-01-01"}
    accepted = ada.post(f"/yard-faults/{key}/decisions", given).get_json()
    nameless = ada.post(f"/yard-faults/{key}/decisions", {"kind": "closed"})
    closed = ada.post(f"/yard-faults/{key}/decisions", {"kind": "closed", "note": "welded"}).get_json()

    assert (made.status_code, made.headers["Location"]) == (201, f"/api/v1/yard-faults/{key}")
    assert set(must_refuse(late, 422)) == {"until"}
    assert set(must_refuse(none, 422)) == {"until"}
    assert set(must_refuse(nameless, 422)) == {"note"}
    assert (accepted["is_accepted"], closed["is_open"]) == (True, False)
    assert ada.get("/yard-faults").get_json() == {"faults": []}
    assert [one["key"] for one in ada.get("/yard-faults?show=all").get_json()["faults"]] == [key]
    assert set(must_refuse(ada.post("/yard-faults", {**body, "tag": "P-9999"}), 422)) == {"tag"}


def test_lists_and_policies_can_be_read(ada):
    lists = ada.get("/line-lists").get_json()["lists"]
    policies = ada.get("/policies").get_json()["policies"]

    assert {one["name"] for one in lists} >= {"shaft line", "pair of shaft lines", "outboard"}
    assert {one["name"]: one["choice"] for one in policies} == {"nut order": "", "bearing wear": ""}


def test_owners_read_the_board_of_their_own_boats_and_no_sheet(caller_as, there, must_refuse):
    owner = caller_as("R. Thorne", "owner")

    assert owner.get("/launches").get_json() == {"launches": []}
    must_refuse(owner.get(f"/launches/{there[0]}"), 403)
    must_refuse(owner.get(f"/launches/{there[0]}/lift"), 404)
    must_refuse(owner.post("/yard-faults", {"severity": "stop", "what": "Crack", "vessel_id": 1}), 403)
