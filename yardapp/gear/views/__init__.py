"""Pages of the gear: log, rack, search, each item, labels, photos."""

from flask import Blueprint

bp = Blueprint("gear", __name__)

from yardapp.gear.views import (  # noqa: E402
    bin_labels,
    crossed,
    finding,
    item,
    labels,
    logging,
    lookalikes,
    moving,
    parts,
    photo_marks,
    photos,
    places,
    sets,
    statements,
    tags,
    timelines,
    twice,
    working,
)

__all__ = [
    "bin_labels",
    "bp",
    "crossed",
    "finding",
    "item",
    "labels",
    "logging",
    "lookalikes",
    "moving",
    "parts",
    "photo_marks",
    "photos",
    "places",
    "sets",
    "statements",
    "tags",
    "timelines",
    "twice",
    "working",
]
