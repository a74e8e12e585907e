"""One line of a sheet: what settles it, who answered what, the answer."""

from typing import Any

from flask import request, url_for
from flask.typing import ResponseReturnValue

from yardapp.drawings.hand import hand_picture
from yardapp.pictures import bring_photo
from yardapp.relaunch import services
from yardapp.relaunch.forms import AnswerForm, GiveForm, ScanForm, WhyForm, answer_form
from yardapp.relaunch.showing import sheet as showing
from yardapp.relaunch.showing.words import SHAPES, STATES
from yardapp.relaunch.views.door import bp
from yardapp.relaunch.views.sheet import OPEN, yards
from yardapp.web import current_who, filled, kept, page, refused, saving

HANDS = ("right", "left")


def _drive_id() -> int | None:
    return request.args.get("drive_id", type=int)


def _there(launch_id: int, key: str) -> tuple[services.LaunchSheet, services.LineNow]:
    sheet = yards(launch_id)
    return sheet, sheet.line(key, _drive_id())


def _found_href(found: services.Found) -> str | None:
    """The way to what the register says."""
    one = found.ref
    ways = {
        "sheet": lambda: url_for("bench.sheet", sheet_id=int(one)),
        "verdict": lambda: url_for("fit.kept_verdict", kept_id=int(one)),
        "coating": lambda: url_for("coating.job", job_id=int(one)),
        "pair": lambda: url_for("fit.pair", right=one.split()[0], left=one.split()[-1]),
        "scan": lambda: url_for("gear.propeller", tag=one),
        "faults": lambda: url_for("relaunch.faults"),
    }
    return ways[found.room]() if found.room in ways else None


def _settles(sheet: services.LaunchSheet, now: services.LineNow) -> tuple[str, str] | None:
    """Where that is made which would settle the line: an address and what stands on the button."""
    drive = next((one for one in sheet.drives if one.id == now.place.drive_id), None)
    if now.line.by == "verdict" and drive is not None and drive.tag:
        return url_for("fit.verdict", tag=drive.tag, drive_id=drive.id), "Judge it now"
    crossed = next((one.ref for one in now.found if one.room == "scan" and one.verdict == "no"), "")
    if crossed:
        return url_for("gear.seen", tag=crossed), "Not what you see? The tags may have crossed"
    if now.line.by == "sheet":
        return url_for("bench.bench"), "To the bench"
    if now.line.by == "coating":
        return url_for("coating.coating"), "To the coating jobs"
    if now.line.by == "faults":
        return url_for("relaunch.faults", boat=sheet.launch.vessel_id), "Her faults"
    return None


def _on_it(sheet: services.LaunchSheet, now: services.LineNow) -> list[tuple[str, str]]:
    """The tagged parts that the line speaks of, each with its page."""
    kind = services.PART_OF.get(now.line.key)
    drives = [drive for drive in sheet.drives if drive.id == now.place.drive_id]
    tags = [part.tag for drive in drives for part in drive.parts if part.kind == kind]
    return [(tag, url_for("gear.tag", tag=tag)) for tag in tags]


def _shown(sheet: services.LaunchSheet, now: services.LineNow, **forms: Any) -> dict[str, Any]:
    key, drive_id = now.line.key, now.place.drive_id
    back = {act.takes_back_id: act for act in sheet.acts if act.takes_back_id is not None}
    acts = [act for act in sheet.acts if (act.line, act.drive_id) == (key, drive_id)]
    return {
        "sheet": sheet,
        "boat": sheet.vessel.name,
        "launch_id": sheet.launch.id,
        "now": now,
        "heading": now.title,
        "key": key,
        "drive_id": drive_id,
        "shape_word": SHAPES[now.verdict],
        "state": STATES[now.verdict],
        "told": showing.shows(now),
        "found": showing.found_rows(now.found, _found_href),
        "settles": _settles(sheet, now),
        "on_it": _on_it(sheet, now),
        "history": [showing.act_row(act, back, _back_href(sheet)) for act in reversed(acts)],
        "pictures": {hand: hand_picture(hand, key=f"seen-{hand}") for hand in HANDS},
        "can_answer": current_who().may("record") and not sheet.is_called_off and now.line.by != "faults",
        **forms,
    }


def _back_href(sheet: services.LaunchSheet) -> Any:
    """The way to take an answer back."""

    def href(act: Any) -> str | None:
        if act.kind not in ("answered", "scanned") or not current_who().may("record"):
            return None
        return url_for("relaunch.take_back_page", launch_id=sheet.launch.id, act_id=act.id)

    return href


def _unit(now: services.LineNow) -> str:
    """The unit that the line's figure is read in; "" where it asks for none."""
    return now.line.unit if now.line.by == "figure" else ""


def _blank(now: services.LineNow, **ours: Any) -> dict[str, Any]:
    """The forms of a line's page; the one that was sent is given, the others are blank."""
    return {
        "answer_form": filled(answer_form(_unit(now)), blank=True),
        "scan_form": filled(ScanForm, blank=True),
        "give_form": filled(GiveForm, blank=True, name=now.has),
        **ours,
    }


@bp.get(f"/{OPEN}/lines/<key>")
def line(launch_id: int, key: str) -> ResponseReturnValue:
    """One line."""
    sheet, now = _there(launch_id, key)
    return page("relaunch/line.html", **_shown(sheet, now, **_blank(now)))


def _back_to_sheet(sheet: services.LaunchSheet) -> str:
    return url_for("relaunch.sheet", launch_id=sheet.launch.id)


@bp.post(f"/{OPEN}/lines/<key>")
def answer_line(launch_id: int, key: str) -> ResponseReturnValue:
    """Sign it."""
    current_who().must("record")
    sheet, now = _there(launch_id, key)
    form = filled(answer_form(_unit(now)))
    is_fine, picture = form.validate(), bring_photo(form)
    if is_fine and not form.photo.errors:
        with saving(form) as act:
            services.answer_line(act.session, act.who, launch_id, _said(form, key), picture)
            act.goes_to(_back_to_sheet(sheet), f"{now.title}: kept.")
        if act.answer:
            return kept(act)
    return refused("relaunch/line.html", form, **_shown(sheet, now, **_blank(now, answer_form=form)))


def _said(form: AnswerForm, key: str) -> services.Answer:
    return services.Answer(
        line=key,
        drive_id=_drive_id(),
        answer=form.answer.data or "",
        note=form.note.data or "",
        **form.figure_said(),
    )


@bp.post(f"/{OPEN}/lines/<key>/scan")
def scan_tag(launch_id: int, key: str) -> ResponseReturnValue:
    """The tag at the shaft, and the hand that was seen."""
    current_who().must("record")
    sheet, now = _there(launch_id, key)
    form = filled(ScanForm)
    if form.validate():
        with saving(form) as act:
            services.scan_tag(
                act.session,
                act.who,
                launch_id,
                line=key,
                drive_id=_drive_id(),
                tag=form.tag.data or "",
                hand=form.hand.data or "",
                note=form.scan_note.data or "",
            )
            act.goes_to(url_for("relaunch.line", launch_id=launch_id, key=key, drive_id=_drive_id()), "Scan kept.")
        if act.answer:
            return kept(act)
    return refused("relaunch/line.html", form, **_shown(sheet, now, **_blank(now, scan_form=form)))


@bp.post(f"/{OPEN}/lines/<key>/give")
def give_line(launch_id: int, key: str) -> ResponseReturnValue:
    """Give it to somebody."""
    current_who().must("record")
    sheet, now = _there(launch_id, key)
    form = filled(GiveForm)
    if form.validate():
        with saving(form) as act:
            name = form.name.data or ""
            services.give_line(act.session, act.who, launch_id, line=key, drive_id=_drive_id(), name=name)
            act.goes_to(_back_to_sheet(sheet), f"{name} has it.")
        if act.answer:
            return kept(act)
    return refused("relaunch/line.html", form, **_shown(sheet, now, **_blank(now, give_form=form)))


@bp.get(f"/{OPEN}/acts/<int(max=2147483647):act_id>/take-back")
def take_back_page(launch_id: int, act_id: int) -> ResponseReturnValue:
    """An answer was wrong."""
    current_who().must("record")
    return page("relaunch/take_back_page.html", form=filled(WhyForm), **_to_take_back(launch_id, act_id))


def _to_take_back(launch_id: int, act_id: int) -> dict[str, Any]:
    sheet = yards(launch_id)
    act = next((one for one in sheet.acts if one.id == act_id), None)
    told = showing.act_row(act, {}, lambda _act: None) if act is not None else None
    return {"boat": sheet.vessel.name, "launch_id": launch_id, "act_id": act_id, "told": told}


@bp.post(f"/{OPEN}/acts/<int(max=2147483647):act_id>/take-back")
def take_back(launch_id: int, act_id: int) -> ResponseReturnValue:
    """A row of its own says so; the first stays readable."""
    form = filled(WhyForm)
    current_who().must("record")
    if form.validate():
        with saving(form) as act:
            services.take_back(act.session, act.who, launch_id, act_id, form.why.data or "")
            act.goes_to(url_for("relaunch.sheet", launch_id=launch_id), "Taken back. It stays readable.")
        if act.answer:
            return kept(act)
    return refused("relaunch/take_back_page.html", form, **_to_take_back(launch_id, act_id))
