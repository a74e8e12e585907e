"""The command as a person runs it: a real process, its words, its pages, and a bounded wait for each."""

import os
import re
import signal
import socket
import subprocess
import sys
import threading
import time
import urllib.error
import urllib.parse
import urllib.request
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, field
from http.cookiejar import CookieJar
from pathlib import Path
from typing import Literal

YARDAPP = (sys.executable, "-W", "error::ResourceWarning", "-m", "yardapp.cli")
PATIENCE_S = 180  # for a machine that is busy with everything else; a healthy start takes about a second


def environment(**said: str) -> dict[str, str]:
    """This process's own, without what would point at another register, and with `said`."""
    kept = {name: value for name, value in os.environ.items() if not name.startswith(("YARDAPP_", "PG"))}
    return kept | {"PYTHONUTF8": "1"} | said


def run(*words: object, typed: str = "", env: Mapping[str, str] | None = None) -> subprocess.CompletedProcess[str]:
    """One command from start to end."""
    return subprocess.run(
        [*YARDAPP, *map(str, words)],
        input=typed,
        capture_output=True,
        text=True,
        env=environment(**(env or {})),
        timeout=PATIENCE_S,
        check=False,
    )


def free_port() -> int:
    """A port that nothing listens on."""
    with socket.socket() as asking:
        asking.bind(("127.0.0.1", 0))
        return int(asking.getsockname()[1])


@dataclass
class Server:
    """A running `yardapp serve` and what it has said so far."""

    process: subprocess.Popen[str]
    port: int
    lines: list[str] = field(default_factory=list)

    @property
    def said(self) -> str:
        """Everything on its standard output and error up to now."""
        return "\n".join(self.lines)

    def listen(self) -> None:
        """Take its words down, line by line."""
        assert self.process.stdout is not None
        for line in self.process.stdout:
            self.lines.append(line.rstrip("\n"))

    def until_alive(self) -> None:
        """Wait for its first answer."""
        until = time.monotonic() + PATIENCE_S
        while time.monotonic() < until and self.process.poll() is None:
            try:
                urllib.request.urlopen(f"http://127.0.0.1:{self.port}/alive", timeout=5).close()
            except OSError:
                time.sleep(0.05)
            else:
                return
        raise AssertionError(f"It never answered. It said:\n{self.said}")

    def stop(self, how: signal.Signals | Literal["Ctrl-C"] = "Ctrl-C") -> tuple[int, float]:
        """Ask it to stop; its exit code, and how many seconds it took. A terminal's Ctrl-C goes to all of its group."""
        began = time.monotonic()
        if how == "Ctrl-C":
            os.killpg(self.process.pid, signal.SIGINT)
        else:
            self.process.send_signal(how)
        return self.process.wait(PATIENCE_S), time.monotonic() - began


@contextmanager
def serving(
    data: Path | str, *words: str, env: Mapping[str, str] | None = None, cwd: Path | None = None
) -> Iterator[Server]:
    """`yardapp serve` on a free port of this machine alone, until the block ends."""
    port = free_port()
    command = [*YARDAPP, "serve", "--data", str(data), "--host", "127.0.0.1", "--port", str(port), *words]
    with started(command, port, environment(**(env or {})), cwd) as server:
        yield server


@contextmanager
def started(command: Sequence[str], port: int, env: Mapping[str, str], cwd: Path | None = None) -> Iterator[Server]:
    """Any command that serves on `port`, in a process group of its own."""
    process = subprocess.Popen(
        command, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True, env=env, cwd=cwd, start_new_session=True
    )
    server = Server(process, port)
    listener = threading.Thread(target=server.listen, daemon=True)
    listener.start()
    try:
        server.until_alive()
        yield server
    finally:
        _end(process)
        listener.join(5)
        if process.stdout is not None:
            process.stdout.close()


def _end(process: subprocess.Popen[str]) -> None:
    """Nothing that a test started outlives it; the group is this process's own."""
    if process.poll() is None:
        process.terminate()
        try:
            process.wait(10)
        except subprocess.TimeoutExpired:
            os.killpg(process.pid, signal.SIGKILL)
            process.wait(10)


@dataclass
class Answer:
    """A page: where it was found in the end, its status and its text."""

    address: str
    status: int
    text: str


class Browser:
    """Cookies, redirects, and the hidden boxes of the form that was fetched last."""

    def __init__(self, server: Server) -> None:
        self.home = f"http://127.0.0.1:{server.port}"
        self.opener = urllib.request.build_opener(urllib.request.HTTPCookieProcessor(CookieJar()))

    def get(self, path: str) -> Answer:
        """Fetch a page."""
        return self._answer(path, None)

    def send(self, path: str, **boxes: str) -> Answer:
        """Fetch a form, fill it in, send it."""
        form = self.get(path).text
        hidden = dict(re.findall(r'<input type="hidden" name="([^"]+)" value="([^"]*)"', form))
        return self._answer(path, urllib.parse.urlencode(hidden | boxes).encode())

    def _answer(self, path: str, body: bytes | None) -> Answer:
        request = urllib.request.Request(self.home + path, data=body, headers={"Origin": self.home})
        try:
            with self.opener.open(request, timeout=PATIENCE_S) as found:
                return Answer(found.url.removeprefix(self.home), found.status, found.read().decode())
        except urllib.error.HTTPError as refused:
            with refused:
                return Answer(path, refused.code, refused.read().decode())
