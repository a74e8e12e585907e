"""Photos: judged, turned upright, stripped of where and with what they were taken, kept under their own SHA-256."""

import hashlib
import io
import os
import tempfile
import warnings
from dataclasses import dataclass
from pathlib import Path
from typing import BinaryIO

from PIL import Image, ImageOps, UnidentifiedImageError
from sqlalchemy import select
from sqlalchemy.orm import Session

from yardapp.db import now
from yardapp.errors import NotFound, Refused
from yardapp.gear.models import Item, Photo
from yardapp.gear.services.items import seen_by
from yardapp.people.services import Who

LARGEST_FILE = 40 * 1024 * 1024
LARGEST_PICTURE = 60_000_000  # pixels; a phone of today takes 50 million at most
LONG_SIDE = 2000
THUMBNAIL = 360
FORMATS = ("JPEG", "PNG", "WEBP")


@dataclass(frozen=True)
class Picture:
    """A picture that lies in the data folder already, though no item may claim it yet."""

    sha256: str
    width: int
    height: int


def path_of(folder: Path, sha256: str, *, small: bool = False) -> Path:
    """Where a picture, or its thumbnail, lies in the photo folder."""
    return folder / sha256[:2] / f"{sha256}{'-small' if small else ''}.jpg"


def keep_picture(folder: Path, file: BinaryIO) -> Picture:
    """Judge a picture and keep it. A file on disk without an item is harmless: the register decides what counts.

    Raises
    ------
    Refused
        It is too large, no picture, of a kind that can't be read here, or a bomb.
    """
    raw = file.read(LARGEST_FILE + 1)
    if len(raw) > LARGEST_FILE:
        raise Refused("That photo is over 40 MB. Take a smaller one; a phone's usual setting will do.", "photo")
    image = _opened(raw)
    large, small = _written(image, LONG_SIDE), _written(image, THUMBNAIL)
    sha256 = hashlib.sha256(large[0]).hexdigest()
    put_file(path_of(folder, sha256), large[0])
    put_file(path_of(folder, sha256, small=True), small[0])
    return Picture(sha256, *large[1])


def _opened(raw: bytes) -> Image.Image:
    formats = _known_formats()
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("error", Image.DecompressionBombWarning)
            image = Image.open(io.BytesIO(raw), formats=formats)
            if image.width * image.height > LARGEST_PICTURE:
                raise Image.DecompressionBombError
            image.thumbnail((LONG_SIDE, LONG_SIDE))  # first: turning a small picture is cheap
            upright = ImageOps.exif_transpose(image).convert("RGB")
    except (Image.DecompressionBombError, Image.DecompressionBombWarning):
        raise Refused("That picture claims more than 60 million pixels. It was not opened.", "photo") from None
    except (UnidentifiedImageError, OSError, ValueError, SyntaxError, EOFError):
        raise Refused(f"That file is no photo that can be read here. {_in_words(formats)} will do.", "photo") from None
    # Only the points are carried over: position, camera and every other note stay behind.
    return Image.frombytes("RGB", upright.size, upright.tobytes())


def _known_formats() -> tuple[str, ...]:
    """What can be read here; HEIC, which some phones take, only where its own library is installed."""
    try:
        from pillow_heif import register_heif_opener
    except ImportError:
        return FORMATS
    register_heif_opener()
    return (*FORMATS, "HEIF")


def _in_words(formats: tuple[str, ...]) -> str:
    names = {"WEBP": "WebP", "HEIF": "HEIC"}
    *first, last = (names.get(one, one) for one in formats)
    return f"{', '.join(first)} or {last}"


def _written(image: Image.Image, long_side: int) -> tuple[bytes, tuple[int, int]]:
    copy = image.copy()
    copy.thumbnail((long_side, long_side))
    buffer = io.BytesIO()
    copy.save(buffer, "JPEG", quality=85, optimize=True)
    return buffer.getvalue(), copy.size


def put_file(path: Path, content: bytes) -> None:
    """Whole or not at all: written beside its name, then moved onto it."""
    if path.exists():
        return
    path.parent.mkdir(parents=True, exist_ok=True)
    with tempfile.NamedTemporaryFile(dir=path.parent, delete=False) as file:
        file.write(content)
        file.flush()
        os.fsync(file.fileno())
    os.replace(file.name, path)


def kept_picture(folder: Path, sha256: str) -> Picture | None:
    """The picture that an earlier try of the same form brought along, if it is really there."""
    if len(sha256) != 64 or not sha256.isalnum() or not path_of(folder, sha256).exists():
        return None
    with Image.open(path_of(folder, sha256)) as image:
        return Picture(sha256, *image.size)


def must_see_photo(session: Session, who: Who, sha256: str) -> None:
    """Refuse a picture of which this person may see no item. A picture not yet on any item is its bringer's own.

    Raises
    ------
    NotFound
        Every item that it shows is out of this person's sight.
    """
    shown = session.scalars(select(Photo.item_id).where(Photo.sha256 == sha256)).all()
    if shown and session.scalar(select(Item.id).where(Item.id.in_(shown), seen_by(who)).limit(1)) is None:
        raise NotFound("There is no such photo here.")


def attach_photo(session: Session, who: Who, item: Item, picture: Picture, caption: str = "") -> Photo:
    """Put a kept picture on an item's page.

    Raises
    ------
    NotAllowed
        Only yard hands and the office add photos; an owner may, to what they propose.
    """
    if not (item.is_proposed and item.logged_by == who.person_id):
        who.must("record")
    photo = Photo(
        item_id=item.id,
        sha256=picture.sha256,
        width=picture.width,
        height=picture.height,
        at=now(),
        said_by=who.name,
        first_caption=caption[:120],
    )
    session.add(photo)
    session.flush()  # the answer may name its number
    return photo
