"""Pages of the gear: log, rack, search, each item, labels, photos."""

from flask import Blueprint

bp = Blueprint("gear", __name__)

from yardapp.gear.views import (  # noqa: E402
    finding,
    item,
    labels,
    logging,
    moving,
    parts,
    photos,
    places,
    sets,
    statements,
    tags,
    working,
)

__all__ = [
    "bp",
    "finding",
    "item",
    "labels",
    "logging",
    "moving",
    "parts",
    "photos",
    "places",
    "sets",
    "statements",
    "tags",
    "working",
]
