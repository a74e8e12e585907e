"""The yard's list of tools."""

from typing import Any

from flask import url_for
from flask.typing import ResponseReturnValue

from yardapp import quantities
from yardapp.bench import services
from yardapp.bench.forms.tools import CHANGES, NEW
from yardapp.bench.tools import Tool
from yardapp.bench.views import bp
from yardapp.web import current_who, filled, kept, page, refused, saving, snapshot

KINDS = {"length": "Lengths", "angle": "Angles"}


@bp.get("/tools")
def tools() -> ResponseReturnValue:
    """Every tool with its ±, and where that is known from."""
    current_who().must("change")
    with snapshot() as opened:
        found = services.tools(opened).values()
    lists = [
        {"kind": kind, "label": label, "rows": [_listed(tool) for tool in found if tool.kind == kind]}
        for kind, label in KINDS.items()
    ]
    return page("bench/tools.html", lists=lists)


def _listed(tool: Tool) -> dict[str, Any]:
    common = "the same at every reading" if tool.is_common else ""
    return {
        "tag": tool.name.capitalize(),
        "href": url_for("bench.tool_page", name=tool.name),
        "size": f"± {quantities.show(tool.plus_minus, tool.kind, current_who().units)}",
        "where": ", ".join(part for part in (common, tool.source) if part),
        "flag": "" if tool.is_used else "out of use",
    }


def _tool(name: str) -> Tool:
    current_who().must("change")
    with snapshot() as opened:
        return services.tool_by_name(opened, name)


@bp.get("/tools/<name>")
def tool_page(name: str) -> ResponseReturnValue:
    """One tool, to be changed."""
    tool = _tool(name)
    shown: dict[str, Any] = {"is_common": "yes" if tool.is_common else "", "is_used": "yes" if tool.is_used else ""}
    form = filled(CHANGES[tool.kind], plus_minus=tool.plus_minus, source=tool.source, version=tool.version, **shown)
    return page("bench/tool_page.html", form=form, tool=tool)


@bp.post("/tools/<name>")
def change_tool(name: str) -> ResponseReturnValue:
    """Save it, unless somebody else did meanwhile."""
    tool = _tool(name)
    form = filled(CHANGES[tool.kind])
    if form.validate():
        with saving(form) as act:
            said = _said(form) | {"is_used": form["is_used"].data == "yes"}
            services.change_tool(act.session, act.who, name, form["version"].data or 0, **said)
            act.goes_to(url_for("bench.tools"), "Saved. Sheets that were kept before stay as they are.")
        if act.answer:
            return kept(act)
    return refused("bench/tool_page.html", form, tool=tool)


def _said(form: Any) -> dict[str, Any]:
    return {
        "plus_minus": form["plus_minus"].data,
        "is_common": form["is_common"].data == "yes",
        "source": form["source"].data or "",
    }


@bp.get("/tools/add/<any(length, angle):kind>")
def new_tool_page(kind: str) -> ResponseReturnValue:
    """One more tool."""
    current_who().must("change")
    return page("bench/new_tool_page.html", form=filled(NEW[kind]), kind=kind)


@bp.post("/tools/add/<any(length, angle):kind>")
def add_tool(kind: str) -> ResponseReturnValue:
    """Put it on the list."""
    current_who().must("change")
    form = filled(NEW[kind])
    if form.validate():
        with saving(form) as act:
            services.add_tool(act.session, act.who, name=form["name"].data, kind=kind, **_said(form))
            act.goes_to(url_for("bench.tools"), "It is on the list.")
        if act.answer:
            return kept(act)
    return refused("bench/new_tool_page.html", form, kind=kind)
