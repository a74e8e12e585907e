from tests.factories.coating import COAT_1, make_job, make_sheet, make_system, stopped_clock
from tests.factories.gear import make_propeller
from yardapp.coating.exchange import to_json
from yardapp.db import transaction


def a_job(**said):
    with transaction() as session:
        return make_job(session, **said).id


def test_a_system_is_written_and_read_back_as_it_was(ada):
    answer = ada.post("/coating/systems", {"sheet": to_json(make_sheet()), "why": "from its sheet"})

    assert answer.status_code == 201
    (shown,) = ada.get("/coating/systems").get_json()["systems"]
    assert shown["sheet"] == to_json(make_sheet())
    assert (shown["version"], shown["said_by"]) == (1, "Ada Brook")


def test_a_sheet_that_can_t_be_right_is_refused_in_words(ada, must_refuse):
    sheet = to_json(make_sheet())
    sheet["steps"][1]["window"]["rows"][0]["latest_s"] = 1.0

    said = must_refuse(ada.post("/coating/systems", {"sheet": sheet}), 422)

    assert set(said) == {"sheet"}


def test_a_job_is_planned_run_and_read(ada):
    with transaction() as session:
        make_system(session)
        tag = make_propeller(session).tag
    piece = {"kind": "propeller", "name": tag, "area_m2": 0.3}
    planned = ada.post("/coating/jobs", {"system_id": 1, "pieces": [piece], "blade_s": 300, "metal_c": 20})
    assert planned.status_code == 201
    assert planned.get_json()["now"]["act"] == "weather"

    weather = {"kind": "weather", "air_c": 20.0, "metal_c": 20.0, "relative_humidity": 0.5}
    ada.post("/coating/jobs/1/acts", weather)
    answer = ada.post("/coating/jobs/1/acts", {"kind": "started", "unit": "1", "step": COAT_1})

    assert answer.status_code == 201
    job = ada.get("/coating/jobs/1").get_json()
    assert [act["kind"] for act in job["acts"]] == ["weather", "started"]
    assert job["units"][0]["phase"] == "running"
    assert [one["id"] for one in ada.get("/coating/jobs").get_json()["jobs"]] == [1]
    assert ada.get("/coating/jobs?show=over").get_json()["jobs"] == []
    assert ada.get(f"/items/{tag}/coatings").get_json()["coatings"][0]["finished"] is None


def test_an_act_told_late_keeps_its_own_time(ada):
    with stopped_clock() as clock:
        job_id = a_job()
        own = clock().isoformat()
        clock.later(minutes=9)

        body = {"kind": "started", "unit": "1", "step": COAT_1, "at": own}
        (act,) = ada.post(f"/coating/jobs/{job_id}/acts", body).get_json()["acts"]

    assert act["is_late"]
    assert (act["at"], act["noted"]) == ("2026-05-04T12:00:00Z", "2026-05-04T12:09:00Z")


def test_a_second_tap_of_the_same_thing_is_refused_and_a_retry_is_not(ada, must_refuse):
    job_id = a_job()
    body, key = {"kind": "started", "unit": "1", "step": COAT_1}, {"Idempotency-Key": "a"}
    first = ada.post(f"/coating/jobs/{job_id}/acts", body, key)
    again = ada.post(f"/coating/jobs/{job_id}/acts", body, key)

    assert (first.status_code, again.status_code) == (201, 201)
    assert len(again.get_json()["acts"]) == 1
    must_refuse(ada.post(f"/coating/jobs/{job_id}/acts", body), 422)


def test_what_is_never_coated_is_refused_by_its_name(ada, must_refuse):
    with transaction() as session:
        make_system(session)
    piece = {"kind": "other", "name": "hull anode", "area_m2": 0.1}
    body = {"system_id": 1, "pieces": [piece], "blade_s": 300, "metal_c": 20}

    said = must_refuse(ada.post("/coating/jobs", body), 422)

    assert "never coated" in " ".join(said.values())


def test_owners_watch_no_job(caller_as, must_refuse):
    job_id = a_job()
    owner = caller_as("R. Thorne", "owner")

    must_refuse(owner.get(f"/coating/jobs/{job_id}"), 403)
    must_refuse(owner.get("/coating/systems"), 403)
