"""The sheet for bore, keyway and hub."""

from flask.typing import ResponseReturnValue

from yardapp.bench.views import bp, measuring


@bp.get("/<tag>/bore")
def bore_sheet(tag: str) -> ResponseReturnValue:
    """An empty sheet."""
    return measuring.sheet_page("bore", tag)


@bp.post("/<tag>/bore")
def measure_bore(tag: str) -> ResponseReturnValue:
    """Keep it."""
    return measuring.measure("bore", tag)


@bp.post("/<tag>/bore/preview")
def preview_bore(tag: str) -> ResponseReturnValue:
    """What it says so far."""
    return measuring.preview("bore", tag)
