"""A copy as one file, to carry away."""

import tarfile
import tempfile
from pathlib import Path

from yardapp.backups.copies import LIST, PHOTOS, Copy, make_copy, read_copy
from yardapp.config import Settings
from yardapp.errors import Refused


def into_file(settings: Settings, path: Path) -> Copy:
    """Copy the register, photos and all, into one new file.

    Raises
    ------
    Refused
        A file of that name is there already, or the copy is not sound.
    """
    if path.exists():
        raise Refused(f"{path} is there already. Nothing was written over; name another file.")
    with tempfile.TemporaryDirectory(dir=path.resolve().parent, prefix=".copy-") as scratch:
        made = make_copy(settings, Path(scratch))
        part = Path(scratch) / "copy.tar"
        with tarfile.open(part, "w") as tar:
            for file in sorted(made.folder.iterdir()):
                tar.add(file, file.name)
            if (Path(scratch) / PHOTOS).exists():
                tar.add(Path(scratch) / PHOTOS, PHOTOS)
        part.replace(path)
    return made


def out_of_file(path: Path, folder: Path) -> Copy:
    """Unpack a copy's file into `folder`.

    Raises
    ------
    Refused
        It is no copy, or torn.
    """
    try:
        with tarfile.open(path) as tar:
            tar.extractall(folder, filter="data")
    except (OSError, tarfile.TarError) as fault:
        raise Refused(f"{path} is no copy of a register, or it is torn: {fault}") from fault
    if not (folder / LIST).exists():
        raise Refused(f"{path} is no copy of a register.")
    return read_copy(folder)
