"""The sheet for blades that should be alike."""

from flask.typing import ResponseReturnValue

from yardapp.bench.views import bp, measuring


@bp.get("/<tag>/alike")
def alike_sheet(tag: str) -> ResponseReturnValue:
    """An empty sheet."""
    return measuring.sheet_page("alike", tag)


@bp.post("/<tag>/alike")
def measure_alike(tag: str) -> ResponseReturnValue:
    """Keep it."""
    return measuring.measure("alike", tag)


@bp.post("/<tag>/alike/preview")
def preview_alike(tag: str) -> ResponseReturnValue:
    """What it says so far."""
    return measuring.preview("alike", tag)
