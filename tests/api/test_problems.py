"""Every "no" is a problem document (RFC 9457), whatever comes in; never a page."""

import pytest

from tests.api.conftest import fields_of

JSON = {"Content-Type": "application/json"}


@pytest.mark.parametrize(
    "address", ["/api/v1/nowhere", "/api/v2/propellers", "/api/", "/api/v1/drives/seven", "/api/v1"]
)
def test_an_address_that_is_none_is_told_in_json(app, address):
    assert fields_of(app.test_client().get(address), 404) == {}


def test_a_slash_too_many_is_no_address_either(ada, refused):
    refused(ada.get("/propellers/"), 404)
    refused(ada.client.get("/api//v1/propellers"), 404)


@pytest.mark.parametrize("method", ["DELETE", "PUT", "OPTIONS", "TRACE"])
def test_a_method_that_an_address_does_not_take_names_those_that_it_does(ada, refused, method):
    answer = ada.client.open("/api/v1/propellers", method=method)

    refused(answer, 405)
    assert answer.headers["Allow"] == "GET, HEAD, POST"


@pytest.mark.parametrize("kind", ["text/plain", "application/x-www-form-urlencoded", "multipart/form-data", ""])
def test_only_json_comes_in(ada, refused, kind):
    headers = {"Authorization": f"Bearer {ada.token}", "Content-Type": kind}

    answer = ada.client.post("/api/v1/propellers", data=b'{"place": "shed"}', headers=headers)

    refused(answer, 415)
    assert ada.get("/propellers").get_json()["items"] == []


@pytest.mark.parametrize("sent", [b"", b"{", b"\xff\xfe", b'{"place": "\xff"}', b"[" * 5000, b'{"place": "\\ud800"}'])
def test_what_is_no_json_is_a_bad_request(ada, refused, sent):
    headers = {"Authorization": f"Bearer {ada.token}", **JSON}

    assert refused(ada.client.post("/api/v1/propellers", data=sent, headers=headers), 400) == {}


@pytest.mark.parametrize("sent", [b"null", b"7", b'"shed"', b"[]", b"{}", b'{"place": NaN}', b'{"place": 1e999}'])
def test_json_that_is_no_body_is_told_what_is_wrong(ada, refused, sent):
    headers = {"Authorization": f"Bearer {ada.token}", **JSON}

    answer = ada.client.post("/api/v1/propellers", data=sent, headers=headers)

    assert refused(answer, 422)


def test_a_body_above_a_megabyte_is_too_large(ada, refused):
    refused(ada.post("/propellers", {"place": "x" * 1_100_000}), 413)


@pytest.mark.parametrize("sent", ["Basic YTpi", "Bearer", "Bearer ", "bearer\u00e9", "Token abc", "Bearer a b"])
def test_a_header_that_carries_no_token_opens_nothing(app, sent):
    answer = app.test_client().get("/api/v1/propellers", headers={"Authorization": sent})

    assert fields_of(answer, 401) == {}


def test_a_token_that_was_withdrawn_opens_nothing(ada, refused):
    from yardapp import db
    from yardapp.people import services as people

    with db.transaction() as session:
        [token] = people.tokens_of(session, ada.who.person_id)
        people.withdraw_token(session, ada.who, token.id)

    refused(ada.get("/propellers"), 401)


@pytest.mark.parametrize("limit", ["0", "201", "many", "1.5", "-1", "+1", "1_0", "1&limit=2", "9" * 40])
def test_a_page_is_of_1_to_200(ada, refused, limit):
    assert set(refused(ada.get(f"/propellers?limit={limit}"), 422)) == {"limit"}


def test_a_fault_of_ours_is_told_plainly_and_in_json(app, ada, refused, monkeypatch):
    def breaks(*_said, **_named):
        raise RuntimeError("a secret of the server")

    app.testing = False
    monkeypatch.setattr("yardapp.gear.services.rack", breaks)

    answer = ada.get("/propellers")

    refused(answer, 500)
    assert "secret" not in answer.text


def test_another_sites_page_can_do_nothing_with_a_browsers_cookie(client):
    answer = client.post("/api/v1/propellers", json={"place": "shed"}, headers={"Origin": "http://elsewhere.example"})

    assert fields_of(answer, 401) == {}
