from concurrent.futures import ThreadPoolExecutor

import pytest

KEY = {"Idempotency-Key": "5f1c0e2a-first-try"}


@pytest.mark.parametrize(
    ("address", "body"),
    [("/propellers", {"place": "shed"}), ("/shafts", {"place": "shed"}), ("/vessels", {"name": "Sea Otter"})],
)
def test_a_retry_gets_the_first_answer_and_saves_nothing(ada, address, body):
    first = ada.post(address, body, KEY)
    again = ada.post(address, body, KEY)

    assert (first.status_code, again.status_code) == (201, 201)
    assert again.headers["Location"] == first.headers["Location"]
    assert again.get_json() == first.get_json()
    [rows] = [value for value in ada.get(address).get_json().values() if isinstance(value, list)]
    assert len(rows) == 1


def test_a_sheet_is_kept_once(ada):
    ada.post("/propellers", {"place": "shed"})
    body = {"method": "diameter", "tip_radius": "280 mm"}

    first = ada.post("/propellers/P-0001/sheets", body, KEY)
    again = ada.post("/propellers/P-0001/sheets", body, KEY)

    assert again.headers["Location"] == first.headers["Location"] == "/api/v1/sheets/1"
    assert len(ada.get("/propellers/P-0001/sheets").get_json()["sheets"]) == 1


def test_without_a_key_each_try_is_an_act_of_its_own(ada):
    ada.post("/propellers", {"place": "shed"})
    ada.post("/propellers", {"place": "shed"})

    assert len(ada.get("/propellers").get_json()["items"]) == 2


def test_a_key_that_came_with_another_body_is_refused_so_that_nothing_is_lost(ada, must_refuse):
    ada.post("/propellers", {"place": "shed"}, KEY)

    said = must_refuse(ada.post("/propellers", {"place": "Rack C"}, KEY), 422)

    assert set(said) == {"Idempotency-Key"}


def test_a_key_is_its_owners_alone(ada, caller_as):
    ada.post("/propellers", {"place": "shed"}, KEY)

    answer = caller_as("Finn Marsh", "hand").post("/propellers", {"place": "shed"}, KEY)

    assert answer.get_json()["tag"] == "P-0002"


def test_a_try_that_was_refused_leaves_its_key_free(ada):
    ada.post("/propellers", {"place": "shed", "came_off_id": 77}, KEY)

    assert ada.post("/propellers", {"place": "shed"}, KEY).status_code == 201


def test_two_tries_at_once_save_once(app, ada):
    ada.post("/propellers", {"place": "the first, so that the counter stands"})

    def send(_number: int):
        headers = {"Authorization": f"Bearer {ada.token}", **KEY}
        return app.test_client().post("/api/v1/propellers", json={"place": "shed"}, headers=headers)

    with ThreadPoolExecutor(4) as threads:
        answers = list(threads.map(send, range(4)))

    assert [answer.status_code for answer in answers] == [201] * 4
    assert {answer.get_json()["tag"] for answer in answers} == {"P-0002"}


@pytest.mark.parametrize("key", ["", "two words", "x" * 256, "\u00e9"])
def test_a_key_is_1_to_255_plain_characters(ada, must_refuse, key):
    said = must_refuse(ada.post("/propellers", {"place": "shed"}, {"Idempotency-Key": key}), 422)

    assert set(said) == {"Idempotency-Key"}
