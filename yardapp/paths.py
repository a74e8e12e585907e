"""Where the pages, the static files and the migrations lie: beside the package, or inside a built wheel."""

from pathlib import Path

PACKAGE = Path(__file__).resolve().parent
BUNDLED = PACKAGE / "_assets"  # only in a built wheel
ROOT = BUNDLED if BUNDLED.is_dir() else PACKAGE.parent
