"""Where Flask meets the rest: forms filled from a request, one transaction a save, the answer to it."""

from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any, TypeVar

from flask import current_app, flash, g, redirect, render_template, request, session
from sqlalchemy.exc import IntegrityError
from sqlalchemy.orm import Session
from werkzeug.datastructures import CombinedMultiDict, MultiDict
from werkzeug.wrappers import Response

from yardapp.db import snapshot, transaction
from yardapp.errors import REFUSALS, Superseded
from yardapp.forms import RecordForm, YardForm
from yardapp.people import services as people

AnyForm = TypeVar("AnyForm", bound=YardForm)
__all__ = ["Act", "AlreadyAnswered", "current_who", "filled", "kept", "page", "refused", "saving", "snapshot"]


class AlreadyAnswered(Exception):
    """This form was saved before; `answer` is where its first try was sent."""

    def __init__(self, answer: str) -> None:
        super().__init__(answer)
        self.answer = answer


class Act:
    """One save in progress: its session, who does it, and where the page goes when it is kept."""

    def __init__(self, who: people.Who) -> None:
        self.session: Session
        self.who = who
        self.answer: str | None = None
        self.said = "Saved."

    def goes_to(self, address: str, said: str = "Saved.") -> None:
        """When all is kept, say `said` on the page at `address`."""
        self.answer, self.said = address, said


@contextmanager
def saving(form: YardForm) -> Iterator[Act]:
    """All of the block is kept, or, on a refusal, none of it and the form says why."""
    act = Act(current_who())
    try:
        with transaction() as act.session:
            _not_twice(act.session, form)
            yield act
            people.answered(act.session, form.once.data or "", act.answer or request.path)
    except (*REFUSALS, Superseded) as refusal:
        act.answer = None
        _tell(form, refusal)
    except IntegrityError:
        # Two tries arrived at once: the later one lost the race for the token, and gets the earlier one's answer.
        with snapshot() as opened:
            _not_twice(opened, form)
        raise


def _not_twice(opened: Session, form: YardForm) -> None:
    before = people.already_answered(opened, form.once.data or "")
    if before is not None:
        raise AlreadyAnswered(before)


def _tell(form: YardForm, refusal: Exception) -> None:
    if isinstance(refusal, Superseded) and isinstance(form, RecordForm):
        form.superseded(refusal.theirs, refusal.version, refusal.by)
    else:
        form.tell(refusal)


def kept(act: Act) -> Response:
    """The answer to a save that was kept: the next page, and word to the phone that its draft may go."""
    flash(act.said)
    flash(request.form.get("once", ""), "once")
    return redirect(act.answer or request.path, code=303)


def refused(template: str, form: YardForm, **shown: Any) -> tuple[str, int]:
    """The answer to a save that was not kept: the same page, with everything typed still there."""
    if isinstance(form, RecordForm) and form.theirs is not None:
        return page("yard/merge.html", form=form, **shown), 409
    return page(template, form=form, **shown), 422


def page(template: str, **shown: Any) -> str:
    """A page for the person at the screen."""
    return render_template(template, **shown)


def filled(kind: type[AnyForm], record: Any = None, *, blank: bool = False, **given: Any) -> AnyForm:
    """A form filled from the request when it was sent, else from the record; `blank` for a second form on a page."""
    is_sent = request.method == "POST" and not blank
    sent: Any = CombinedMultiDict[str, Any]([_typed(), request.files]) if is_sent else None
    who: people.Who | None = g.get("who")
    meta = {
        "csrf_secret": str(current_app.secret_key).encode(),
        "csrf_context": session,
        "system": who.units if who else "mm",  # what a size box reads where no unit is typed
    }
    return kind(sent, obj=record, meta=meta, **given)


def _typed() -> MultiDict[str, str]:
    """What was typed, without the one character that Postgres can't keep."""
    return MultiDict((name, text.replace("\0", "")) for name, text in request.form.items(multi=True))


def current_who() -> people.Who:
    """Who is at the screen; views behind sign-in always have somebody."""
    who: people.Who = g.who
    return who
