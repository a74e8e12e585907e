"""The sheet for play of a shaft in its bearing."""

from flask.typing import ResponseReturnValue

from yardapp.bench.views import bp, measuring


@bp.get("/<tag>/bearing")
def bearing_sheet(tag: str) -> ResponseReturnValue:
    """An empty sheet."""
    return measuring.sheet_page("bearing", tag)


@bp.post("/<tag>/bearing")
def measure_bearing(tag: str) -> ResponseReturnValue:
    """Keep it."""
    return measuring.measure("bearing", tag)


@bp.post("/<tag>/bearing/preview")
def preview_bearing(tag: str) -> ResponseReturnValue:
    """What it says so far."""
    return measuring.preview("bearing", tag)
