"""The label with the tag and its QR code, to print and tie on."""

import segno
from flask import current_app, url_for
from flask.typing import ResponseReturnValue
from markupsafe import Markup

from yardapp.gear import services, showing
from yardapp.gear.views import bp
from yardapp.gear.views.finding import address_of
from yardapp.web import current_who, page, snapshot


@bp.get("/items/<tag>/label")
def label(tag: str) -> ResponseReturnValue:
    """One label: tag, size, QR code of the short address."""
    who = current_who()
    with snapshot() as opened:
        found = services.item_page(opened, who, tag)
    address = url_for("gear.tag", tag=found.item.tag, _external=True)
    # A dirty label still reads with a fifth of it gone: level Q.
    drawn = segno.make(address, error="q", micro=False).svg_inline(
        scale=6, border=4, svgclass="label-code", lineclass=None, omitsize=True
    )
    rows = showing.figure_rows(found, who.units, lambda _what: "", lambda _what: None)
    return page(
        "gear/label.html",
        item=found.item,
        code=Markup(drawn),
        address=address,
        rows=rows,
        yard=current_app.config["YARD"],
        back=address_of(found.item.tag),
    )
