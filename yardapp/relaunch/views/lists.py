"""The yard's lists of lines: looked at, changed line by line."""

from dataclasses import asdict
from typing import Any

from flask import url_for
from flask.typing import ResponseReturnValue

from yardapp.errors import NotFound
from yardapp.forms import options
from yardapp.relaunch import services
from yardapp.relaunch.forms import LineForm, NewListForm, TellListForm
from yardapp.relaunch.showing import lists as showing
from yardapp.relaunch.views.door import bp
from yardapp.web import current_who, filled, kept, page, refused, saving, snapshot

MOVES = {"up": -1, "down": 1}


def _list_href(name: str) -> str:
    return url_for("relaunch.list_page", name=name)


@bp.get("/lists")
def lists() -> ResponseReturnValue:
    """Every list, and a new one."""
    return page("relaunch/lists.html", **_all_lists(filled(NewListForm)))


def _all_lists(form: NewListForm) -> dict[str, Any]:
    with snapshot() as opened:
        found = services.lists(opened, current_who())
    form.like.choices = options((one.name, one.name) for one in found)
    return {"rows": [showing.listed(one, _list_href(one.name)) for one in found], "form": form}


@bp.post("/lists")
def add_list() -> ResponseReturnValue:
    """A list of the yard's own."""
    form = filled(NewListForm)
    shown = _all_lists(form)
    if form.validate():
        with saving(form) as act:
            made = services.add_list(act.session, act.who, form.name.data or "", like=form.like.data or "")
            act.goes_to(_list_href(made.name), "Begun. Change its lines here.")
        if act.answer:
            return kept(act)
    shown.pop("form")
    return refused("relaunch/lists.html", form, **shown)


def _shown(name: str) -> dict[str, Any]:
    with snapshot() as opened:
        found = services.list_versions(opened, current_who(), name)
    now = found[0]
    return {
        "name": name,
        "now": now,
        "parts": showing.parts(now, lambda key: url_for("relaunch.change_line_page", name=name, key=key)),
        "versions": showing.versions(found),
    }


@bp.get("/lists/<name>")
def list_page(name: str) -> ResponseReturnValue:
    """One list in its newest version, and what it was before."""
    return page("relaunch/list.html", form=filled(TellListForm), **_shown(name))


@bp.post("/lists/<name>/lines/<key>/<any(up, down):way>")
def move_line(name: str, key: str, way: str) -> ResponseReturnValue:
    """One place up or down."""
    form = filled(TellListForm)
    if form.validate():
        with saving(form) as act:
            services.move_line(act.session, act.who, name, key, MOVES[way])
            act.goes_to(_list_href(name), "Moved.")
        if act.answer:
            return kept(act)
    return refused("relaunch/list.html", form, **_shown(name))


@bp.post("/lists/<name>/lines/<key>/drop")
def drop_line(name: str, key: str) -> ResponseReturnValue:
    """Asked no more, of launches planned from here on."""
    form = filled(TellListForm)
    if form.validate():
        with saving(form) as act:
            services.drop_line(act.session, act.who, name, key)
            act.goes_to(_list_href(name), "Dropped. Launches that are planned already keep it.")
        if act.answer:
            return kept(act)
    return refused("relaunch/list.html", form, **_shown(name))


def _line(name: str, key: str) -> tuple[services.ListNow, services.Line]:
    with snapshot() as opened:
        now = services.list_by_name(opened, current_who(), name)
    line = now.line(key)
    if line is None:
        raise NotFound("That line is not on the list.")
    return now, line


def _typed(line: services.Line, number: int) -> dict[str, Any]:
    """A line as its form shows it."""
    said = asdict(line)
    words = {name: "yes" if said[name] else "no" for name in ("is_stop", "is_each")}
    return {**said, **words, "signs": str(line.signs), "bench_sheet": line.sheet, "version": number}


@bp.get("/lists/<name>/lines/<key>")
def change_line_page(name: str, key: str) -> ResponseReturnValue:
    """One line."""
    current_who().must("change")
    now, line = _line(name, key)
    form = filled(LineForm, **_typed(line, now.number))
    return page(
        "relaunch/change_line_page.html", form=form, name=name, key=key, heading=line.words, is_lock=line.is_lock
    )


@bp.post("/lists/<name>/lines/<key>")
def change_line(name: str, key: str) -> ResponseReturnValue:
    """Keep it, as a new version of the list."""
    form = filled(LineForm)
    _now, line = _line(name, key)
    if form.validate():
        form.key.data = key
        with saving(form) as act:
            number = form.version.data or 0
            services.change_line(act.session, act.who, name, number, form.line(), why=form.why.data or "")
            act.goes_to(_list_href(name), "Kept. Launches that are planned already keep their lines.")
        if act.answer:
            return kept(act)
    shown = {"name": name, "key": key, "heading": line.words, "is_lock": line.is_lock}
    return refused("relaunch/change_line_page.html", form, **shown)


@bp.get("/lists/<name>/new")
def new_line_page(name: str) -> ResponseReturnValue:
    """A line is added."""
    current_who().must("change")
    with snapshot() as opened:
        services.list_by_name(opened, current_who(), name)
    return page("relaunch/change_line_page.html", form=filled(LineForm), name=name, key="", heading="A new line")


@bp.post("/lists/<name>/new")
def add_line(name: str) -> ResponseReturnValue:
    """Keep it, at the end of its part."""
    form = filled(LineForm)
    if form.validate():
        form.key.data = ""
        with saving(form) as act:
            services.add_line(act.session, act.who, name, form.line(), why=form.why.data or "")
            act.goes_to(_list_href(name), "Added.")
        if act.answer:
            return kept(act)
    return refused("relaunch/change_line_page.html", form, name=name, key="", heading="A new line")
