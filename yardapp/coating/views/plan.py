"""A job before it begins: can it be done, with whom, by when, with how much."""

import math
from typing import Any

from flask import render_template, request, url_for
from flask.typing import ResponseReturnValue

from yardapp.coating import forms, services
from yardapp.coating.showing import plan as showing
from yardapp.coating.views import bp
from yardapp.errors import REFUSALS, NotFound
from yardapp.forms import options
from yardapp.web import current_who, filled, kept, page, refused, saving, snapshot


def _form(*, fresh: bool = False) -> forms.PlanForm:
    """The form, with the yard's systems and boats to choose from."""
    form = filled(forms.PlanForm)
    with snapshot() as opened:
        rows = services.systems(opened, current_who(), used_only=True)
        drives = services.drive_choices(opened, current_who())
    form.system_id.choices = options((str(row.id), f"{row.name}, version {row.number}") for row in rows)
    form.drive_id.choices = options([("", "no boat, or not known"), *((str(one), label) for one, label in drives)])
    if fresh and (tag := request.args.get("tag", "")):
        form.pieces.append_entry({"kind": "shaft" if tag.upper().startswith("S") else "propeller", "name": tag.upper()})
    return form


def _spare(form: forms.PlanForm) -> forms.PlanForm:
    """One blank piece to write in."""
    is_full = not len(form.pieces) or form.pieces.entries[-1].form["kind"].data
    if is_full and len(form.pieces) < forms.MOST_PIECES:
        form.pieces.append_entry()
    return form


@bp.get("/plan")
def plan_page() -> ResponseReturnValue:
    """An empty plan."""
    current_who().must("record")
    return page("coating/plan_page.html", form=_spare(_form(fresh=True)), looked=None)


def _asked(form: forms.PlanForm) -> services.Asked:
    """The plan as the service takes it."""
    pieces = tuple(services.AskedPiece(**one) for one in form.asked_pieces())
    return services.Asked(
        system_id=form.system_id.data,
        pieces=pieces,
        title=form.title.data or "",
        drive_id=form.drive_id.data,
        people=form.people.data,
        way=form.way.data,
        blade_s=form.blade_s.data or 0.0,
        other_blade_s=form.other_blade_s.data,
        metal_c=math.nan if form.metal_c.data is None else form.metal_c.data,
        air_c=form.air_c.data,
        relative_humidity=form.relative_humidity.data,
        loss_ratio=0.2 if form.loss_ratio.data is None else form.loss_ratio.data,
        starts=form.moment("starts"),
        launches=form.moment("launches"),
        hours=form.hours(),
        note=form.note.data or "",
    )


def _look(form: forms.PlanForm) -> dict[str, Any] | None:
    """What the plan says so far; nothing while a box that it needs is empty or can't be read."""
    if not form.validate():
        return None
    try:
        with snapshot() as opened:
            looked = services.look(opened, current_who(), _asked(form))
    except REFUSALS as refusal:
        form.tell(refusal)
        return None
    except NotFound:
        return None
    return showing.shown(looked, _asked(form), current_who().units)


@bp.post("/plan/look")
def look() -> ResponseReturnValue:
    """What the plan would say; nothing is kept."""
    current_who().must("record")
    form = _form()
    looked = _look(form)
    if request.headers.get("HX-Request"):
        wrong = form.problems() if looked is None else []
        return render_template("coating/looked.html", looked=looked, wrong=wrong)
    if request.form.get("more"):
        form.pieces.append_entry()
    return page("coating/plan_page.html", form=_spare(form), looked=looked)


@bp.post("/plan")
def plan_job() -> ResponseReturnValue:
    """Keep it: the job can be run from here on."""
    form = _form()
    if form.validate():
        with saving(form) as act:
            job = services.plan_job(act.session, act.who, _asked(form))
            act.goes_to(url_for("coating.job", job_id=job.id), "The job stands. Any phone may run it.")
        if act.answer:
            return kept(act)
    current_who().must("record")
    return refused("coating/plan_page.html", _spare(form), looked=None)
