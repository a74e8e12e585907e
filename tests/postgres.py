"""A throw-away Postgres cluster, where the machine has the server's programs."""

import os
import shutil
import subprocess
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

QUICK = "-c fsync=off -c synchronous_commit=off -c full_page_writes=off -h ''"


def programs() -> Path | None:
    """The folder of initdb and pg_ctl, newest version first."""
    found = sorted(Path("/usr/lib/postgresql").glob("*/bin/initdb"), reverse=True)
    by_path = shutil.which("initdb")
    return found[0].parent if found else Path(by_path).parent if by_path else None


@contextmanager
def cluster() -> Iterator[str]:
    """Start one in a scratch folder; yields the address of its database `postgres`."""
    home = programs()
    if home is None:
        raise FileNotFoundError("initdb")
    scratch = Path(tempfile.mkdtemp(prefix="yardpg"))
    as_server = _as_server(scratch)
    _run(
        *as_server, home / "initdb", "-D", scratch / "data", "-A", "trust", "-U", "postgres", "--no-sync", "-E", "UTF8"
    )
    start = (home / "pg_ctl", "-D", scratch / "data", "-w", "-s", "-l", scratch / "log", "-o", f"-k {scratch} {QUICK}")
    _run(*as_server, *start, "start")
    try:
        yield f"postgresql+psycopg://postgres@/postgres?host={scratch}"
    finally:
        _run(*as_server, home / "pg_ctl", "-D", scratch / "data", "-m", "immediate", "-s", "stop")
        shutil.rmtree(scratch, ignore_errors=True)


def _as_server(scratch: Path) -> tuple[str, ...]:
    """Postgres refuses to run as root: hand the folder to its own account then."""
    if os.geteuid() != 0:
        return ()
    shutil.chown(scratch, "postgres")
    return ("runuser", "-u", "postgres", "--")


def _run(*words: object) -> None:
    subprocess.run([str(word) for word in words], check=True, stdout=subprocess.DEVNULL, cwd="/")
