"""The stylesheets of all parts as one file: on a weak network forty small answers take far longer than one."""

import re
from functools import lru_cache
from pathlib import Path

from flask import Flask, Response

_IMPORT = re.compile(r'@import url\("(?P<name>[\w./-]+)"\) layer\((?P<layer>\w+)\);')
_ADDRESS = re.compile(r'url\("(?!data:|/|#)(?P<name>[^"]+)"\)')


def serve_one_sheet(app: Flask) -> None:
    """Answer for it among the static files, so that what it points at is found from where it lies."""

    def stylesheet() -> Response:
        answer = Response(one_sheet(Path(app.static_folder or "") / "css"), mimetype="text/css")
        answer.headers["Cache-Control"] = "public, max-age=31536000, immutable"
        return answer

    app.add_url_rule(f"{app.static_url_path}/css/all.css", "stylesheet", stylesheet)


@lru_cache(maxsize=1)
def one_sheet(folder: Path) -> str:
    """`main.css` with each sheet that it imports in its place, inside the layer that it names."""
    main = (folder / "main.css").read_text()
    return _IMPORT.sub(lambda found: _in_layer(folder, found["name"], found["layer"]), main)


def _in_layer(folder: Path, name: str, layer: str) -> str:
    """One sheet, wrapped; what it points at is named from where `main.css` lies."""
    home = Path(name).parent
    text = _ADDRESS.sub(lambda found: f'url("{(home / found["name"]).as_posix()}")', (folder / name).read_text())
    return f"@layer {layer} {{\n{text}}}"
