"""A real browser at a real server, at phone and desktop size, with the accessibility checker beside it."""

import shutil
import threading
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import BrowserContext, Page
from werkzeug.serving import make_server

from tests.conftest import skip_or_fail
from yardapp import create_app, db
from yardapp.config import Settings
from yardapp.people import services as people

CHROMIUM = shutil.which("chromium") or shutil.which("chromium-browser")
AXE = Path(__file__).parent / "vendor" / "axe-core-4.14.1" / "axe.min.js"
FLAGS = [
    "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
    "--disable-component-update", "--disable-sync", "--disable-dev-shm-usage",
    # A name, not 127.0.0.1: on a yard's network a page is no secure context, and must work all the same.
    "--host-resolver-rules=MAP yard.test 127.0.0.1",
]  # fmt: skip
PHONE = {"viewport": {"width": 390, "height": 844}, "device_scale_factor": 2, "is_mobile": True, "has_touch": True}
DESKTOP = {"viewport": {"width": 1440, "height": 900}}
WORDS = "three plain words"


@pytest.fixture(scope="session")
def browser_type_launch_args(browser_type_launch_args: dict[str, Any]) -> dict[str, Any]:
    if CHROMIUM is None:
        skip_or_fail("No Chromium on this machine.")
    return {**browser_type_launch_args, "executable_path": CHROMIUM, "args": FLAGS}


@pytest.fixture(params=["phone", "desktop"])
def browser_context_args(request: pytest.FixtureRequest) -> dict[str, Any]:
    return PHONE if request.param == "phone" else DESKTOP


class Yard:
    """A served yard that can be switched off and on again at the same address."""

    def __init__(self, settings: Settings) -> None:
        self.settings = settings
        self.port = 0
        self.start()

    @property
    def address(self) -> str:
        return f"http://yard.test:{self.port}"

    def start(self) -> None:
        self.server = make_server("127.0.0.1", self.port, create_app(self.settings), threaded=True)
        self.port = self.server.server_port
        self.thread = threading.Thread(target=self.server.serve_forever, daemon=True)
        self.thread.start()

    def stop(self) -> None:
        self.server.shutdown()
        self.server.server_close()
        self.thread.join(5)


@pytest.fixture
def yard(sqlite_pattern: Path, tmp_path: Path) -> Iterator[Yard]:
    """A new yard that nobody has claimed."""
    shutil.copy(sqlite_pattern, tmp_path / "register.sqlite")
    url = f"sqlite:///{tmp_path / 'register.sqlite'}"
    served = Yard(Settings(data=tmp_path, database_url=url, secret_key="a key for tests alone"))
    yield served
    served.stop()
    if db.Register.engine is not None:
        db.Register.engine.dispose()


@pytest.fixture
def code(yard: Yard) -> str:
    """The claim code, as the terminal prints it."""
    with db.transaction() as session:
        made = people.make_claim_code(session)
    assert made
    return made


@pytest.fixture
def at_work(yard: Yard, page: Page) -> Page:
    """A page at which Ada Brook of the office is signed in."""
    with db.transaction() as session:
        people.add_person(session, people.TERMINAL, name="Ada Brook", role="office", password=WORDS)
    page.goto(f"{yard.address}/people/enter")
    page.get_by_label("Name").fill("Ada Brook")
    page.get_by_label("Password").fill(WORDS)
    page.get_by_role("button", name="Sign in").click()
    page.wait_for_url(f"{yard.address}/rack")
    return page


@pytest.fixture
def axe() -> Callable[[Page], list[Any]]:
    """What the accessibility checker finds wrong with the page as it stands."""
    source = AXE.read_text(encoding="utf-8")

    def check(page: Page) -> list[Any]:
        # The whole sheet in view: what lies half under the places at the bottom is not too small, only scrolled.
        size = page.viewport_size or {"width": 390, "height": 844}
        page.set_viewport_size({**size, "height": 200 + page.evaluate("document.documentElement.scrollHeight")})
        try:
            return violations(page)
        finally:
            page.set_viewport_size(size)

    def violations(page: Page) -> list[Any]:
        page.evaluate(source)
        found = page.evaluate(
            "tags => axe.run(document, {runOnly: {type: 'tag', values: tags}})",
            ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"],
        )
        return [(one["id"], [node["target"] for node in one["nodes"]]) for one in found["violations"]]

    return check


@pytest.fixture(autouse=True)
def complaints(context: BrowserContext) -> list[str]:
    """What the browser complains of; a page that runs well leaves it silent."""
    heard: list[str] = []
    context.on("console", lambda message: heard.append(message.text) if message.type == "error" else None)
    context.on("weberror", lambda fault: heard.append(str(fault.error)))
    return heard
