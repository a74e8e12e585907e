"""What an owner signs: the lines that ask for the owner's person."""

from typing import Any

from flask import request, url_for
from flask.typing import ResponseReturnValue

from yardapp.errors import NotAllowed
from yardapp.relaunch import services
from yardapp.relaunch.forms import AnswerForm
from yardapp.relaunch.views.door import bp
from yardapp.relaunch.views.sheet import OPEN, found
from yardapp.web import filled, kept, page, refused, saving


def _shown(launch_id: int, key: str) -> dict[str, Any]:
    sheet = found(launch_id)
    now = sheet.line(key, request.args.get("drive_id", type=int))
    if not now.line.asks_owner:
        raise NotAllowed("This line is the yard's to sign.")
    return {"boat": sheet.vessel.name, "launch_id": launch_id, "heading": now.line.owner_words, "asked": now.title}


@bp.get(f"/{OPEN}/owner/<key>")
def owner_sign_page(launch_id: int, key: str) -> ResponseReturnValue:
    """One line, to the owner's person."""
    return page("relaunch/owner_sign_page.html", form=filled(AnswerForm), **_shown(launch_id, key))


@bp.post(f"/{OPEN}/owner/<key>")
def sign_as_owner(launch_id: int, key: str) -> ResponseReturnValue:
    """Sign it."""
    form = filled(AnswerForm)
    shown = _shown(launch_id, key)
    if form.validate():
        with saving(form) as act:
            drive_id = request.args.get("drive_id", type=int)
            answer, note = form.answer.data or "", form.note.data or ""
            said = services.Answer(line=key, drive_id=drive_id, answer=answer, note=note)
            services.sign_as_owner(act.session, act.who, launch_id, said)
            act.goes_to(url_for("relaunch.owner_copy", launch_id=launch_id), "Signed.")
        if act.answer:
            return kept(act)
    return refused("relaunch/owner_sign_page.html", form, **shown)
