"""The front of the house: the first page, a sign of life, what a size box understood, and the sheet of parts."""

from flask import Blueprint, redirect, render_template, request, url_for
from flask.typing import ResponseReturnValue
from werkzeug.datastructures import MultiDict
from wtforms import RadioField, StringField, TextAreaField
from wtforms.validators import InputRequired

from yardapp import handbook, quantities
from yardapp.drawings.examples import every_drawing
from yardapp.drawings.hand import hand_picture
from yardapp.fields import LengthField, QuantityField
from yardapp.forms import YardForm, options
from yardapp.quantities import units
from yardapp.repeats import REPEATED
from yardapp.web import current_who, filled, page

bp = Blueprint("front", __name__)
BOXES: dict[str, type[QuantityField]] = {box.kind: box for box in QuantityField.__subclasses__()} | REPEATED


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
    """What a size box understood of what stands in it, in both systems, and how it would read in the other unit."""
    text, kind = request.args.get("text", "")[:400], request.args.get("kind", "length")
    if not text.strip() or kind not in BOXES:
        return ""
    who, assume = current_who(), request.args.get("assume") or None
    if assume is not None and units.find(BOXES[kind].kind, assume) is None:
        return ""
    box = BOXES[kind](default_unit=assume).bind(filled(YardForm), "box")
    box.process(MultiDict({"box": text}))
    other = box.other_reading
    return render_template(
        "yard/understood.html",
        wrong=" ".join(box.process_errors),
        said=box.understood,
        why=box.reading.why if box.reading else "",
        other=quantities.exact_in(other.value, other.kind, other.unit) if other else "",
        other_said=quantities.both(other.value, other.kind, who.units) if other else "",
    )


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
    wrong = filled(PartsForm, prefix="wrong-")
    wrong.validate()
    return page("yard/parts.html", form=filled(PartsForm), wrong=wrong, pictures=pictures, drawings=every_drawing())


@bp.get("/how")
def formulas() -> ResponseReturnValue:
    """How it is worked out: every formula, by subject."""
    return page("yard/formulas.html", contents=handbook.contents())


@bp.get("/how/<name>")
def formula(name: str) -> ResponseReturnValue:
    """One formula: relation, range, source, and the published figures it is held to."""
    return page("yard/formula.html", entry=handbook.entry(name))
