"""The register of a yard's propellers and shafts."""

from __future__ import annotations

from datetime import timedelta
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from flask import Flask

    from yardapp.config import Settings

__version__ = "0.1.0"


def create_app(settings: Settings | None = None) -> Flask:
    """The web app over one register, plugged together in reading order."""
    from flask import Flask

    from yardapp import config, filters, gate, stylesheet
    from yardapp.paths import ROOT

    settings = settings or config.load()
    app = Flask(
        __name__,
        template_folder=str(ROOT / "templates"),
        static_folder=str(ROOT / "static"),
        static_url_path=f"/static/{_edition(ROOT / 'static')}",
    )
    settle(app, settings)
    stylesheet.serve_one_sheet(app)
    filters.register(app)
    gate.guard(app)
    _open_rooms(app)
    return app


def settle(app: Flask, settings: Settings) -> None:
    """Give the app its yard: register, folders, key."""
    from yardapp import db

    app.secret_key = settings.secret_key
    app.config.update(
        MAX_CONTENT_LENGTH=50 * 1024 * 1024,
        MAX_FORM_MEMORY_SIZE=2 * 1024 * 1024,
        PERMANENT_SESSION_LIFETIME=timedelta(days=365),
        BACKUPS=Path(settings.backups),
        PHOTOS=Path(settings.photos),
        SESSION_COOKIE_HTTPONLY=True,
        SESSION_COOKIE_NAME="yardapp",
        SESSION_COOKIE_SAMESITE="Lax",
        SESSION_COOKIE_SECURE=settings.is_https,
        SESSION_REFRESH_EACH_REQUEST=False,  # the gate renews it once a day
        YARD=settings.yard,
    )
    db.open_register(settings.database_url)


def _edition(folder: Path) -> str:
    """A word that changes with any static file: phones keep those for a year, but never past an upgrade."""
    newest = max((path.stat().st_mtime_ns for path in folder.rglob("*") if path.is_file()), default=0)
    return f"{__version__}-{newest // 1_000_000_000:x}"


def _open_rooms(app: Flask) -> None:
    """Each room's pages, and the API beside them."""
    from yardapp.rooms import ROOMS

    for blueprint in ROOMS:
        app.register_blueprint(blueprint)
