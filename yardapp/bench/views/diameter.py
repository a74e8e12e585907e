"""The sheet for diameter."""

from flask.typing import ResponseReturnValue

from yardapp.bench.views import bp, measuring


@bp.get("/<tag>/diameter")
def diameter_sheet(tag: str) -> ResponseReturnValue:
    """An empty sheet."""
    return measuring.sheet_page("diameter", tag)


@bp.post("/<tag>/diameter")
def measure_diameter(tag: str) -> ResponseReturnValue:
    """Keep it."""
    return measuring.measure("diameter", tag)


@bp.post("/<tag>/diameter/preview")
def preview_diameter(tag: str) -> ResponseReturnValue:
    """What it says so far."""
    return measuring.preview("diameter", tag)
