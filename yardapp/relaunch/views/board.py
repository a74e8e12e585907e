"""The board of boats with a launch date, and a launch's beginning."""

from flask import redirect, request, url_for
from flask.typing import ResponseReturnValue

from yardapp.db import now
from yardapp.filters import day
from yardapp.forms import options
from yardapp.relaunch import services
from yardapp.relaunch.forms import BareForm, PlanForm
from yardapp.relaunch.showing import board as showing
from yardapp.relaunch.showing.faults import listed as faults_listed
from yardapp.relaunch.views.door import bp
from yardapp.vessels import services as vessels
from yardapp.web import current_who, filled, kept, page, refused, saving, snapshot

OFFERED = 500


def sheet_href(launch_id: int) -> str:
    """A launch's own page, for this person: the yard's sheet, or the owner's copy."""
    return url_for("relaunch.sheet" if current_who().may("see") else "relaunch.owner_copy", launch_id=launch_id)


@bp.get("")
def board() -> ResponseReturnValue:
    """Boats with a launch date, the soonest first; what is due after those that are afloat."""
    with snapshot() as opened:
        rows, back = services.whole_board(opened, current_who())
    on = services.today()
    return page(
        "relaunch/board.html",
        boats=[
            showing.boat(row, sheet_href(row.launch_id), lambda key: url_for("relaunch.fault", key=key)) for row in rows
        ],
        back=[faults_listed(fault, url_for("relaunch.fault", key=fault.key), on) for fault in back],
        due=showing.due_rows(rows, sheet_href, now()),
        looked=min((row.looked for row in rows), default=None),
        form=filled(BareForm),
    )


@bp.post("/look-over")
def look_over() -> ResponseReturnValue:
    """Work every sheet out afresh, for the board."""
    form = filled(BareForm)
    current_who().must("record")
    if form.validate():
        with saving(form) as act:
            services.look_over(act.session, act.who)
            act.goes_to(url_for("relaunch.board"), "Looked over.")
        if act.answer:
            return kept(act)
    return refused("relaunch/board.html", form, boats=[], back=[], due=[], looked=None)


@bp.get("/past")
def past() -> ResponseReturnValue:
    """Launches that are over, newest first."""
    before = request.args.get("before", type=int)
    with snapshot() as opened:
        rows = services.past(opened, current_who(), before=before)
    shown = [
        {"tag": row.boat, "href": sheet_href(row.launch_id), "size": f"planned for {day(row.planned)}"} for row in rows
    ]
    further = rows[-1].launch_id if len(rows) == 50 else None
    return page("relaunch/past.html", rows=shown, further=further)


@bp.get("/boat/<int(max=2147483647):vessel_id>")
def of_boat(vessel_id: int) -> ResponseReturnValue:
    """A boat's own launch, or the page that begins one."""
    with snapshot() as opened:
        vessels.vessel_by_id(opened, current_who(), vessel_id)
        launch_id = services.launch_of(opened, current_who(), vessel_id)
    if launch_id is not None:
        return redirect(sheet_href(launch_id), code=303)
    way = url_for("relaunch.plan_page", boat=vessel_id) if current_who().may("record") else url_for("relaunch.board")
    return redirect(way, code=303)


def _offer(form: PlanForm) -> PlanForm:
    """The yard's boats and its lists to choose from."""
    with snapshot() as opened:
        boats = vessels.boats(opened, current_who(), limit=OFFERED)
        lists = services.lists(opened, current_who())
    labels = [(str(row.id), ", ".join(part for part in (row.name, row.kind, row.owner) if part)) for row in boats]
    form.vessel_id.choices = options([("", "choose a boat"), *labels])
    named = [(one.name, f"{one.name}, {len(one.lines)} lines") for one in lists]
    form.list_name.choices = options([("", "by her drives: shaft line, or a pair of them"), *named])
    return form


@bp.get("/plan")
def plan_page() -> ResponseReturnValue:
    """A boat gets a launch date."""
    current_who().must("record")
    return page("relaunch/plan_page.html", form=_offer(filled(PlanForm, vessel_id=request.args.get("boat", type=int))))


@bp.post("/plan")
def plan_launch() -> ResponseReturnValue:
    """Her sheet begins."""
    form = _offer(filled(PlanForm))
    current_who().must("record")
    if form.validate():
        if form.vessel_id.data is None:
            form.vessel_id.errors = ["Which boat?"]
            return refused("relaunch/plan_page.html", form)
        with saving(form) as act:
            launch = services.plan_launch(
                act.session, act.who, form.vessel_id.data, form.moment(), list_name=form.list_name.data or ""
            )
            act.goes_to(url_for("relaunch.sheet", launch_id=launch.id), "Her sheet stands. What is known is on it.")
        if act.answer:
            return kept(act)
    return refused("relaunch/plan_page.html", form)
