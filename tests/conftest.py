"""The app over a fresh register, a signed-in client, a fetch that checks every page, and both databases."""

import hashlib
import hmac
import os
import re
import secrets
import shutil
from collections.abc import Callable, Iterator
from contextlib import ExitStack, contextmanager
from html.parser import HTMLParser
from pathlib import Path
from typing import Any
from unittest.mock import patch

import pytest
from flask import Flask
from flask.testing import FlaskClient
from sqlalchemy import create_engine, event, text
from werkzeug.test import TestResponse

from tests import postgres
from tests.factories.people import sign_in
from yardapp import create_app, db, settle, upgrading
from yardapp.config import Settings
from yardapp.db import Base

EVERYTHING = os.environ.get("YARDAPP_TEST_ALL") == "1"
KEY = "a key for tests alone"


def skip_or_fail(why: str) -> None:
    """On a bare machine a test that needs more is skipped, with the reason; where all must run, that is a failure."""
    if EVERYTHING:
        pytest.fail(why)
    pytest.skip(why)


@pytest.fixture(scope="session")
def sqlite_pattern(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A migrated, empty register that every test copies."""
    path = tmp_path_factory.mktemp("pattern") / "register.sqlite"
    upgrading.upgrade(f"sqlite:///{path}")
    with create_engine(f"sqlite:///{path}").connect() as connection:
        connection.exec_driver_sql("PRAGMA wal_checkpoint(TRUNCATE)")
    return path


@pytest.fixture(scope="session")
def postgres_url() -> Iterator[str]:
    """A migrated, empty register on Postgres, emptied again before each test."""
    with ExitStack() as stack:
        try:
            url = os.environ.get("YARDAPP_TEST_POSTGRES") or stack.enter_context(postgres.cluster())
        except (FileNotFoundError, OSError) as missing:
            skip_or_fail(f"No Postgres on this machine ({missing}).")
        upgrading.upgrade(url)
        yield url


@pytest.fixture(params=["sqlite", "postgres"])
def register(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[str]:
    """The address of a fresh register; each test runs once on either database."""
    if request.param == "sqlite":
        shutil.copy(request.getfixturevalue("sqlite_pattern"), tmp_path / "register.sqlite")
        url = f"sqlite:///{tmp_path / 'register.sqlite'}"
    else:
        url = request.getfixturevalue("postgres_url")
        _empty(url)
    engine = db.open_register(url)
    yield url
    engine.dispose()


def _empty(url: str) -> None:
    """Empty the tables that a test has touched: emptying all of them takes longer than most tests."""
    engine = create_engine(url)
    with engine.begin() as connection:
        counted_up = {
            name.removesuffix("_id_seq")
            for name in connection.scalars(text("SELECT sequencename FROM pg_sequences WHERE last_value IS NOT NULL"))
        }
        holding = " UNION ALL ".join(
            f"(SELECT '{name}' FROM {name} LIMIT 1)" for name in Base.metadata.tables if name not in counted_up
        )
        touched = counted_up | set(connection.scalars(text(holding)))
        if touched:
            connection.execute(text(f"TRUNCATE {', '.join(sorted(touched))} RESTART IDENTITY CASCADE"))
    engine.dispose()


class YardClient(FlaskClient):
    """A browser that fills in the hidden boxes of a form as a page would."""

    def send(self, address: str, /, *, once: str | None = None, **boxes: Any) -> TestResponse:
        """Post a form."""
        with self.session_transaction() as kept:
            kept.setdefault("csrf", "a")
            csrf = hmac.new(KEY.encode(), kept["csrf"].encode(), hashlib.sha1).hexdigest()
        hidden = {"csrf_token": f"##{csrf}", "once": once or secrets.token_urlsafe(8)}
        boxes = {name: value for name, value in boxes.items() if value is not None}
        return self.post(address, data=hidden | boxes)


@pytest.fixture(scope="session")
def plugged_together(tmp_path_factory: pytest.TempPathFactory, sqlite_pattern: Path) -> Flask:
    """One app for all tests: its addresses and templates are compiled once, which takes longer than most tests."""
    url = f"sqlite:///{sqlite_pattern}"
    return create_app(Settings(data=tmp_path_factory.mktemp("app"), database_url=url, secret_key=KEY))


@pytest.fixture
def app(plugged_together: Flask, register: str, tmp_path: Path) -> Iterator[Flask]:
    """The web app over the fresh register."""
    app = plugged_together
    settle(app, Settings(data=tmp_path, database_url=register, secret_key=KEY))
    app.testing = True
    app.test_client_class = YardClient
    yield app
    engine = db.Register.engine
    if engine is not None:
        engine.dispose()


@pytest.fixture
def client(app: Flask) -> YardClient:
    """A browser at which Ada Brook of the office is signed in."""
    return client_of(app, "Ada Brook", "office")


@pytest.fixture
def client_as(app: Flask) -> Callable[[str, str], YardClient]:
    """A browser for anybody: `client_as("Finn Marsh", "hand")`."""
    return lambda name, role: client_of(app, name, role)


def client_of(app: Flask, name: str, role: str) -> YardClient:
    """A browser at which somebody of that role is signed in."""
    client = app.test_client()
    assert isinstance(client, YardClient)
    with db.transaction() as session, client.session_transaction() as kept:
        kept["device"] = sign_in(session, name=name, role=role)
    return client


class Sheet(HTMLParser):
    """What a page must have, gathered as it is read."""

    def __init__(self, html: str) -> None:
        super().__init__()
        self.ids: list[str] = []
        self.labelled: set[str] = set()
        self.boxes: list[dict[str, str | None]] = []
        self.count = {"h1": 0, "label": 0}
        self.inside = 0
        self.feed(html)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        said = dict(attrs)
        if said.get("id"):
            self.ids.append(str(said["id"]))
        if tag in self.count:
            self.count[tag] += 1
        if tag == "label":
            self.inside += 1
            self.labelled.add(said.get("for") or "")
        if tag in ("input", "select", "textarea") and said.get("type") not in ("hidden", "submit"):
            self.boxes.append({**said, "inside": "yes" if self.inside else None})

    def handle_endtag(self, tag: str) -> None:
        if tag == "label":
            self.inside -= 1


@contextmanager
def counted() -> Iterator[list[str]]:
    """The statements that the register answers within the block."""
    asked: list[str] = []

    def listen(_connection: Any, _cursor: Any, statement: str, *_rest: Any) -> None:
        if not statement.startswith(("BEGIN", "PRAGMA")):
            asked.append(statement)

    def glance(one: db.Glance, **named: object) -> Any:
        asked.append(str(one.statement))
        return look(one, **named)

    look, engine = db.Glance.row, db.Register.engine
    event.listen(engine, "before_cursor_execute", listen)
    try:
        with patch.object(db.Glance, "row", glance):
            yield asked
    finally:
        event.remove(engine, "before_cursor_execute", listen)


@pytest.fixture
def count_queries() -> Callable[[], Any]:
    """`with count_queries() as asked:` gathers what the register is asked."""
    return counted


@pytest.fixture
def fetch(client: YardClient) -> Callable[..., str]:
    """Fetch a page and check what every page must have; gives its HTML."""

    def look(address: str, *, queries: int = 3, status: int = 200, by: YardClient | None = None) -> str:
        with counted() as asked:
            answer = (by or client).get(address)
        assert answer.status_code == status, (answer.status_code, answer.headers.get("Location"), answer.text[:500])
        check_page(answer.text)
        assert len(asked) <= queries, "\n".join(asked)
        return answer.text

    return look


def check_page(html: str) -> None:
    """One h1, a title that begins with it, every box labelled, no id twice."""
    sheet = Sheet(html)
    assert sheet.count["h1"] == 1
    heading = re.search(r"<h1[^>]*>(.*?)</h1>", html, re.DOTALL)
    title = re.search(r"<title>(.*?)</title>", html, re.DOTALL)
    assert heading
    assert title
    words = " ".join(re.sub(r"<[^>]+>", "", heading[1]).split())
    assert " ".join(title[1].split()).startswith(words), (title[1], words)
    assert sorted(set(sheet.ids)) == sorted(sheet.ids)
    for box in sheet.boxes:
        assert box["inside"] or box.get("id") in sheet.labelled or box.get("aria-label"), box
