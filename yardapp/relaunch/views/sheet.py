"""The sheet of one launch: on the screen, on paper, for her owner, for the lift crew."""

from typing import Any

from flask import Response, current_app, redirect, url_for
from flask.typing import ResponseReturnValue

from yardapp.pdf import Part, written
from yardapp.relaunch import services
from yardapp.relaunch.forms import HourForm, WhyForm
from yardapp.relaunch.showing import papers
from yardapp.relaunch.showing import sheet as showing
from yardapp.relaunch.showing.words import when
from yardapp.relaunch.views.door import bp
from yardapp.web import current_who, filled, kept, page, refused, saving, snapshot

OPEN = "<int(max=2147483647):launch_id>"


def found(launch_id: int) -> services.LaunchSheet:
    """The sheet as it stands."""
    with snapshot() as opened:
        return services.launch_sheet(opened, current_who(), launch_id)


def yards(launch_id: int) -> services.LaunchSheet:
    """The same, for the yard's own people."""
    current_who().must("see")
    return found(launch_id)


def line_href(launch_id: int) -> Any:
    """The way to each line of a sheet."""
    return lambda now: url_for("relaunch.line", launch_id=launch_id, key=now.line.key, drive_id=now.place.drive_id)


def paper(title: str, parts: list[Part], name: str) -> Response:
    """A document to send or print."""
    content = written(title, parts, foot=f"{current_app.config['YARD']} · {title}")
    headers = {"Content-Disposition": f'inline; filename="{_plain(name)}.pdf"'}
    return Response(content, mimetype="application/pdf", headers=headers)


def _plain(name: str) -> str:
    """A file's name in letters that any header takes."""
    return "".join(letter if letter.isascii() and (letter.isalnum() or letter in " -") else "-" for letter in name)


@bp.get(f"/{OPEN}")
def sheet(launch_id: int) -> ResponseReturnValue:
    """Every line of her sheet, with what settles it; owners get their own copy."""
    if not current_who().may("see"):
        return redirect(url_for("relaunch.owner_copy", launch_id=launch_id), code=303)
    return page("relaunch/sheet.html", **_shown(found(launch_id)))


def _shown(there: services.LaunchSheet) -> dict[str, Any]:
    word, said = showing.verdict(there)
    return {
        "sheet": there,
        "boat": there.vessel.name,
        "parts": showing.parts(there, line_href(there.launch.id)),
        "word": word,
        "said": said,
        "planned": when(there.launch.planned),
        "history": showing.history(there.acts, _lines(there), _act_href(there)),
        "overrides": showing.overrides(there),
        "changed": [(name, showing.change_rows(there.changed(name))) for name in there.releases],
    }


def _lines(there: services.LaunchSheet) -> dict[str, Any]:
    return {now.line.key: now.line for now in there.lines}


def _act_href(there: services.LaunchSheet) -> Any:
    """Of a release, the sheet as it was kept; of an answer, its line."""

    def href(act: Any) -> str | None:
        if act.frozen:
            return url_for("relaunch.kept_sheet", launch_id=there.launch.id, act_id=act.id)
        if act.line:
            return url_for("relaunch.line", launch_id=there.launch.id, key=act.line, drive_id=act.drive_id)
        return None

    return href


@bp.get(f"/{OPEN}/sheet.pdf")
def sheet_file(launch_id: int) -> ResponseReturnValue:
    """The same as a file."""
    there = yards(launch_id)
    return paper(f"Relaunch of {there.vessel.name}", papers.sheet_paper(there), f"{there.vessel.name} relaunch")


@bp.get(f"/{OPEN}/owner")
def owner_copy(launch_id: int) -> ResponseReturnValue:
    """For her owner, in plain words."""
    there = found(launch_id)
    return page(
        "relaunch/owner_copy.html",
        sheet=there,
        boat=there.vessel.name,
        groups=showing.plainly(there, _owner_signs(there)),
        overrides=showing.overrides(there),
        faults=showing.faults_plainly(there),
        planned=when(there.launch.planned),
        yard=current_app.config["YARD"],
    )


def _owner_signs(there: services.LaunchSheet) -> Any:
    """The way to sign a line that asks for the owner's person, for her owner alone."""

    def href(now: services.LineNow) -> str | None:
        if current_who().may("see") or now.is_settled or not now.line.asks_owner or there.is_called_off:
            return None
        return url_for(
            "relaunch.owner_sign_page", launch_id=there.launch.id, key=now.line.key, drive_id=now.place.drive_id
        )

    return href


@bp.get(f"/{OPEN}/owner.pdf")
def owner_file(launch_id: int) -> ResponseReturnValue:
    """The same as a file."""
    there = found(launch_id)
    return paper(f"{there.vessel.name} before her launch", papers.owner_paper(there), f"{there.vessel.name} owner")


@bp.get(f"/{OPEN}/lift")
def lift(launch_id: int) -> ResponseReturnValue:
    """May she go in now? Yes or no, and why; it asks again by itself."""
    with snapshot() as opened:
        answer = services.may_she_go(opened, current_who(), launch_id)
    return page(
        "relaunch/lift.html", launch_id=launch_id, answer=answer, planned=when(answer.planned), asked=when(answer.at)
    )


@bp.get(f"/{OPEN}/hour")
def hour_page(launch_id: int) -> ResponseReturnValue:
    """Another hour."""
    current_who().must("record")
    there = found(launch_id)
    form = filled(HourForm, planned=there.launch.planned.astimezone().replace(tzinfo=None))
    return page("relaunch/hour_page.html", form=form, boat=there.vessel.name, launch_id=launch_id)


@bp.post(f"/{OPEN}/hour")
def change_hour(launch_id: int) -> ResponseReturnValue:
    """Keep it; coating and faults are judged at the new one."""
    form = filled(HourForm)
    current_who().must("record")
    if form.validate():
        with saving(form) as act:
            services.change_hour(act.session, act.who, launch_id, form.moment(), form.why.data or "")
            act.goes_to(url_for("relaunch.sheet", launch_id=launch_id), "Changed. Coating is judged at the new hour.")
        if act.answer:
            return kept(act)
    return refused("relaunch/hour_page.html", form, boat=found(launch_id).vessel.name, launch_id=launch_id)


@bp.get(f"/{OPEN}/call-off")
def call_off_page(launch_id: int) -> ResponseReturnValue:
    """This launch is not to be."""
    current_who().must("record")
    form = filled(WhyForm)
    return page("relaunch/call_off_page.html", form=form, boat=found(launch_id).vessel.name, launch_id=launch_id)


@bp.post(f"/{OPEN}/call-off")
def call_off(launch_id: int) -> ResponseReturnValue:
    """Keep that, and why."""
    form = filled(WhyForm)
    current_who().must("record")
    if form.validate():
        with saving(form) as act:
            services.call_off(act.session, act.who, launch_id, form.why.data or "")
            act.goes_to(url_for("relaunch.board"), "Called off. Her sheet stays readable under past launches.")
        if act.answer:
            return kept(act)
    return refused("relaunch/call_off_page.html", form, boat=found(launch_id).vessel.name, launch_id=launch_id)
