"""The sheet for wear along a shaft."""

from flask.typing import ResponseReturnValue

from yardapp.bench.views import bp, measuring


@bp.get("/<tag>/wear")
def wear_sheet(tag: str) -> ResponseReturnValue:
    """An empty sheet."""
    return measuring.sheet_page("wear", tag)


@bp.post("/<tag>/wear")
def measure_wear(tag: str) -> ResponseReturnValue:
    """Keep it."""
    return measuring.measure("wear", tag)


@bp.post("/<tag>/wear/preview")
def preview_wear(tag: str) -> ResponseReturnValue:
    """What it says so far."""
    return measuring.preview("wear", tag)
