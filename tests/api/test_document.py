"""The document tells the truth: whatever is sent is answered as it says, and never with a fault."""

import pytest
import schemathesis
from flask import Flask
from hypothesis import HealthCheck, Phase, given, settings
from schemathesis import GenerationMode
from schemathesis.specs.openapi.checks import ignored_auth, positive_data_acceptance

from tests.api.conftest import Caller, check_problem
from tests.conftest import check_page
from tests.factories import vessels as boats
from tests.factories.gear import make_propeller
from yardapp import db, rooms
from yardapp.api.door import ROUTES
from yardapp.api.openapi import document

assert rooms.ROOMS  # their routes are recorded when they are opened
OPERATIONS = sorted((method.upper(), path) for path, methods in document()["paths"].items() for method in methods)
# Nothing is wrong to ask of an address that takes a tag and no more.
CLOSED = sorted((one.method, one.path) for one in ROUTES if one.body or one.query or "_id}" in one.path)
# "38" is a text that the document allows, and no power: what a text says is judged by reading it.
NOT_JUDGED = [positive_data_acceptance]
MODERATE = settings(
    max_examples=5,
    deadline=None,
    database=None,
    derandomize=True,
    phases=[Phase.explicit, Phase.generate],
    suppress_health_check=list(HealthCheck),
)


@pytest.fixture
def schema(app: Flask):
    app.testing = False  # a fault is then answered, and found by the checks
    return schemathesis.openapi.from_wsgi("/api/v1/openapi.json", app)


@pytest.fixture
def token(ada: Caller) -> dict[str, str]:
    with db.transaction() as session:
        make_propeller(session)
        boats.make_drive(session)
    return {"Authorization": f"Bearer {ada.token}"}


def test_whatever_the_document_allows_is_answered_as_it_says(schema, token, subtests):
    for method, path in OPERATIONS:

        @given(case=schema[path][method].as_strategy())
        @MODERATE
        def holds(case):
            case.call_and_validate(headers=token, excluded_checks=NOT_JUDGED)

        with subtests.test(f"{method} {path}"):
            holds()


def test_whatever_the_document_does_not_allow_is_refused(schema, token, subtests):
    for method, path in CLOSED:
        # The token is no part of what is made wrong here, so it can't be told that it was ignored.
        @given(case=schema[path][method].as_strategy(GenerationMode.NEGATIVE, headers=token))
        @MODERATE
        def holds(case):
            case.call_and_validate(excluded_checks=[*NOT_JUDGED, ignored_auth])

        with subtests.test(f"{method} {path}"):
            holds()


def test_nobody_gets_in_without_a_token(app: Flask, subtests):
    for route in ROUTES:
        address = f"/api/v1{route.path}".replace("{tag}", "P-0001").replace("{vessel_id}", "1")
        address = address.replace("{drive_id}", "1").replace("{sheet_id}", "1").replace("{kept_id}", "1")
        address = address.replace("{table_id}", "1").replace("{launch_id}", "1").replace("{job_id}", "1")
        address = address.replace("{set_id}", "1").replace("{piece_id}", "1").replace("{rating_id}", "1")
        address = address.replace("{fault_id}", "1").replace("{other_id}", "2").replace("{person_id}", "1")
        address = address.replace("{photo_id}", "1")
        with subtests.test(f"{route.method} {route.path}"):
            bare = app.test_client().open(address, method=route.method, json={})
            wrong = app.test_client().open(
                address, method=route.method, json={}, headers={"Authorization": "Bearer of-nobody"}
            )

            assert check_problem(bare, 401) == {}
            assert bare.headers["WWW-Authenticate"] == 'Bearer realm="yardapp"'
            assert check_problem(wrong, 401) == {}
            assert 'error="invalid_token"' in wrong.headers["WWW-Authenticate"]


def test_anybody_may_read_the_document_as_a_program_or_as_a_person(app: Flask):
    client = app.test_client()

    for_programs = client.get("/api/v1/openapi.json")
    for_people = client.get("/api/v1/docs")

    assert for_programs.status_code == 200
    assert for_programs.get_json()["openapi"] == "3.1.0"
    assert for_people.status_code == 200
    check_page(for_people.text)
    for route in ROUTES:
        assert f"{route.method} /api/v1{route.path}" in for_people.text
    assert "://" not in for_people.text.replace("http://localhost", "")
