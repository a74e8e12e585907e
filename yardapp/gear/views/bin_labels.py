"""Labels for bins: to look at, and as a file for cut paper."""

from collections.abc import Sequence

from flask import Response, current_app, request, url_for

from yardapp.gear import services, showing
from yardapp.gear.codes import code_of
from yardapp.gear.label_forms import PaperForm
from yardapp.gear.views import bp
from yardapp.gear.views.labels import sheet_of
from yardapp.web import current_who, filled, page, snapshot


def _bins(rack: str) -> Sequence[services.BinRow]:
    with snapshot() as opened:
        return services.rack_map(opened, current_who(), rack=rack)


def _rack() -> str:
    return request.args.get("rack", "")[:40]


def _address(bin_id: int) -> str:
    return url_for("gear.bin_label", bin_id=bin_id, _external=True)


def _labels_page(form: PaperForm) -> str:
    found = [(one, _address(one.id)) for one in _bins(_rack())]
    labels = [{"bin": one, "address": address, "code": code_of(address)} for one, address in found]
    return page("gear/bin_labels.html", form=form, labels=labels, rack=_rack(), yard=current_app.config["YARD"])


@bp.get("/rack/labels")
def bin_labels() -> str:
    """A label for each bin of a rack, or of all."""
    return _labels_page(filled(PaperForm))


@bp.get("/rack/labels.pdf")
def bin_label_sheet() -> Response | tuple[str, int]:
    """The same labels, each exactly where the paper is cut."""
    form = filled(PaperForm)
    form.process(request.args)
    found = _bins(_rack()) if form.validate() else []
    if not found:
        return _labels_page(form), 422
    return sheet_of([showing.bin_label(one, current_app.config["YARD"], _address(one.id)) for one in found], form)
