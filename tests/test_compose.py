"""docker-compose.yml without docker: its shape is read, and every command in it is run here as a plain process."""

import os
import re
import shlex
import shutil
import subprocess
import sys
from importlib.util import find_spec
from pathlib import Path

import pytest
import yaml
from sqlalchemy import create_engine, make_url, text

from tests import postgres
from tests.conftest import skip_or_fail
from tests.processes import Browser, environment, free_port, started

HOME = Path(__file__).parent.parent
COMPOSE = yaml.safe_load((HOME / "docker-compose.yml").read_text())
DATABASE, APP = COMPOSE["services"]["database"], COMPOSE["services"]["app"]
PASSWORD = "three plain words"
ASKED_FOR = re.compile(r"\$\{YARDAPP_DB_PASSWORD:\?.+\}")


def test_it_names_two_services_and_keeps_what_they_write():
    assert set(COMPOSE) == {"services", "volumes"}
    assert set(COMPOSE["services"]) == {"database", "app"}
    for service in (DATABASE, APP):
        kept = [volume.split(":")[0] for volume in service["volumes"]]
        assert kept
        assert set(kept) <= set(COMPOSE["volumes"])
        assert service["restart"] == "unless-stopped"
        assert service["healthcheck"]["test"][0] == "CMD"


def test_the_app_waits_until_the_database_answers():
    assert APP["depends_on"] == {"database": {"condition": "service_healthy"}}


def test_no_password_is_written_down_and_none_is_left_out():
    assert ASKED_FOR.fullmatch(DATABASE["environment"]["POSTGRES_PASSWORD"])
    assert APP["environment"]["PGPASSWORD"] == DATABASE["environment"]["POSTGRES_PASSWORD"]
    assert make_url(APP["environment"]["YARDAPP_DATABASE_URL"]).password is None


def test_both_services_speak_of_one_database():
    url, said = make_url(APP["environment"]["YARDAPP_DATABASE_URL"]), DATABASE["environment"]

    assert (url.host, url.username, url.database) == ("database", said["POSTGRES_USER"], said["POSTGRES_DB"])


def test_the_port_that_is_opened_is_the_one_that_is_served():
    command = APP["command"]
    port = command[command.index("--port") + 1]

    assert APP["ports"] == [f"{port}:{port}"]
    assert f":{port}/alive" in APP["healthcheck"]["test"][-1]
    assert APP["volumes"] == [f"yard-data:{command[command.index('--data') + 1]}"]


@pytest.fixture(scope="module")
def server():
    """The folder of a throw-away Postgres with the role and database that the file asks for."""
    try:
        with postgres.cluster() as url:
            engine = create_engine(url, isolation_level="AUTOCOMMIT")
            with engine.connect() as connection:
                connection.execute(text(f"CREATE ROLE {DATABASE['environment']['POSTGRES_USER']} LOGIN"))
                said = DATABASE["environment"]
                connection.execute(text(f"CREATE DATABASE {said['POSTGRES_DB']} OWNER {said['POSTGRES_USER']}"))
            engine.dispose()
            yield make_url(url).query["host"]
    except FileNotFoundError as missing:
        skip_or_fail(f"No Postgres on this machine ({missing}).")


def here(**said):
    """The environment in which `python`, `yardapp` and Postgres's own programs are found."""
    programs = [Path(sys.executable).parent, postgres.programs()]
    path = os.pathsep.join([*(str(one) for one in programs if one), os.environ["PATH"]])
    return environment(PATH=path, **said)


def ran(words, env):
    program = shutil.which(words[0], path=env["PATH"])
    if program is None:
        skip_or_fail(f"No {words[0]} on this machine.")
    return subprocess.run([program, *words[1:]], env=env, capture_output=True, text=True, timeout=60, check=False)


def test_the_databases_sign_of_life_tells_a_running_one_from_none(server, tmp_path):
    words = DATABASE["healthcheck"]["test"][1:]

    assert ran(words, here(PGHOST=server)).returncode == 0
    assert ran(words, here(PGHOST=str(tmp_path))).returncode != 0


def test_the_app_serves_from_that_database_and_shows_its_sign_of_life(server, tmp_path):
    port, data = free_port(), tmp_path / "yard-data"
    swaps = {"8480": str(port), "/yard-data": str(data), "0.0.0.0": "127.0.0.1"}
    program, *words = [swaps.get(word, word) for word in APP["command"]]
    url = make_url(APP["environment"]["YARDAPP_DATABASE_URL"]).set(host=None, query={"host": server})
    env = here(YARDAPP_DATABASE_URL=url.render_as_string(), PGPASSWORD=PASSWORD)
    alive = [word.replace("8480", str(port)) for word in APP["healthcheck"]["test"][1:]]

    before = ran(alive, env)
    with started([shutil.which(program, path=env["PATH"]), *words], port, env) as app:
        during = ran(alive, env)
        first = Browser(app).get("/")

        assert first.address == "/people/claim"
        assert re.search(r"^ {8}[A-Z0-9]{4}-[A-Z0-9]{4}$", app.said, re.MULTILINE)
    assert (before.returncode != 0, during.returncode) == (True, 0)
    assert not (data / "register.sqlite").exists()


def recipe():
    """The image's steps: (what, the words after it)."""
    return [line.split(maxsplit=1) for line in APP["build"]["dockerfile_inline"].splitlines()]


def test_the_image_is_built_from_files_that_are_here_and_runs_as_nobody_special():
    steps = recipe()
    copied = [word for what, words in steps if what == "COPY" for word in words.split()[:-1]]

    assert steps[0] == ["FROM", "python:3.11-slim"]
    assert steps[-1][0] == "USER"
    assert steps[-1][1] not in ("root", "0")
    assert [one for one in copied if not (HOME / one).exists()] == []


def test_the_images_own_commands_leave_an_app_with_its_pages(tmp_path):
    """`pip` puts the package into a folder of the test's own; what it needs is installed here already."""
    source, site, data = tmp_path / "src", tmp_path / "site", tmp_path / "yard-data"
    source.mkdir()
    env = here(PIP_TARGET=str(site), PIP_NO_DEPS="1", PIP_DISABLE_PIP_VERSION_CHECK="1")
    if find_spec("hatchling"):
        env["PIP_NO_BUILD_ISOLATION"] = "0"  # pip's own way to say it: no fetching of what is here
    for what, words in recipe():
        if what == "COPY":
            _copy(*words.replace("/src", str(source)).split())
        if what == "RUN":
            command = words.replace("/src", str(source)).replace("/yard-data", str(data))
            command = command.replace("--owner=1000", f"--owner={os.getuid()}")
            done = subprocess.run(
                ["sh", "-c", command], env=env, capture_output=True, text=True, timeout=120, check=False
            )
            assert done.returncode == 0, (shlex.split(command)[0], done.stderr)

    told = "from yardapp.paths import ROOT; print(*sorted(one.name for one in ROOT.iterdir()))"
    asked = [sys.executable, "-c", told]
    shown = subprocess.run(
        asked, env=here(PYTHONPATH=str(site)), cwd=tmp_path, capture_output=True, text=True, check=True
    )
    assert shown.stdout.split() == ["migrations", "static", "templates", "tests"]
    assert (site / "yardapp" / "example" / "boats.csv").is_file()
    # The pages under /how show what each formula is held to, in a built app too.
    rows = {path.name for path in (HOME / "tests" / "published").rglob("*.csv")}
    assert {path.name for path in (site / "yardapp" / "_assets" / "tests" / "published").rglob("*.csv")} == rows
    assert rows
    assert data.is_dir()
    assert not source.exists()


def _copy(*words):
    """As COPY does: files into a folder, or one folder under a name."""
    *sources, target = words
    for source in sources:
        path = HOME / source
        if path.is_dir():
            shutil.copytree(path, target, ignore=shutil.ignore_patterns("__pycache__"))
        else:
            shutil.copy(path, target)
