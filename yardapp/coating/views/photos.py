"""Photos: of a job under way, and of how a coat looks at haul-out."""

from flask import url_for
from flask.typing import ResponseReturnValue

from yardapp.coating import forms, services
from yardapp.coating.views import bp
from yardapp.errors import Refused
from yardapp.forms import options
from yardapp.pictures import sent_photo
from yardapp.web import current_who, filled, kept, page, refused, saving, snapshot


def _form(job_id: int) -> tuple[services.Story, forms.PhotoForm]:
    current_who().must("record")
    with snapshot() as opened:
        story = services.story_of(opened, current_who(), job_id)
    form = filled(forms.PhotoForm)
    form.unit.choices = options([("", "all of it"), *((unit.key, unit.label) for unit in story.units)])
    return story, form


@bp.get("/jobs/<int:job_id>/photo")
def photo_page(job_id: int) -> ResponseReturnValue:
    """One more photo."""
    story, form = _form(job_id)
    return page("coating/photo_page.html", form=form, job=story.job)


@bp.post("/jobs/<int:job_id>/photo")
def attach_photo(job_id: int) -> ResponseReturnValue:
    """Keep it in the log of the job."""
    story, form = _form(job_id)
    picture = sent_photo(form)
    if picture is None and not form.photo.errors:
        form.tell(Refused("Choose a photo first.", "photo"))
    if form.validate() and picture is not None:
        with saving(form) as act:
            said = {"unit": form.unit.data or "", "note": form.caption.data or ""}
            services.attach_photo(act.session, act.who, job_id, picture, **said)
            act.goes_to(url_for("coating.log", job_id=job_id), "The photo is kept.")
        if act.answer:
            return kept(act)
    return refused("coating/photo_page.html", form, job=story.job)
