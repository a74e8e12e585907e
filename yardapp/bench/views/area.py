"""The sheet for the area of the blades."""

from flask.typing import ResponseReturnValue

from yardapp.bench.views import bp, measuring


@bp.get("/<tag>/area")
def area_sheet(tag: str) -> ResponseReturnValue:
    """An empty sheet."""
    return measuring.sheet_page("area", tag)


@bp.post("/<tag>/area")
def measure_area(tag: str) -> ResponseReturnValue:
    """Keep it."""
    return measuring.measure("area", tag)


@bp.post("/<tag>/area/preview")
def preview_area(tag: str) -> ResponseReturnValue:
    """What it says so far."""
    return measuring.preview("area", tag)
