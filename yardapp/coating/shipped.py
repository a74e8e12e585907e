"""The systems that come with yardapp: invented figures, to try the pages with and to copy from."""

import json
from functools import cache
from pathlib import Path

from yardapp.coating.exchange import from_json
from yardapp.coating.system import System

FOLDER = Path(__file__).parent / "systems"


@cache
def shipped() -> tuple[System, ...]:
    """Each shipped system, the generic bronze sequence first."""
    return tuple(from_json(json.loads(path.read_text("utf-8"))) for path in sorted(FOLDER.glob("*.json")))
