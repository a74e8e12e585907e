"""Data sheets of a system: attached, and opened again."""

from flask import abort, current_app, redirect, send_file, url_for
from flask.typing import ResponseReturnValue

from yardapp.coating import forms, services
from yardapp.coating.views import bp
from yardapp.errors import Refused
from yardapp.gear import services as gear
from yardapp.web import current_who, filled, kept, page, refused, saving, snapshot


def _system(system_id: int) -> services.SystemPage:
    current_who().must("change")
    with snapshot() as opened:
        return services.system_page(opened, current_who(), system_id)


@bp.get("/systems/<int:system_id>/document")
def document_page(system_id: int) -> ResponseReturnValue:
    """One more data sheet."""
    return page("coating/document_page.html", form=filled(forms.DocumentForm), found=_system(system_id))


def _brought(form: forms.DocumentForm) -> gear.KeptPaper | None:
    """The file that was sent; a refusal is told beside its box."""
    sent = form.document.data
    try:
        if not getattr(sent, "filename", ""):
            raise Refused("Choose a file first.")
        return gear.keep_paper(current_app.config["PHOTOS"], sent.stream, sent.filename)
    except Refused as refusal:
        form.tell(Refused(refusal.said, "document"))
        return None


@bp.post("/systems/<int:system_id>/document")
def attach_document(system_id: int) -> ResponseReturnValue:
    """Keep it with the system."""
    found, form = _system(system_id), filled(forms.DocumentForm)
    paper = _brought(form)
    if paper is not None and form.validate():
        with saving(form) as act:
            services.attach_document(act.session, act.who, system_id, paper)
            act.goes_to(url_for("coating.system", system_id=system_id), "Attached.")
        if act.answer:
            return kept(act)
    return refused("coating/document_page.html", form, found=found)


@bp.get("/documents/<sha256>")
def document(sha256: str) -> ResponseReturnValue:
    """A data sheet as it came; a photo of one lies with the photos."""
    with snapshot() as opened:
        found = services.document_by_name(opened, current_who(), sha256)
    if found.kind != "pdf":
        return redirect(url_for("gear.photo", sha256=sha256), code=302)
    path = gear.paper_path(current_app.config["PHOTOS"], sha256)
    if not path.exists():
        abort(404)
    name = found.name or "data sheet.pdf"
    answer = send_file(path, mimetype="application/pdf", download_name=name, as_attachment=True)
    answer.headers["Cache-Control"] = "private, max-age=31536000, immutable"
    return answer
