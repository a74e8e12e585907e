"""Copies of the register: the same one comes back, row by row and photo by photo, and nothing is written over."""

import io
import shutil
import tarfile
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from PIL import Image
from sqlalchemy import create_engine, text

from tests.conftest import client_of
from tests.factories.gear import make_propeller
from tests.factories.people import make_who
from tests.factories.vessels import make_drive
from yardapp import backups, db
from yardapp.backups.copies import copies_in, look_over
from yardapp.backups.keeping import is_due, kept
from yardapp.config import Settings
from yardapp.db import Base, transaction
from yardapp.errors import Refused
from yardapp.gear import services as gear

NIGHT = datetime(2026, 6, 1, 3, tzinfo=UTC)


@pytest.fixture
def settings(register, tmp_path):
    return Settings(data=tmp_path, database_url=register, secret_key="k")


@pytest.fixture
def filled(settings):
    """A register with gear, a boat, history and a photo."""
    buffer = io.BytesIO()
    Image.new("RGB", (64, 48), (120, 90, 40)).save(buffer, "JPEG")
    buffer.seek(0)
    with transaction() as session:
        who, drive = make_who(session), make_drive(session)
        for _ in range(3):
            item = make_propeller(session)
            gear.move_item(session, who, item.tag, "went on", drive_id=drive.id)
            gear.move_item(session, who, item.tag, "came off", place="Rack C")
        gear.attach_photo(session, who, item, gear.keep_picture(settings.photos, buffer))
    return settings


def everything(url):
    """Every row of every table, as text."""
    engine = create_engine(url)
    with engine.connect() as connection:
        found = {
            name: sorted(map(str, connection.execute(text(f'SELECT * FROM "{name}"')).all()))
            for name in Base.metadata.tables
        }
    engine.dispose()
    return found


def photos(folder):
    return {str(path.relative_to(folder)): path.read_bytes() for path in folder.rglob("*.jpg")}


def emptied(settings, tmp_path, request):
    """Somewhere empty of the same kind to restore into."""
    data = tmp_path / "elsewhere"
    data.mkdir()
    if settings.database_url.startswith("sqlite"):
        return Settings(data=data, database_url=f"sqlite:///{data / 'register.sqlite'}", secret_key="k")
    engine = create_engine(settings.database_url, isolation_level="AUTOCOMMIT")
    with engine.connect() as connection:
        connection.execute(text("DROP DATABASE IF EXISTS elsewhere"))
        connection.execute(text("CREATE DATABASE elsewhere"))
    engine.dispose()
    url = settings.database_url.replace("/postgres?", "/elsewhere?")
    return Settings(data=data, database_url=url, secret_key="k")


def test_a_restored_register_is_the_same_one_row_by_row_and_photo_by_photo(filled, tmp_path, request):
    made = backups.into_file(filled, tmp_path / "yard.tar")
    target = emptied(filled, tmp_path, request)

    backups.restore(target, tmp_path / "yard.tar")

    assert made.tables["gear_item"] == 3
    assert everything(target.database_url) == everything(filled.database_url)
    assert photos(target.photos) == photos(filled.photos) != {}


def test_nothing_is_restored_over_a_register_that_stands(filled, tmp_path):
    backups.into_file(filled, tmp_path / "yard.tar")
    before = everything(filled.database_url)

    with pytest.raises(Refused, match="stands in"):
        backups.restore(filled, tmp_path / "yard.tar")

    assert everything(filled.database_url) == before


def test_no_file_is_written_over(filled, tmp_path):
    (tmp_path / "yard.tar").write_text("somebody's")

    with pytest.raises(Refused, match="there already"):
        backups.into_file(filled, tmp_path / "yard.tar")

    assert (tmp_path / "yard.tar").read_text() == "somebody's"


@pytest.mark.parametrize("harm", ["torn", "no tar", "a lost row", "a changed photo"])
def test_a_copy_that_is_not_whole_is_refused_and_nothing_is_restored(filled, tmp_path, harm, request):
    path, target = tmp_path / "yard.tar", emptied(filled, tmp_path, request)
    backups.into_file(filled, path)
    if harm == "torn":
        path.write_bytes(path.read_bytes()[:6000])
    elif harm == "no tar":
        path.write_bytes(b"not a copy")
    else:
        spoil(path, tmp_path / "spoilt", harm, is_sqlite=filled.database_url.startswith("sqlite"))

    with pytest.raises(Refused):
        backups.restore(target, path)

    assert not (target.data / "register.sqlite").exists()


def spoil(path, folder, harm, *, is_sqlite):
    """Unpack, harm one thing, pack again."""
    with tarfile.open(path) as tar:
        tar.extractall(folder, filter="data")
    if harm == "a lost row" and is_sqlite:
        engine = create_engine(f"sqlite:///{folder / 'register.sqlite'}")
        with engine.begin() as connection:
            connection.execute(text("DELETE FROM gear_photo"))
        engine.dispose()
    else:
        next(path for path in folder.rglob("*.jpg") if "-small" not in path.name).write_bytes(b"another picture")
    with tarfile.open(path, "w") as tar:
        for file in folder.iterdir():
            tar.add(file, file.name)


def test_people_go_on_working_while_a_copy_is_made(filled):
    with transaction() as session:
        make_propeller(session)
        made = backups.make_copy(filled, filled.backups)

    assert made.tables["gear_item"] == 3
    look_over(made, filled.backups / "photos")


def test_what_was_broken_off_half_way_is_no_copy(filled):
    made = backups.make_copy(filled, filled.backups)
    shutil.copytree(made.folder, filled.backups / ".half.part")

    assert [copy.name for copy in copies_in(filled.backups)] == [made.name]


def test_one_copy_a_night_is_made_while_it_is_served(filled):
    first = backups.keep_copies(filled, now=NIGHT)
    again = backups.keep_copies(filled, now=NIGHT + timedelta(hours=5))
    next_night = backups.keep_copies(filled, now=NIGHT + timedelta(days=1))

    assert first is not None
    assert again is None
    assert next_night is not None


def made_on(days):
    moments = sorted((NIGHT - timedelta(days=day) for day in days), reverse=True)
    return [backups.Copy(Path(moment.isoformat()), moment, "register.sqlite", {}, 0, "0.1.0") for moment in moments]


def test_seven_daily_eight_weekly_and_twenty_four_monthly_copies_are_kept():
    copies = made_on(range(1000))

    names = kept(copies)

    assert {copy.name for copy in copies[:7]} <= names
    assert len({copy.made.strftime("%G-%V") for copy in copies if copy.name in names}) >= 8
    assert len({copy.made.strftime("%Y-%m") for copy in copies if copy.name in names}) == 24
    assert len(names) <= 7 + 8 + 24


def test_a_copy_is_due_when_two_in_the_morning_has_passed_without_one():
    now = datetime.now().astimezone().replace(hour=3, minute=0)

    assert is_due([], now)
    assert is_due(made_on_at(now - timedelta(hours=2)), now)
    assert not is_due(made_on_at(now - timedelta(minutes=30)), now)


def made_on_at(moment):
    return [backups.Copy(Path("a"), moment, "register.sqlite", {}, 0, "0.1.0")]


def test_old_copies_go_and_their_photos_stay(filled):
    for night in range(12):
        backups.keep_copies(filled, now=NIGHT + timedelta(days=night))

    left = copies_in(filled.backups)

    assert 7 <= len(left) <= 10
    assert len(photos(filled.backups / "photos")) == 2


def test_the_office_is_told_of_the_last_copy_and_loudly_when_it_is_old(app, filled):
    client = client_of(app, "Ada Brook", "office")
    none = client.get("/people/yard").text
    backups.make_copy(filled, filled.backups, at=datetime.now(UTC) - timedelta(days=3))
    old = client.get("/people/yard").text
    backups.make_copy(filled, filled.backups)

    assert "No copy of the register" in none
    assert "more than two days ago" in old
    assert "opened and counted" in client.get("/people/yard").text
    assert db.Register.engine is not None
