"""The sheet for a shaft's end."""

from flask.typing import ResponseReturnValue

from yardapp.bench.views import bp, measuring


@bp.get("/<tag>/shaft-end")
def shaft_end_sheet(tag: str) -> ResponseReturnValue:
    """An empty sheet."""
    return measuring.sheet_page("shaft_end", tag)


@bp.post("/<tag>/shaft-end")
def measure_shaft_end(tag: str) -> ResponseReturnValue:
    """Keep it."""
    return measuring.measure("shaft_end", tag)


@bp.post("/<tag>/shaft-end/preview")
def preview_shaft_end(tag: str) -> ResponseReturnValue:
    """What it says so far."""
    return measuring.preview("shaft_end", tag)
