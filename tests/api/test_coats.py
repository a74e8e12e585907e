from tests.factories.coating import coat_whole, make_job, make_system, stopped_clock
from yardapp.db import transaction

TIN = {"product": "Primer", "part": "Base", "batch": "B7", "volume_m3": 0.0004, "expires_on": "2027-01-01"}


def test_a_tin_is_put_in_stock_and_mixing_takes_from_it(ada):
    with transaction() as session:
        job_id = make_job(session, system_id=make_system(session)).id
    assert ada.post("/coating/stock", TIN).status_code == 201

    ada.post(f"/coating/jobs/{job_id}/acts", {"kind": "mixed", "product": "Primer", "volume_m3": 0.0001})

    (tin,) = ada.get("/coating/stock").get_json()["tins"]
    # Four parts of base to one of hardener.
    assert round(tin["volume_m3"] * 1e6) == 320


def test_a_rest_says_what_became_of_it(ada, must_refuse):
    with transaction() as session:
        job_id = make_job(session, system_id=make_system(session)).id
    ada.post(f"/coating/jobs/{job_id}/acts", {"kind": "mixed", "product": "Primer", "volume_m3": 0.0001})
    rest = {"kind": "left over", "product": "Primer", "volume_m3": 0.00002}

    said = must_refuse(ada.post(f"/coating/jobs/{job_id}/acts", rest | {"fate": "back in its tin"}), 422)
    assert set(said) == {"fate"}
    assert ada.post(f"/coating/jobs/{job_id}/acts", rest | {"fate": "thrown out"}).status_code == 201


def test_a_rating_is_given_and_put_right_once(ada, must_refuse):
    with stopped_clock() as clock:
        with transaction() as session:
            coat_whole(session, make_job(session, system_id=make_system(session)), clock)
        given = ada.post("/coating/pieces/1/ratings", {"ratings": [{"word": "weed"}], "note": "port side"})
        assert given.status_code == 201
        number = given.get_json()["ratings"][0]["id"]
        body = {"word": "slime", "why": "Looked again after washing."}
        right = ada.post(f"/coating/ratings/{number}/corrections", body)
        (rating,) = ada.get("/coating/pieces/1/ratings").get_json()["ratings"]
        must_refuse(ada.post(f"/coating/ratings/{number}/corrections", body), 404)

    assert right.status_code == 201
    assert (rating["word"], rating["replaces_id"], rating["why"]) == ("slime", number, body["why"])


def test_a_blade_that_is_not_there_is_refused(ada, must_refuse):
    with transaction() as session:
        make_job(session, system_id=make_system(session))

    said = must_refuse(ada.post("/coating/pieces/1/ratings", {"ratings": [{"blade": 2, "word": "weed"}]}), 422)

    assert set(said) == {"ratings"}


def test_a_job_is_planned_within_working_hours_or_refused_for_them(ada, must_refuse):
    with transaction() as session:
        make_system(session)
    piece = {"kind": "bracket", "name": "Bracket", "area_m2": 0.1}
    body = {"system_id": 1, "pieces": [piece], "blade_s": 300, "metal_c": 20}

    day = {"begins": "08:00", "ends": "17:00", "breaks": [{"begins": "12:00", "ends": "12:30"}]}
    assert ada.post("/coating/jobs", body | {"hours": day}).status_code == 201
    said = must_refuse(ada.post("/coating/jobs", body | {"hours": day | {"ends": "07:00"}}), 422)
    assert set(said) == {"hours"}
