"""The front of the house: the first page, a sign of life, what a size box understood, and the sheet of parts."""

from typing import Any, get_args

from flask import Blueprint, redirect, render_template, request, url_for
from flask.typing import ResponseReturnValue
from wtforms import RadioField, StringField, TextAreaField
from wtforms.validators import InputRequired

from yardapp import handbook, quantities
from yardapp.drawings.hand import hand_picture
from yardapp.fields import LengthField
from yardapp.forms import YardForm, options
from yardapp.web import filled, page

bp = Blueprint("front", __name__)


@bp.get("/")
def first_page() -> ResponseReturnValue:
    """The rack: what most people come for."""
    return redirect(url_for("gear.rack"))


@bp.get("/alive")
def alive() -> ResponseReturnValue:
    """A sign of life for a phone behind a steel hull; asks nothing of the register."""
    return "", 204


@bp.get("/sizes/understood")
def understood() -> ResponseReturnValue:
    """What a size box understood of what stands in it, in both systems."""
    kind: Any
    text, kind = request.args.get("text", "")[:200], request.args.get("kind", "length")
    if not text.strip() or kind not in get_args(quantities.Kind):
        return ""
    try:
        read = quantities.read(text, kind, assume=request.args.get("assume") or None)
    except quantities.Unreadable as unread:
        return render_template("yard/understood.html", said=unread.said, is_wrong=True)
    return render_template("yard/understood.html", said=quantities.both(read.value, kind), why=read.why, is_wrong=False)


class PartsForm(YardForm):
    """One box of each kind, for the sheet of parts."""

    place = StringField("Where put", [InputRequired("Where was it put?")])
    diameter_m = LengthField("Diameter", default_unit="in")
    hand = RadioField("Hand", choices=options([("right", "Right hand"), ("left", "Left hand")]))
    note = TextAreaField("Note")


@bp.get("/yard/parts")
def parts() -> ResponseReturnValue:
    """Every part in every state."""
    pictures = {hand: hand_picture(hand) for hand in ("right", "left")}
    return render_template("yard/parts.html", form=filled(PartsForm), pictures=pictures)


@bp.get("/how")
def formulas() -> ResponseReturnValue:
    """How it is worked out: every formula, by subject."""
    return page("yard/formulas.html", contents=handbook.contents())


@bp.get("/how/<name>")
def formula(name: str) -> ResponseReturnValue:
    """One formula: relation, range, source, and the published figures it is held to."""
    return page("yard/formula.html", entry=handbook.entry(name))
