"""Every "no" is a problem document (RFC 9457), whatever comes in; never a page."""

from tests.api.conftest import check_problem
from yardapp import db
from yardapp.people import services as people

JSON = {"Content-Type": "application/json"}


def test_an_address_that_is_none_is_told_in_json(app, subtests):
    cases = ["/api/v1/nowhere", "/api/v2/propellers", "/api/", "/api/v1/drives/seven", "/api/v1"]
    for address in cases:
        with subtests.test(str(address)[:40]):
            assert check_problem(app.test_client().get(address), 404) == {}


def test_a_slash_too_many_is_no_address_either(ada, must_refuse):
    must_refuse(ada.get("/propellers/"), 404)
    must_refuse(ada.client.get("/api//v1/propellers"), 404)


def test_a_method_that_an_address_does_not_take_names_those_that_it_does(ada, must_refuse, subtests):
    cases = ["DELETE", "PUT", "OPTIONS", "TRACE"]
    for method in cases:
        with subtests.test(str(method)[:40]):
            answer = ada.client.open("/api/v1/propellers", method=method)

            must_refuse(answer, 405)
            assert answer.headers["Allow"] == "GET, HEAD, POST"


def test_only_json_comes_in(ada, must_refuse, subtests):
    cases = ["text/plain", "application/x-www-form-urlencoded", "multipart/form-data", ""]
    for kind in cases:
        with subtests.test(str(kind)[:40]):
            headers = {"Authorization": f"Bearer {ada.token}", "Content-Type": kind}

            answer = ada.client.post("/api/v1/propellers", data=b'{"place": "shed"}', headers=headers)

            must_refuse(answer, 415)
            assert ada.get("/propellers").get_json()["items"] == []


def test_what_is_no_json_is_a_bad_request(ada, must_refuse, subtests):
    cases = [b"", b"{", b"\xff\xfe", b'{"place": "\xff"}', b"[" * 5000, b'{"place": "\\ud800"}']
    for sent in cases:
        with subtests.test(str(sent)[:40]):
            headers = {"Authorization": f"Bearer {ada.token}", **JSON}

            assert must_refuse(ada.client.post("/api/v1/propellers", data=sent, headers=headers), 400) == {}


def test_json_that_is_no_body_is_told_what_is_wrong(ada, must_refuse, subtests):
    cases = [b"null", b"7", b'"shed"', b"[]", b"{}", b'{"place": NaN}', b'{"place": 1e999}']
    for sent in cases:
        with subtests.test(str(sent)[:40]):
            headers = {"Authorization": f"Bearer {ada.token}", **JSON}

            answer = ada.client.post("/api/v1/propellers", data=sent, headers=headers)

            assert must_refuse(answer, 422)


def test_a_body_above_a_megabyte_is_too_large(ada, must_refuse):
    must_refuse(ada.post("/propellers", {"place": "x" * 1_100_000}), 413)


def test_a_header_that_carries_no_token_opens_nothing(app, subtests):
    cases = ["Basic YTpi", "Bearer", "Bearer ", "bearer\u00e9", "Token abc", "Bearer a b"]
    for sent in cases:
        with subtests.test(str(sent)[:40]):
            answer = app.test_client().get("/api/v1/propellers", headers={"Authorization": sent})

            assert check_problem(answer, 401) == {}


def test_a_token_that_was_withdrawn_opens_nothing(ada, must_refuse):
    with db.transaction() as session:
        [token] = people.tokens_of(session, ada.who.person_id)
        people.withdraw_token(session, ada.who, token.id)

    must_refuse(ada.get("/propellers"), 401)


def test_a_page_is_of_1_to_200(ada, must_refuse, subtests):
    cases = ["0", "201", "many", "1.5", "-1", "+1", "1_0", "1&limit=2", "9" * 40]
    for limit in cases:
        with subtests.test(str(limit)[:40]):
            assert set(must_refuse(ada.get(f"/propellers?limit={limit}"), 422)) == {"limit"}


def test_a_fault_of_ours_is_told_plainly_and_in_json(app, ada, must_refuse, monkeypatch):
    def breaks(*_said, **_named):
        raise RuntimeError("a secret of the server")

    app.testing = False
    monkeypatch.setattr("yardapp.gear.services.rack", breaks)

    answer = ada.get("/propellers")

    must_refuse(answer, 500)
    assert "secret" not in answer.text


def test_another_sites_page_can_do_nothing_with_a_browsers_cookie(client):
    answer = client.post("/api/v1/propellers", json={"place": "shed"}, headers={"Origin": "http://elsewhere.example"})

    assert check_problem(answer, 401) == {}
