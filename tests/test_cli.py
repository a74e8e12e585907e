"""The commands, as processes: what they print, what they leave behind, what they tell the shell."""

import io
import re
import shutil
import signal
import socket
import sqlite3
import subprocess
import sys
from dataclasses import dataclass
from importlib.metadata import entry_points

import pytest
import segno

from tests.conftest import _empty
from tests.factories.gear import make_propeller
from tests.factories.people import make_person
from tests.processes import Browser, environment, run, serving
from yardapp import db
from yardapp.cli import main, network, welcome
from yardapp.gear import services as gear
from yardapp.people import services as people

WORDS = "three plain words"
CODE = re.compile(r"^ {8}([A-Z0-9]{4}-[A-Z0-9]{4})$", re.MULTILINE)


@pytest.fixture
def yard(tmp_path, sqlite_pattern):
    """A data folder with an empty register of this version."""
    folder = tmp_path / "yard-data"
    folder.mkdir()
    shutil.copy(sqlite_pattern, folder / "register.sqlite")
    return folder


@dataclass
class Told:
    """What one command came to."""

    returncode: int
    stdout: str
    stderr: str


@pytest.fixture
def tell(capsys, monkeypatch):
    """Run one command in this very process: a second sooner than a new one."""
    for name in ("YARDAPP_DATA", "YARDAPP_DATABASE_URL"):
        monkeypatch.delenv(name, raising=False)

    def told(*words, typed="", **env):
        for name, value in env.items():
            monkeypatch.setenv(name, value)
        monkeypatch.setattr("sys.stdin", io.StringIO(typed))
        capsys.readouterr()
        try:
            code = main([str(word) for word in words])
        except SystemExit as refused:
            code = int(str(refused.code))
        return Told(code, *capsys.readouterr())

    return told


@pytest.fixture
def ada(yard):
    """Ada Brook of the office, who runs this yard."""
    engine = db.open_register(f"sqlite:///{yard / 'register.sqlite'}")
    with db.transaction() as session:
        make_person(session)
    engine.dispose()


def written(folder, statement, *values):
    """Change the register behind its back, as a fault would."""
    register = sqlite3.connect(folder / "register.sqlite")
    with register:
        found = register.execute(statement, values).fetchall()
    register.close()
    return found


def test_the_command_is_installed_under_its_name():
    (found,) = entry_points(group="console_scripts", name="yardapp")

    assert found.load() is main


def test_help_comes_without_waking_database_or_web():
    heavy = ("sqlalchemy", "flask", "numpy", "pint", "alembic", "granian")
    told = (
        f"import sys; from yardapp.cli import parser; parser(); print([one for one in {heavy} if one in sys.modules])"
    )

    done = subprocess.run([sys.executable, "-c", told], capture_output=True, text=True, check=True, env=environment())

    assert done.stdout.strip() == "[]"


def test_a_new_yard_is_claimed_with_the_code_in_the_terminal_and_not_without(tmp_path):
    with serving(tmp_path / "new") as server:
        (code,) = CODE.findall(server.said)
        browser = Browser(server)

        first = browser.get("/")
        wrong = browser.send("/people/claim", code="AAAA-AAAA", name="A Stranger", password=WORDS)
        right = browser.send("/people/claim", code=code, name="Ada Brook", password=WORDS)

        assert first.address == "/people/claim"
        assert (wrong.status, "not the code in the terminal" in wrong.text) == (422, True)
        assert (right.status, right.address) == (200, "/people/me")
        assert browser.get("/rack").address == "/rack"


def test_a_claimed_yard_prints_no_code(yard, ada):
    with serving(yard) as server:
        assert CODE.findall(server.said) == []
        assert "Nobody runs this yard" not in server.said


def test_it_runs_from_another_folder_and_makes_its_data_folder_there(tmp_path):
    with serving("here/yard", cwd=tmp_path) as server:
        assert f"register in {tmp_path / 'here' / 'yard'}" in server.said
        assert Browser(server).get("/alive").status == 204
        assert (tmp_path / "here" / "yard" / "register.sqlite").is_file()


def test_it_prints_both_addresses_and_the_networks_as_a_qr_code(yard):
    drawn = io.StringIO()
    segno.make("http://yard.test:8480/", micro=False).terminal(drawn, compact=True)

    with serving(yard, "--address", "http://yard.test:8480") as server:
        assert f"On this machine:        http://127.0.0.1:{server.port}/" in server.said
        assert "On the yard's network:  http://yard.test:8480/" in server.said
        assert drawn.getvalue().strip("\n") in server.said


def test_a_terminal_without_blocks_gets_the_addresses_alone(yard):
    plain = {"PYTHONUTF8": "0", "PYTHONIOENCODING": "ascii"}

    with serving(yard, "--address", "http://yard.test:8480", env=plain) as server:
        assert "http://yard.test:8480/" in server.said
        assert "█" not in server.said
        assert "??" not in server.said


@pytest.mark.parametrize("how", ["Ctrl-C", signal.SIGINT, signal.SIGTERM])
def test_it_stops_within_seconds(yard, how):
    with serving(yard) as server:
        code, seconds = server.stop(how)

        assert (code, server.process.poll()) == (0, 0)
        assert seconds < 10
    assert server.lines[-1] == "Stopped."


def test_a_port_in_use_is_said_with_one_that_is_free_and_nothing_is_made(tmp_path):
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        port = taken.getsockname()[1]

        done = run("serve", "--host", "127.0.0.1", "--port", port, "--data", tmp_path)

    assert done.returncode == 1
    other = re.fullmatch(rf"Port {port} is in use\. Try --port (\d+)\.\n", done.stderr)
    assert other
    assert network.why_not("127.0.0.1", int(other[1])) is None
    assert not (tmp_path / "register.sqlite").exists()


def test_an_address_of_another_machine_is_refused_in_words(tmp_path):
    # 198.51.100.0/24 is kept for documents (RFC 5737): no machine has it.
    done = run("serve", "--host", "198.51.100.7", "--port", "8499", "--data", tmp_path)

    assert (done.returncode, done.stderr) == (1, "This machine has no address 198.51.100.7. Try --host 0.0.0.0.\n")


@pytest.mark.parametrize("port", ["0", "65536", "8480.5", "eight"])
def test_a_port_that_is_none_is_refused_before_anything_else(tmp_path, port, tell):
    done = tell("serve", "--port", port, "--data", tmp_path / "yard")

    assert done.returncode == 2
    assert "a port is a whole number from 1 to 65535" in done.stderr
    assert not (tmp_path / "yard").exists()


def test_finding_the_network_never_fails_without_one(monkeypatch):
    def no_network(*_):
        raise OSError("Network is unreachable")

    monkeypatch.setattr(socket.socket, "connect", no_network)
    monkeypatch.setattr(socket, "gethostbyname_ex", no_network)

    assert network.lan_addresses() == []


def test_every_card_and_no_loopback_is_offered(monkeypatch):
    monkeypatch.setattr(socket, "gethostbyname_ex", lambda name: (name, [], ["127.0.1.1", "192.168.7.9"]))
    monkeypatch.setattr(network, "PRIVATE", ())

    assert network.lan_addresses() == ["192.168.7.9"]


@pytest.mark.parametrize(
    ("host", "here", "lan"),
    [
        ("0.0.0.0", "http://127.0.0.1:80/", ["http://10.0.0.5:80/"]),
        ("127.0.0.1", "http://127.0.0.1:80/", []),
        ("10.0.0.5", "", ["http://10.0.0.5:80/"]),
        ("::1", "http://[::1]:80/", []),
    ],
)
def test_addresses_follow_the_card_that_is_listened_on(host, here, lan):
    assert welcome.here_and_lan(host, 80, ["10.0.0.5"]) == (here, lan)


def test_a_forgotten_password_is_replaced_at_the_terminal(yard, ada, tell):
    done = tell("people", "password", "ada brook", "--password-stdin", "--data", yard, typed="another three words")
    short = tell("people", "password", "Ada Brook", "--password-stdin", "--data", yard, typed="short")

    assert (done.returncode, short.returncode) == (0, 1)
    assert "Ada Brook signs in with the new password now." in done.stdout


def test_people_are_let_in_listed_promoted_and_said_goodbye_to(yard, ada, tell):
    hired = tell("people", "add", "Finn  Marsh", "--role", "hand", "--password-stdin", "--data", yard, typed=WORDS)
    promoted = tell("people", "role", "finn marsh", "office", "--data", yard)
    gone = tell("people", "gone", "Ada Brook", "--data", yard)
    listed = tell("people", "list", "--data", yard)

    assert (hired.returncode, hired.stdout) == (0, "Finn Marsh may sign in now: hand.\n")
    assert (promoted.returncode, promoted.stdout) == (0, "Finn Marsh is office now.\n")
    assert (gone.returncode, gone.stdout) == (0, "Ada Brook is gone from here.\n")
    assert listed.stdout == "Ada Brook   office  gone\nFinn Marsh  office\n"


@pytest.mark.parametrize(
    ("words", "typed", "said"),
    [
        (["add", "Ada Brook", "--role", "hand", "--password-stdin"], WORDS, "There is a Ada Brook already"),
        (["add", "Finn Marsh", "--role", "hand", "--password-stdin"], "short", "8 to 200 characters"),
        (["add", "Finn Marsh", "--role", "hand"], "", "Nobody is at the keyboard"),
        (["gone", "Ada Brook"], "", "Somebody must stay in the office"),
        (["role", "No Such", "hand"], "", "Nobody here is called No Such"),
    ],
)
def test_a_refusal_is_one_sentence_on_standard_error(yard, words, typed, said, ada, tell):
    done = tell("people", *words, "--data", yard, typed=typed)

    assert (done.returncode, done.stdout) == (1, "")
    assert said in done.stderr
    assert done.stderr.count("\n") == 1
    assert tell("people", "list", "--data", yard).stdout == "Ada Brook  office\n"


def test_a_token_is_printed_alone_and_opens_the_register_as_that_person(yard, ada):
    done = run("token", "Ada Brook", "--data", yard)

    assert (done.returncode, done.stderr) == (0, "")
    assert re.fullmatch(r"[\w-]{43}\n", done.stdout)
    engine = db.open_register(f"sqlite:///{yard / 'register.sqlite'}")
    with db.snapshot() as session:
        owner = people.token_owner(session, done.stdout.strip())
    engine.dispose()
    assert owner is not None
    assert owner.name == "Ada Brook"


def test_nobody_who_is_gone_gets_a_token(yard, ada, tell):
    tell("people", "add", "Finn Marsh", "--role", "hand", "--password-stdin", "--data", yard, typed=WORDS)
    tell("people", "gone", "Finn Marsh", "--data", yard)

    done = tell("token", "Finn Marsh", "--data", yard)

    assert (done.returncode, done.stdout) == (1, "")
    assert "gone from here" in done.stderr


@pytest.mark.parametrize("words", [["check"], ["token", "Ada Brook"], ["people", "list"]])
def test_where_there_is_no_register_none_is_made(tmp_path, words, tell):
    folder = tmp_path / "nowhere"

    done = tell(*words, "--data", folder)

    assert (done.returncode, done.stdout) == (1, "")
    assert done.stderr == f"There is no register in {folder}. `yardapp serve --data {folder}` makes one.\n"
    assert not folder.exists()


def fill(folder):
    """A propeller with a photo; the tag and the photo's file."""
    engine = db.open_register(f"sqlite:///{folder / 'register.sqlite'}")
    with db.transaction() as session:
        item = make_propeller(session)
        picture = gear.keep_picture(folder / "photos", io.BytesIO(_picture()))
        gear.attach_photo(session, people.TERMINAL, item, picture)
    engine.dispose()
    return item.tag, gear.path_of(folder / "photos", picture.sha256)


def _picture():
    from PIL import Image

    kept = io.BytesIO()
    Image.new("RGB", (60, 40), "gray").save(kept, "PNG")
    return kept.getvalue()


def test_a_sound_register_passes_and_a_stray_file_is_only_counted(yard):
    fill(yard)
    (yard / "photos" / "aa").mkdir()
    (yard / "photos" / "aa" / ("aa" * 32 + ".jpg")).write_bytes(b"left by a save that failed")

    done = run("check", "--data", yard)

    assert (done.returncode, done.stderr) == (0, "")
    assert done.stdout.splitlines() == [
        "The database file is whole.",
        "The tables are those of this version.",
        "1 photo looked at.",
        "1 file in the photo folder without an item: left by saves never finished.",
        "1 item looked at: figures against evidence.",
        "1 item looked at: places against moves.",
        "The register is sound.",
    ]


def test_a_photo_that_was_lost_or_changed_is_a_fault(yard, tell):
    _tag, path = fill(yard)
    path.write_bytes(b"another picture")
    changed = tell("check", "--data", yard)
    path.unlink()
    lost = tell("check", "--data", yard)

    assert (changed.returncode, lost.returncode) == (1, 1)
    assert f"FAULT  Photo {path.stem[:12]}… was changed" in changed.stdout
    assert f"FAULT  Photo {path.stem[:12]}… is not in the photo folder." in lost.stdout
    assert lost.stdout.endswith("1 fault found.\n")


def test_a_working_figure_that_left_its_evidence_is_a_fault_and_is_left_as_it_was(yard, tell):
    tag, _path = fill(yard)
    written(yard, "UPDATE gear_item SET diameter_m = 0.6 WHERE tag = ?", tag)

    done = tell("check", "--data", yard)

    assert done.returncode == 1
    assert f"FAULT  {tag}: diameter_m is not what the evidence says." in done.stdout
    assert written(yard, "SELECT diameter_m FROM gear_item") == [(0.6,)]


def test_a_row_that_points_at_nothing_is_a_fault(yard, tell):
    fill(yard)
    written(yard, "UPDATE gear_item SET came_off_id = 999")

    done = tell("check", "--data", yard)

    assert done.returncode == 1
    assert "FAULT  A row of gear_item points at a row of vessels_drive that is not there." in done.stdout


def test_tables_of_another_version_are_a_fault_and_nothing_else_is_judged(yard, tell):
    written(yard, "UPDATE alembic_version SET version_num = 'older'")

    done = tell("check", "--data", yard)

    assert done.returncode == 1
    assert "FAULT  The tables are of another version (older)." in done.stdout
    assert "item" not in done.stdout


def test_the_commands_do_the_same_on_postgres(tmp_path, postgres_url, tell):
    _empty(postgres_url)
    env = {"YARDAPP_DATABASE_URL": postgres_url, "YARDAPP_DATA": str(tmp_path)}
    hired = tell("people", "add", "Ada Brook", "--role", "office", "--password-stdin", typed=WORDS, **env)
    listed, token, checked = tell("people", "list", **env), tell("token", "Ada Brook", **env), tell("check", **env)

    assert (hired.returncode, listed.stdout) == (0, "Ada Brook  office\n")
    assert re.fullmatch(r"[\w-]{43}\n", token.stdout)
    assert (checked.returncode, checked.stdout.splitlines()[-1]) == (0, "The register is sound.")
    assert not (tmp_path / "register.sqlite").exists()


def test_a_database_that_does_not_answer_is_one_sentence(tmp_path, tell):
    pytest.importorskip("psycopg")
    url = f"postgresql+psycopg://nobody@/nothing?host={tmp_path}"

    done = tell("people", "list", "--data", tmp_path, YARDAPP_DATABASE_URL=url)

    assert done.returncode == 1
    assert done.stderr.startswith("The register's database does not answer:")
    assert "Traceback" not in done.stderr
