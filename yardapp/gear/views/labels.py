"""Labels with tag and QR code: one to look at, sheets and rolls to print, and blank tags beforehand."""

from collections.abc import Sequence

from flask import Response, current_app, request, url_for
from flask.typing import ResponseReturnValue

from yardapp.errors import NotFound, Refused
from yardapp.gear import services, showing
from yardapp.gear.codes import code_of, squares_of
from yardapp.gear.label_forms import BlankTagsForm, PaperForm, SheetForm
from yardapp.gear.label_stocks import STOCKS
from yardapp.gear.views import bp
from yardapp.gear.views.finding import address_of
from yardapp.pdf.label import Label, labelled
from yardapp.web import current_who, filled, kept, page, refused, saving, snapshot


def _address(tag: str) -> str:
    return url_for("gear.tag", tag=tag, _external=True)


def _to_print(tags: str) -> str:
    return url_for("gear.labels", tags=tags)


@bp.get("/items/<tag>/label")
def label(tag: str) -> ResponseReturnValue:
    """One label: tag, size, QR code of the short address."""
    with snapshot() as opened:
        item = services.item_by_tag(opened, current_who(), tag)
    address = _address(item.tag)
    return page(
        "gear/label.html",
        item=item,
        code=code_of(address),
        address=address,
        yard=current_app.config["YARD"],
        back=address_of(item.tag),
    )


@bp.get("/labels")
def labels() -> ResponseReturnValue:
    """Which tags, on which paper, from which position; and the blank tags that wait."""
    who, form = current_who(), filled(SheetForm)
    form.process(request.args or None)
    form.tags.errors = ()
    with snapshot() as opened:
        free = services.free_tags(opened, who)
    return page("gear/labels.html", form=form, blank=filled(BlankTagsForm), free=showing.blank_rows(free, _to_print))


@bp.post("/labels")
def reserve_tags() -> ResponseReturnValue:
    """Take tags from the counter, to be printed now and bound later."""
    form = filled(BlankTagsForm)
    if form.validate():
        with saving(form) as act:
            tags = services.reserve_tags(act.session, act.who, kind=form.kind.data or "", count=form.count.data or 0)
            span = f"{tags[0]} to {tags[-1]}" if len(tags) > 1 else tags[0]
            act.goes_to(url_for("gear.labels", tags=span), f"{span}: yours to print.")
        if act.answer:
            return kept(act)
    with snapshot() as opened:
        free = services.free_tags(opened, current_who())
    sheet = filled(SheetForm, blank=True)
    return refused("gear/labels.html", sheet, blank=form, free=showing.blank_rows(free, _to_print))


@bp.get("/labels.pdf")
def label_sheet() -> ResponseReturnValue:
    """The labels as a file, each exactly where the paper is cut."""
    who, form = current_who(), filled(SheetForm)
    form.process(request.args)
    if form.validate():
        try:
            tags = services.tags_in(form.tags.data or "")
            with snapshot() as opened:
                found = services.labels_of(opened, who, tags)
        except (Refused, NotFound) as refusal:
            form.tell(refusal if isinstance(refusal, Refused) else Refused(str(refusal), "tags"))
        else:
            return _printed(found, form)
    with snapshot() as opened:
        free = services.free_tags(opened, who)
    shown = {"blank": filled(BlankTagsForm, blank=True), "free": showing.blank_rows(free, _to_print)}
    return page("gear/labels.html", form=form, **shown), 422


def _printed(found: list[services.Labelled], form: SheetForm) -> Response:
    yard = current_app.config["YARD"]
    at = [(one, _address(one.tag)) for one in found]
    return sheet_of([(one.tag, showing.label_lines(one, yard, address), address) for one, address in at], form)


def sheet_of(said: Sequence[tuple[str, tuple[str, ...], str]], form: PaperForm) -> Response:
    """A file of labels, each with its large word, its lines and the address in its code, on the paper of the form."""
    stock = STOCKS[form.stock.data]
    right_m, down_m = ((box.data or 0.0) / 1000 for box in (form.right_mm, form.down_mm))
    placed = [
        Label(word, lines, squares_of(address), at.page, at.left_m + right_m, at.top_m + down_m)
        for number, (word, lines, address) in enumerate(said)
        for at in [stock.place(number, start=form.start.data or 1)]
    ]
    written = labelled("Labels", stock.page_m, (stock.width_m, stock.height_m), placed)
    headers = {"Content-Disposition": 'inline; filename="labels.pdf"'}
    return Response(written, mimetype="application/pdf", headers=headers)
