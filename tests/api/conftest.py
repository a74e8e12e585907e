"""A caller of the API with a token, and what a refusal says of its fields."""

from collections.abc import Callable
from typing import Any

import pytest
from flask import Flask
from werkzeug.test import TestResponse

from tests.factories.people import make_who
from yardapp import db
from yardapp.people import services as people

BASE = "/api/v1"


class Caller:
    """Somebody who calls the API with a token of their own."""

    def __init__(self, app: Flask, name: str, role: str) -> None:
        self.client = app.test_client()
        with db.transaction() as session:
            who = make_who(session, name=name, role=role)
            self.token = people.make_token(session, who, who.person_id or 0, "a test")
            self.who = who

    def _headers(self, headers: dict[str, str] | None) -> dict[str, str]:
        return {"Authorization": f"Bearer {self.token}", **(headers or {})}

    def get(self, address: str) -> TestResponse:
        return self.client.get(f"{BASE}{address}", headers=self._headers(None))

    def post(self, address: str, body: Any, headers: dict[str, str] | None = None) -> TestResponse:
        return self.client.post(f"{BASE}{address}", json=body, headers=self._headers(headers))

    def patch(self, address: str, body: Any) -> TestResponse:
        return self.client.patch(f"{BASE}{address}", json=body, headers=self._headers(None))


@pytest.fixture
def ada(app: Flask) -> Caller:
    """Ada Brook of the office."""
    return Caller(app, "Ada Brook", "office")


@pytest.fixture
def caller_as(app: Flask) -> Callable[[str, str], Caller]:
    """Anybody: `caller_as("R. Thorne", "owner")`."""
    return lambda name, role: Caller(app, name, role)


@pytest.fixture
def must_refuse() -> Callable[[TestResponse, int], dict[str, str]]:
    """`must_refuse(answer, 422)` checks that it is a problem document and gives what it says of each field."""
    return check_problem


def check_problem(answer: TestResponse, status: int) -> dict[str, str]:
    assert answer.status_code == status, answer.text
    assert answer.mimetype == "application/problem+json"
    problem = answer.get_json()
    assert problem["status"] == status
    assert problem["title"]
    assert problem["detail"]
    return {one["field"]: one["said"] for one in problem["errors"]}


def alike(figure: dict[str, Any]) -> dict[str, Any]:
    """The same figure, to the last digits that two ways of writing it leave."""
    return {name: pytest.approx(said, rel=1e-12) if isinstance(said, float) else said for name, said in figure.items()}
