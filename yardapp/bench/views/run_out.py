"""The sheet for straightness of a shaft."""

from flask.typing import ResponseReturnValue

from yardapp.bench.views import bp, measuring


@bp.get("/<tag>/run-out")
def run_out_sheet(tag: str) -> ResponseReturnValue:
    """An empty sheet."""
    return measuring.sheet_page("run_out", tag)


@bp.post("/<tag>/run-out")
def measure_run_out(tag: str) -> ResponseReturnValue:
    """Keep it."""
    return measuring.measure("run_out", tag)


@bp.post("/<tag>/run-out/preview")
def preview_run_out(tag: str) -> ResponseReturnValue:
    """What it says so far."""
    return measuring.preview("run_out", tag)
