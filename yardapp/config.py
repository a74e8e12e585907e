"""Settings: from the environment, then from `yardapp.toml` in the data folder, then as shipped."""

import os
import secrets
import tomllib
from dataclasses import dataclass
from pathlib import Path
from typing import Any


@dataclass(frozen=True, kw_only=True)
class Settings:
    """What one running yardapp needs to know."""

    data: Path
    database_url: str
    secret_key: str
    yard: str = "The yard"
    port: int = 8480
    is_https: bool = False
    backups_at: Path | None = None

    @property
    def backups(self) -> Path:
        """The folder of copies: another disk where one is named, else beside the register."""
        return self.backups_at or self.data / "backups"

    @property
    def photos(self) -> Path:
        """The folder of content-addressed photos."""
        return self.data / "photos"


def load(data: Path | str | None = None) -> Settings:
    """Settings for the data folder `data`, which is made when it is not there."""
    folder = Path(data or os.environ.get("YARDAPP_DATA") or "./yard-data").resolve()
    folder.mkdir(parents=True, exist_ok=True)
    written = _written(folder / "yardapp.toml")
    return Settings(
        data=folder,
        database_url=os.environ.get("YARDAPP_DATABASE_URL") or written.get("database_url") or _sqlite(folder),
        secret_key=os.environ.get("YARDAPP_SECRET_KEY") or _secret(folder / "secret.key"),
        yard=str(os.environ.get("YARDAPP_YARD") or written.get("yard") or Settings.yard),
        port=int(os.environ.get("YARDAPP_PORT") or written.get("port") or Settings.port),
        is_https=bool(os.environ.get("YARDAPP_HTTPS") or written.get("https")),
        backups_at=_folder(os.environ.get("YARDAPP_BACKUPS") or written.get("backups")),
    )


def _folder(named: str | None) -> Path | None:
    return Path(named).resolve() if named else None


def _sqlite(folder: Path) -> str:
    return f"sqlite:///{folder / 'register.sqlite'}"


def _written(path: Path) -> dict[str, Any]:
    return tomllib.loads(path.read_text()) if path.exists() else {}


def _secret(path: Path) -> str:
    """The key that signs cookies: made once, readable by the server's own account alone."""
    try:
        handle = os.open(path, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600)
    except FileExistsError:
        return path.read_text().strip()
    with os.fdopen(handle, "w") as file:
        key = secrets.token_hex(32)
        file.write(key)
    return key
