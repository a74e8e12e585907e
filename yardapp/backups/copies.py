"""One copy of the whole register: the database, every photo, and a list of what is in it."""

import hashlib
import json
import os
import shutil
from dataclasses import asdict, dataclass
from datetime import UTC, datetime
from pathlib import Path

import yardapp
from yardapp.backups.databases import SQLITE, copy_database, counted
from yardapp.config import Settings
from yardapp.errors import Refused

LIST = "copy.json"
PHOTOS = "photos"


@dataclass(frozen=True)
class Copy:
    """A copy that was opened and counted; `folder` holds it."""

    folder: Path
    made: datetime
    database: str
    tables: dict[str, int]
    photos: int
    version: str

    @property
    def name(self) -> str:
        """Its folder's name: the moment it was made."""
        return self.folder.name


def make_copy(settings: Settings, home: Path, *, at: datetime | None = None, why: str = "") -> Copy:
    """Copy the register into a new folder of `home`, look it over, and only then give it its name.

    Photos lie once in `home/photos`, whatever the number of copies: they never change.

    Raises
    ------
    Refused
        The copy is not sound.
    """
    at = at or datetime.now(UTC)
    name = at.strftime("%Y-%m-%dT%H%M%SZ") + (f"-{why}" if why else "")
    working = home / f".{name}.part"
    shutil.rmtree(working, ignore_errors=True)
    working.mkdir(parents=True)
    database, rows = copy_database(settings.database_url, working)
    photos = _copy_photos(settings.photos, home / PHOTOS)
    (working / "photos.txt").write_text("".join(f"{name}\n" for name in photos))
    made = Copy(home / name, at, database.name, rows, len(photos), yardapp.__version__)
    _write_list(working, made)
    os.replace(working, made.folder)
    return made


def _copy_photos(source: Path, target: Path) -> list[str]:
    """Every picture and document, hard-linked where the disk allows; a name that is there already is the same file."""
    kept = [path for path in source.rglob("*") if path.suffix in (".jpg", ".pdf")] if source.exists() else []
    names = sorted(str(path.relative_to(source)) for path in kept)
    for name in names:
        copied = target / name
        if not copied.exists():
            copied.parent.mkdir(parents=True, exist_ok=True)
            _link_or_copy(source / name, copied)
    return names


def _link_or_copy(source: Path, target: Path) -> None:
    try:
        os.link(source, target)
    except OSError:
        part = target.with_suffix(".part")
        shutil.copyfile(source, part)
        os.replace(part, target)


def _write_list(folder: Path, made: Copy) -> None:
    said = {**asdict(made), "folder": made.folder.name, "made": made.made.isoformat()}
    (folder / LIST).write_text(json.dumps(said, indent=1))


def read_copy(folder: Path) -> Copy:
    """The copy in `folder`, as its list says.

    Raises
    ------
    Refused
        There is none, or its list can't be read.
    """
    try:
        said = json.loads((folder / LIST).read_text())
        return Copy(
            folder=folder,
            made=datetime.fromisoformat(said["made"]),
            database=said["database"],
            tables=said["tables"],
            photos=said["photos"],
            version=said["version"],
        )
    except (OSError, ValueError, KeyError) as fault:
        raise Refused(f"{folder} holds no copy of a register.") from fault


def copies_in(home: Path) -> list[Copy]:
    """Every whole copy in `home`, newest first. What was broken off half-way has no name yet, and is left out."""
    folders = [path.parent for path in home.glob(f"*/{LIST}") if not path.parent.name.startswith(".")]
    return sorted((read_copy(folder) for folder in folders), key=lambda copy: copy.made, reverse=True)


def newest_good(home: Path) -> Copy | None:
    """The newest copy, or None."""
    found = copies_in(home)
    return found[0] if found else None


def look_over(copy: Copy, photos: Path) -> None:
    """Open a copy again, count it, and check every photo against its name.

    Raises
    ------
    Refused
        A table has lost or won rows, or a photo is missing or changed.
    """
    if copy.database == SQLITE and counted(copy.folder / SQLITE) != copy.tables:
        raise Refused(f"The copy {copy.name} no longer holds what its list says.")
    for name in (copy.folder / "photos.txt").read_text().splitlines():
        path = photos / name
        if not path.exists():
            raise Refused(f"The photo {name} is missing from the copy {copy.name}.")
        sha256 = path.stem.removesuffix("-small")
        if path.stem == sha256 and hashlib.sha256(path.read_bytes()).hexdigest() != sha256:
            raise Refused(f"The photo {name} in the copy {copy.name} is not what its name says.")
