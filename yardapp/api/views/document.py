"""The document itself, for programs and for people; neither needs a token."""

from flask import Response, jsonify, render_template, request

from yardapp.api.door import ROUTES, bp
from yardapp.api.openapi import document
from yardapp.api.reading import chapters, shapes


@bp.get("/openapi.json")
def openapi() -> Response:
    """The document, for programs."""
    return jsonify(document())


@bp.get("/docs")
def docs() -> str:
    """The document, for people."""
    said = document()
    return render_template(
        "api/docs.html",
        chapters=chapters(ROUTES, said),
        shapes=shapes(said),
        about=said["info"]["description"],
        here=request.host_url.rstrip("/"),
    )
