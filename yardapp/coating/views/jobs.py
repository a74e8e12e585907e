"""The page beside the boat, its polls and its taps; the log of a job."""

from typing import Any, TypeVar

from flask import Response, render_template, request, url_for
from flask.typing import ResponseReturnValue

from yardapp.coating import forms, services
from yardapp.coating.showing import log as log_showing
from yardapp.coating.showing import product as product_showing
from yardapp.coating.showing import running as showing
from yardapp.coating.showing.words import words_of
from yardapp.coating.views import bp
from yardapp.db import now
from yardapp.errors import NotFound
from yardapp.forms import options
from yardapp.web import current_who, filled, kept, page, refused, saving, snapshot

AnyForm = TypeVar("AnyForm", bound=forms.Readings)


def _told(job_id: int) -> tuple[services.Story, showing.Shown, float]:
    """The job as it stands at this moment of the server's clock."""
    with snapshot() as opened:
        story, there = services.job_now(opened, current_who(), job_id)
    return story, showing.shown(story, there), there.now_s


def _around(job_id: int) -> dict[str, Any]:
    """What the page beside the boat shows."""
    story, told, now_s = _told(job_id)
    return {
        "job": story.job,
        "story": story,
        "told": told,
        "now_s": now_s,
        "cautions": showing.cautions_of(story.system),
        "pieces": [(piece.label, _history_of(piece)) for piece in story.pieces],
    }


def _history_of(piece: Any) -> str:
    return url_for("coating.of_piece", piece_id=piece.id)


def _blank(story: services.Story) -> forms.TapForm:
    return _with_products(filled(forms.TapForm, blank=True), story)


def _with_products(form: AnyForm, story: services.Story) -> AnyForm:
    form.product.choices = options((one.name, one.name) for one in story.system.products)
    return form


@bp.get("/jobs/<int:job_id>")
def job(job_id: int) -> ResponseReturnValue:
    """The page beside the boat."""
    shown = _around(job_id)
    return page("coating/job.html", form=_blank(shown["story"]), **shown)


@bp.get("/jobs/<int:job_id>/now")
def job_now(job_id: int) -> ResponseReturnValue:
    """What changed since a phone has seen it: nothing (204, one row read), or all that changes on the page."""
    current_who().must("see")
    version, now_s = services.version_now(job_id), now().timestamp()
    if showing.is_fresh(request.args.get("seen", ""), version, now_s):
        return _timed(Response(status=204), now_s)
    story, told, now_s = _told(job_id)
    return _timed(Response(render_template("coating/now.html", told=told, job=story.job)), now_s)


def _timed(answer: Response, now_s: float) -> Response:
    """The server's clock goes with every answer: a phone's own is never asked."""
    answer.headers["Yard-Time"] = f"{now_s:.3f}"
    return answer


@bp.post("/jobs/<int:job_id>/acts")
def act(job_id: int) -> ResponseReturnValue:
    """One tap: from the page's script, or as a plain form."""
    form = filled(forms.TapForm)
    if form.validate():
        with saving(form) as act:
            _do(act, job_id, form)
            act.goes_to(url_for("coating.job", job_id=job_id), "Noted.")
        if act.answer:
            return ("", 204) if _is_tap() else kept(act)
    if _is_tap():
        # A page that was open while somebody signed in anew: it must be opened again, and the tap is sent then.
        return ("", 409) if form.csrf_token.errors else (_said(form), 422)
    shown = _around(job_id)
    return refused("coating/job.html", _with_products(form, shown["story"]), **shown)


def _is_tap() -> bool:
    return request.headers.get("Yard-Tap") == "1"


def _do(act: Any, job_id: int, form: forms.TapForm) -> None:
    if form.undoes is not None:
        services.undo(act.session, act.who, form.undoes)
    else:
        services.act(act.session, act.who, job_id, services.Tap(**form.act()))


def _said(form: forms.TapForm) -> str:
    """Why a tap was refused, in a line."""
    told = [said for box in form for said in box.errors]
    return " ".join([*form.overall, *told]) or "It can't be read."


@bp.post("/jobs/<int:job_id>/close")
def close_job(job_id: int) -> ResponseReturnValue:
    """The job is over; or it is not, after all."""
    form = filled(forms.OfferForm)
    form.validate()
    is_open = form.is_used.data == "open"
    with saving(form) as act:
        services.close_job(act.session, act.who, job_id, is_open=is_open)
        said = "Open again." if is_open else "Closed. It can be opened again."
        act.goes_to(url_for("coating.job", job_id=job_id), said)
    return kept(act)


@bp.get("/jobs/<int:job_id>/log")
def log(job_id: int) -> ResponseReturnValue:
    """Everything that was done, with who, when, and what was put right."""
    with snapshot() as opened:
        story = services.story_of(opened, current_who(), job_id)
    may = current_who().may("record") and story.job.is_open

    def href(act_id: int) -> str | None:
        return url_for("coating.correct_page", act_id=act_id) if may else None

    return page(
        "coating/log.html",
        job=story.job,
        story=story,
        rows=log_showing.rows(story, href),
        faults=log_showing.faults(story),
        planned=log_showing.planned(story.job),
        photos=log_showing.photos(story),
        drawing=log_showing.drawing(story, now().timestamp()),
    )


@bp.get("/jobs/<int:job_id>/product")
def product(job_id: int) -> ResponseReturnValue:
    """What was mixed of which tins, what stands mixed, what is left and what else it would cover."""
    with snapshot() as opened:
        story, there = services.job_now(opened, current_who(), job_id)
        items = services.items_of(story)
        waiting = services.waiting_pieces(opened, story.system_id, without=job_id, but=items)
        left = services.pots_left(story, there, waiting)
    may = current_who().may("record") and story.job.is_open
    return page(
        "coating/product.html",
        job=story.job,
        sums=product_showing.sums(story),
        pots=product_showing.pots(left),
        acts=product_showing.acts(
            story, lambda act_id: url_for("coating.correct_page", act_id=act_id) if may else None
        ),
    )


def _act_and_form(act_id: int) -> tuple[services.Story, Any, forms.CorrectForm]:
    with snapshot() as opened:
        story = services.story_of_act(opened, current_who(), act_id)
    # What is sent a second time is answered as the first time, though that row is replaced by now.
    there = story.acts if request.method == "POST" else story.standing_acts
    found = next((one for one in there if one.id == act_id), None)
    if found is None:
        raise NotFound("That was taken back or put right already.")
    form = _with_products(filled(forms.CorrectForm), story)
    for name in {name for names in forms.BOXES.values() for name in names} - set(_boxes_of(found)):
        del form[name]
    return story, found, form


def _boxes_of(found: Any) -> tuple[str, ...]:
    return forms.BOXES.get(found.kind, ())


@bp.get("/acts/<int:act_id>/correct")
def correct_page(act_id: int) -> ResponseReturnValue:
    """Put another row in the place of a wrong one."""
    story, found, form = _act_and_form(act_id)
    form.at.data = found.at.astimezone()
    form.note.data = found.note
    for name in _boxes_of(found):
        form[name].process_data(found.figures.get(name))
    return page("coating/correct_page.html", form=form, story=story, said=words_of(story, found))


@bp.post("/acts/<int:act_id>/correct")
def correct_step(act_id: int) -> ResponseReturnValue:
    """Correct it; the old row stays in the log."""
    story, found, form = _act_and_form(act_id)
    if form.validate():
        with saving(form) as act:
            figures = log_showing.figures_of(form, _boxes_of(found))
            services.correct_step(
                act.session,
                act.who,
                act_id,
                at=form.moment(),
                why=form.why.data or "",
                note=form.note.data or "",
                figures=figures,
            )
            act.goes_to(url_for("coating.log", job_id=story.job.id), "Put right. The old row stays in the log.")
        if act.answer:
            return kept(act)
    return refused("coating/correct_page.html", form, story=story, said=words_of(story, found))
