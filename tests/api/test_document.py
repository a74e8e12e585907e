"""The document tells the truth: whatever it allows is answered as it says, and never with a fault."""

import pytest
import schemathesis
from flask import Flask
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st
from schemathesis import GenerationMode
from schemathesis.specs.openapi.checks import positive_data_acceptance

from tests.api.conftest import Caller
from tests.factories import vessels as boats
from tests.factories.gear import make_propeller
from yardapp import db, rooms
from yardapp.api.openapi import document

# "38" is a text that the document allows and no power: what a text says is judged by reading it.
NOT_JUDGED = [positive_data_acceptance]
assert rooms.ROOMS  # their routes are recorded when they are opened
OPERATIONS = sorted((method.upper(), path) for path, methods in document()["paths"].items() for method in methods)


@pytest.fixture
def schema(app: Flask) -> schemathesis.BaseSchema:
    app.testing = False  # a fault is then answered, and found by the checks
    return schemathesis.openapi.from_wsgi("/api/v1/openapi.json", app)


@pytest.mark.parametrize(("method", "path"), OPERATIONS)
def test_every_answer_is_as_the_document_says(schema, ada: Caller, method: str, path: str):
    with db.transaction() as session:
        make_propeller(session)
        boats.make_drive(session)
    operation = schema[path][method]
    takes_anything = path == "/openapi.json"
    modes = [GenerationMode.POSITIVE] if takes_anything else list(GenerationMode)

    @given(case=st.one_of([operation.as_strategy(mode) for mode in modes]))
    @settings(
        max_examples=12,
        deadline=None,
        database=None,
        derandomize=True,
        phases=[Phase.explicit, Phase.generate],
        suppress_health_check=list(HealthCheck),
    )
    def is_as_said(case):
        case.call_and_validate(headers={"Authorization": f"Bearer {ada.token}"}, excluded_checks=NOT_JUDGED)

    is_as_said()
