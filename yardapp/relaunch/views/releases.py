"""Release a boat, override a stop by name, take a release back."""

from typing import Any

from flask import url_for
from flask.typing import ResponseReturnValue

from yardapp.errors import NotFound
from yardapp.relaunch import services
from yardapp.relaunch.forms import OverrideForm, ReleaseForm, WhyForm
from yardapp.relaunch.showing import sheet as showing
from yardapp.relaunch.showing.words import PART_TITLES, RELEASE_ACTS, RELEASED, when
from yardapp.relaunch.views.door import bp
from yardapp.relaunch.views.sheet import OPEN, line_href, yards
from yardapp.web import current_who, filled, kept, page, refused, saving

WAYS = {"launch": "to launch", "afloat": "afloat", "owner": "to owner"}
WAY_OF = {name: way for way, name in WAYS.items()}
ONE_OF = f"<any({', '.join(WAYS)}):way>"


def _shown(launch_id: int, way: str) -> dict[str, Any]:
    sheet = yards(launch_id)
    name = WAYS[way]
    href = line_href(launch_id)
    stops = sheet.in_the_way(name)
    missing = next((one for one in services.RELEASES if one not in sheet.releases), name)
    return {
        "sheet": sheet,
        "boat": sheet.vessel.name,
        "launch_id": launch_id,
        "way": way,
        "act_word": RELEASE_ACTS[name],
        "heading": f"{RELEASE_ACTS[name]}: {sheet.vessel.name}",
        "part": PART_TITLES[name],
        "stops": [showing.row(now, href, sheet.at) for now in stops],
        "open": [showing.row(now, href, sheet.at) for now in sheet.open(name) if now not in stops],
        "given": sheet.releases.get(name),
        "first": RELEASED[missing] if services.RELEASES.index(missing) < services.RELEASES.index(name) else "",
        "planned": when(sheet.launch.planned),
        "is_office": current_who().may("people"),
    }


@bp.get(f"/{OPEN}/release/{ONE_OF}")
def release_page(launch_id: int, way: str) -> ResponseReturnValue:
    """What is in the way, and the button that lets her go."""
    shown = _shown(launch_id, way)
    return page(
        "relaunch/release_page.html", release_form=filled(ReleaseForm), override_form=filled(OverrideForm), **shown
    )


@bp.post(f"/{OPEN}/release/{ONE_OF}")
def release(launch_id: int, way: str) -> ResponseReturnValue:
    """Let her go; the sheet is kept as it stands."""
    form = filled(ReleaseForm)
    if form.validate():
        with saving(form) as act:
            given = services.release(act.session, act.who, launch_id, WAYS[way], form.note.data or "")
            act.goes_to(url_for("relaunch.kept_sheet", launch_id=launch_id, act_id=given.id), "Released.")
        if act.answer:
            return kept(act)
    shown = _shown(launch_id, way) | {"release_form": form, "override_form": filled(OverrideForm, blank=True)}
    return refused("relaunch/release_page.html", form, **shown)


@bp.post(f"/{OPEN}/override/{ONE_OF}")
def override(launch_id: int, way: str) -> ResponseReturnValue:
    """Let her go on one's own name, although something is in the way."""
    form = filled(OverrideForm)
    if form.validate():
        with saving(form) as act:
            given = services.override(act.session, act.who, launch_id, WAYS[way], form.reason.data or "")
            said = "Released by override. Your reason stands on her sheet."
            act.goes_to(url_for("relaunch.kept_sheet", launch_id=launch_id, act_id=given.id), said)
        if act.answer:
            return kept(act)
    shown = _shown(launch_id, way) | {"override_form": form, "release_form": filled(ReleaseForm, blank=True)}
    return refused("relaunch/release_page.html", form, **shown)


@bp.get(f"/{OPEN}/kept/<int(max=2147483647):act_id>/take-back")
def take_release_back_page(launch_id: int, act_id: int) -> ResponseReturnValue:
    """A release is taken back."""
    shown = _to_take_back(launch_id, act_id)
    return page("relaunch/take_release_back_page.html", form=filled(WhyForm), **shown)


def _to_take_back(launch_id: int, act_id: int) -> dict[str, Any]:
    sheet = yards(launch_id)
    act = next((one for one in sheet.releases.values() if one.id == act_id), None)
    if act is None:
        raise NotFound("There is no such release here.")
    return {"boat": sheet.vessel.name, "launch_id": launch_id, "act_id": act_id, "released": RELEASED[act.release]}


@bp.post(f"/{OPEN}/kept/<int(max=2147483647):act_id>/take-back")
def take_release_back(launch_id: int, act_id: int) -> ResponseReturnValue:
    """She must be released again; what was kept stays."""
    form = filled(WhyForm)
    if form.validate():
        with saving(form) as act:
            services.take_release_back(act.session, act.who, launch_id, act_id, form.why.data or "")
            act.goes_to(url_for("relaunch.sheet", launch_id=launch_id), "Taken back. The sheet as it was stays kept.")
        if act.answer:
            return kept(act)
    return refused("relaunch/take_release_back_page.html", form, **_to_take_back(launch_id, act_id))
