"""The sheet for pitch of one blade."""

from flask.typing import ResponseReturnValue

from yardapp.bench.views import bp, measuring


@bp.get("/<tag>/pitch")
def pitch_sheet(tag: str) -> ResponseReturnValue:
    """An empty sheet."""
    return measuring.sheet_page("pitch", tag)


@bp.post("/<tag>/pitch")
def measure_pitch(tag: str) -> ResponseReturnValue:
    """Keep it."""
    return measuring.measure("pitch", tag)


@bp.post("/<tag>/pitch/preview")
def preview_pitch(tag: str) -> ResponseReturnValue:
    """What it says so far."""
    return measuring.preview("pitch", tag)
