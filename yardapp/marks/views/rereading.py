"""Which propellers would read differently since a table changed: asked for, worked on behind the pages, looked at."""

from threading import Thread

from flask import render_template, request, url_for
from flask.typing import ResponseReturnValue

from yardapp.db import transaction
from yardapp.marks import forms, services, showing
from yardapp.marks.views.door import bp
from yardapp.marks.views.tables import again_with
from yardapp.web import current_who, filled, kept, page, saving, snapshot


@bp.post("/tables/<int:table_id>/reread")
def ask_reread(table_id: int) -> ResponseReturnValue:
    """Read all marks by an older version and by the one that stands."""
    form = filled(forms.VersionForm)
    if form.validate():
        with saving(form) as act:
            number = services.ask_reread(act.session, act.who, table_id, form.number.data)
            act.goes_to(url_for("marks.reread_page", job_id=number), "The marks are being read again.")
        if act.answer:
            return kept(act)
    return again_with(table_id, form)


@bp.get("/rereads/<int:job_id>")
def reread_page(job_id: int) -> ResponseReturnValue:
    """How far it is. `yardapp serve` works on it; where nobody does, the page sees to it."""
    who = current_who()
    number = request.args.get("page", 1, type=int)
    with snapshot() as opened:
        found = services.reread_page(opened, who, job_id, number)
    if found.is_left:
        Thread(target=services.work_on, args=(transaction, job_id), daemon=True).start()
    shown = {"job": found, "rows": showing.rereading.rows(found, who.units), **_pager(found)}
    if request.headers.get("HX-Request"):
        return render_template("marks/reread_part.html", **shown)
    return page("marks/reread.html", **shown)


def _pager(found: services.RereadPage) -> dict[str, object]:
    """Which rows are shown, and the pages before and after."""
    last = found.first + len(found.rows) - 1
    return {
        "said": showing.rereading.pages(found),
        "page_before": _address(found.id, found.number - 1) if found.number > 1 else None,
        "page_after": _address(found.id, found.number + 1) if found.rows and last < found.differing else None,
    }


def _address(job_id: int, number: int) -> str:
    return url_for("marks.reread_page", job_id=job_id, page=number)
