"""The server is killed in the middle of a job: what was tapped stands, and the clocks have run on."""

import os
import re
import signal
import sys
from pathlib import Path
from urllib.parse import urlencode
from urllib.request import Request

import pytest

from tests.factories.coating import COAT_1, make_job
from tests.processes import Browser, serving
from yardapp import db, upgrading
from yardapp.people import services as people

WORDS = "three plain words"


@pytest.mark.skipif(sys.platform != "linux", reason="Reads a process's children from /proc.")
def test_a_job_stands_where_it_stood_when_its_server_was_killed(tmp_path):
    url = f"sqlite:///{tmp_path / 'register.sqlite'}"
    upgrading.upgrade(url)
    engine = db.open_register(url)
    with db.transaction() as session:
        people.add_person(session, people.TERMINAL, name="Finn Marsh", role="hand", password=WORDS)
        make_job(session)
    engine.dispose()

    with serving(tmp_path) as server:
        browser = Browser(server)
        browser.send("/people/enter", name="Finn Marsh", password=WORDS)
        tapped = tap(browser, f"started|1|{COAT_1}")
        assert tapped == 200
        kill_all_of(server)

    with serving(tmp_path) as server:
        browser = Browser(server)
        browser.send("/people/enter", name="Finn Marsh", password=WORDS)
        page = browser.get("/coating/jobs/1").text

    assert "Bracket 1, Primer, coat 1: started" in page
    assert "being coated" in page


def tap(browser, act):
    """One tap as a plain form; the status of the page that it leads to."""
    page = browser.get("/coating/jobs/1").text
    hidden = dict(re.findall(r'<input type="hidden" name="([^"]+)" value="([^"]*)"', page))
    body = urlencode(hidden | {"tap": act}).encode()
    sent = Request(f"{browser.home}/coating/jobs/1/acts", data=body, headers={"Origin": browser.home})
    with browser.opener.open(sent, timeout=60) as answer:
        return answer.status


def kill_all_of(server):
    """The process that was started and its workers, all at once and without a word."""
    pid = server.process.pid
    workers = Path(f"/proc/{pid}/task/{pid}/children").read_text().split()
    for one in (pid, *map(int, workers)):
        os.kill(one, signal.SIGKILL)
    server.process.wait()
