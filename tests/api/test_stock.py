from tests.factories.people import make_person
from tests.factories.vessels import make_drive, make_vessel
from tests.fit.test_stock import SHAFT, good_propeller
from yardapp import db


def test_the_stock_for_a_drive_is_ranked_with_its_work_and_hours(ada):
    with db.transaction() as session:
        drive = make_drive(session, **SHAFT).id
        # A keyway a millimetre wide of the shaft's: a stepped key.
        stepped = good_propeller(session, keyway_width_m=(0.0105, 0.00003)).tag
        good = good_propeller(session, place="Shed").tag

    said = ada.get(f"/drives/{drive}/stock").get_json()

    assert [(row["tag"], row["verdict"], row["works"]) for row in said["rows"]] == [
        (good, "goes on", []),
        (stepped, "goes on after work", ["fit a key"]),
    ]
    assert said["counts"] == {"goes_on": 1, "goes_on_after_work": 1, "cannot_tell": 0, "does_not_go_on": 0}
    # The table of hours: common practice, no source.
    assert (said["rows"][1]["from_h"], said["rows"][1]["to_h"]) == (1, 2)
    assert (said["further"], said["rows"][0]["load_ratio"]) == (None, None)
    assert said["lacks"]
    narrowed = ada.get(f"/drives/{drive}/stock?place=shed&blades=3&aboard=yes&any_bore=yes&rule=10%20%25&first=0")
    assert narrowed.get_json()["rows"] == []
    assert [row["tag"] for row in ada.get(f"/drives/{drive}/stock?place=shed").get_json()["rows"]] == [good]


def test_the_drives_for_a_propeller_are_ranked_and_say_whose_they_are(ada):
    with db.transaction() as session:
        drive, tag = make_drive(session, **SHAFT).id, good_propeller(session).tag

    said = ada.get(f"/propellers/{tag}/drives?boat=kitti").get_json()

    row = said["rows"][0]
    assert (row["drive_id"], row["drive"], row["owner"], row["verdict"]) == (
        drive,
        "Kittiwake, centre",
        "R. Thorne",
        "goes on",
    )
    assert ada.get(f"/propellers/{tag}/drives?boat=otter").get_json()["rows"] == []


def test_what_can_not_be_asked_is_told_by_name(ada, must_refuse):
    with db.transaction() as session:
        drive = make_drive(session).id

    assert set(must_refuse(ada.get(f"/drives/{drive}/stock?rule=7+%25"), 422)) == {"rule"}
    assert set(must_refuse(ada.get(f"/drives/{drive}/stock?blades=9"), 422)) == {"blades"}
    assert ada.get("/drives/99/stock").status_code == 404
    assert ada.get("/propellers/P-9999/drives").status_code == 404


def test_an_owner_ranks_only_what_they_may_see(caller_as):
    owner = caller_as("R. Thorne", "owner")
    with db.transaction() as session:
        person = make_person(session, name="R. Thorne", role="owner")
        mine = make_drive(session, make_vessel(session, owner_id=person.id), **SHAFT).id
        other = make_drive(session, make_vessel(session, name="Sea Otter")).id
        good_propeller(session)

    assert owner.get(f"/drives/{mine}/stock").get_json()["rows"] == []
    assert owner.get(f"/drives/{other}/stock").status_code == 404


def pair():
    with db.transaction() as session:
        return {"tag": good_propeller(session).tag, "drive_id": make_drive(session, **SHAFT).id}


def test_a_verdict_is_kept_and_read_again_with_each_premise_then_and_now(ada):
    made = ada.post("/fit/keep", {**pair(), "note": "for the surveyor"})
    said = made.get_json()

    assert made.status_code == 201
    assert made.headers["Location"] == f"/api/v1/fit/kept/{said['id']}"
    assert (said["verdict"], said["holds"], said["note"]) == ("goes on", True, "for the surveyor")
    assert {check["name"] for check in said["checks"]} >= {"hand", "taper", "tip room"}
    bore = next(one for one in said["premises"] if one["figure"] == "propeller.bore_large_m")
    assert bore["then"] == {"value": 0.038, "u": 0.00002, "basis": "measured"}
    assert bore["is_weighed"]

    version = ada.get(f"/drives/{said['drive_id']}").get_json()["version"]
    ada.patch(f"/drives/{said['drive_id']}", {"version": version, "shaft_diameter": "40 mm"})

    again = ada.get(f"/fit/kept/{said['id']}").get_json()
    assert not again["holds"]
    assert [one["figure"] for one in again["premises"] if one["is_changed"]] == ["drive.shaft_diameter_m"]


def test_a_retry_keeps_it_once(ada):
    body = pair()

    made = [ada.post("/fit/keep", body, {"Idempotency-Key": "once"}).get_json()["id"] for _ in range(2)]

    assert made[0] == made[1]


def test_a_pair_that_is_not_there_is_told_by_name(ada, must_refuse):
    body = pair()

    assert set(must_refuse(ada.post("/fit/keep", {**body, "tag": "P-9999"}), 422)) == {"tag"}
    assert set(must_refuse(ada.post("/fit/keep", {**body, "drive_id": 99}), 422)) == {"drive_id"}
    assert set(must_refuse(ada.post("/fit/keep", {**body, "rule": "7 %"}), 422)) == {"rule"}
    assert ada.get("/fit/kept/99").status_code == 404


def test_owners_keep_no_verdicts(caller_as):
    body = pair()

    assert caller_as("R. Thorne", "owner").post("/fit/keep", body).status_code == 403
