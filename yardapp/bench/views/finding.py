"""What lies on the bench, and the ways of measuring one propeller."""

from typing import Any

from flask import redirect, request, url_for
from flask.typing import ResponseReturnValue

from yardapp.bench import forms, services, showing
from yardapp.bench.views import bp
from yardapp.bench.views.survey import in_writing_row
from yardapp.errors import NotFound
from yardapp.filters import day
from yardapp.web import current_who, page, snapshot

# What to measure first, where nothing was measured yet.
FIRST = {
    "propeller": ("diameter", "Diameter first: a tip radius with a tape takes a minute.", "Measure the diameter"),
    "shaft": ("wear", "Its diameter first, where nothing wears it and where it runs.", "Measure it"),
}


@bp.get("")
def bench() -> ResponseReturnValue:
    """The newest sheets, and a way to a propeller by its tag."""
    who, wanted = current_who(), request.args.get("tag", "").strip()[:20]
    with snapshot() as opened:
        if wanted:
            try:
                there = services.at_bench(opened, who, wanted, None)
                return redirect(url_for("bench.sheets", tag=there.item.tag))
            except NotFound as refusal:
                found, said = services.newest_sheets(opened, who), str(refusal)
        else:
            found, said = services.newest_sheets(opened, who, before=request.args.get("before", type=int)), ""
        begun = [] if said else [in_writing_row(one) for one in services.sheets_in_writing(opened, who)]
    rows = [listed(row, row.tag) for row in found]
    further = found[-1].sheet.id if len(found) == services.ON_ONE_PAGE else None
    shown = {"rows": rows, "begun": begun, "wanted": wanted, "said": said, "further": further}
    return page("bench/bench.html", **shown), 404 if said else 200


def listed(row: services.SheetRow, tag: str, *, of: str = "") -> dict[str, Any]:
    """One sheet in a list; `of`: the tag under which the thing is looked at, where the sheet may bear another."""
    outcome, sheet = services.Outcome.from_kept(row.sheet.results), row.sheet
    under = f"written under {row.tag}, " if of and row.tag != of else ""
    blade = f"blade {sheet.readings['blade']}, " if sheet.readings.get("blade") else ""
    return {
        "tag": tag,
        "href": url_for("bench.sheet", sheet_id=sheet.id),
        "size": showing.lead(sheet.method, outcome, sheet.readings, current_who().units),
        "where": f"{under}{blade}{sheet.said_by}, {day(sheet.at)}",
        "flag": _flag(row),
    }


@bp.get("/<tag>")
def sheets(tag: str) -> ResponseReturnValue:
    """The ways of measuring this propeller, and its sheets."""
    who = current_who()
    with snapshot() as opened:
        there = services.sheets_of(opened, who, tag)
    ways = [_way(face, there.item.tag) for face in showing.FACES.values() if face.of == there.item.kind]
    rows = [listed(row, showing.FACES[row.sheet.method].label, of=there.item.tag) for row in there.sheets]
    if there.item.kind == "propeller":
        href = url_for("bench.condition", tag=there.item.tag)
        ways.append({"tag": "Condition", "href": href, "size": _faults(there.open_faults)})
    begun = [services.InWriting(row=half, item=there.item, known=there.known) for half in there.begun]
    shown: dict[str, Any] = {"begun": [in_writing_row(one) for one in begun]}
    shown |= {"kind": there.item.kind, "rows": rows, "first": FIRST[there.item.kind], "pairs": _pairs(there)}
    return page("bench/sheets.html", tag=there.item.tag, ways=ways if who.may("record") else [], **shown)


def _flag(row: services.SheetRow) -> str:
    """What is to be known of a sheet before it is opened."""
    if row.replaced_by:
        return "corrected since"
    return showing.perhaps(row) or showing.before(row) or ("correction" if row.sheet.replaces_id else "")


def _faults(count: int) -> str:
    said = f"{count} open fault{'' if count == 1 else 's'}; " if count else ""
    return f"{said}faults marked on a picture, and how it rings".capitalize()


def _pairs(there: services.AtBench) -> list[tuple[str, str]]:
    """The two newest sheets of each method, place and age, to be held against each other."""
    by_method: dict[tuple[str, Any, Any], list[int]] = {}
    for row in there.sheets:
        if not row.replaced_by:
            by_method.setdefault((row.sheet.method, _place(row), row.worked_at), []).append(row.sheet.id)
    return [
        (f"{showing.FACES[method].label}{place}", url_for("bench.compare", first=ids[1], second=ids[0]))
        for (method, place, _), ids in by_method.items()
        if len(ids) > 1
    ]


def _place(row: services.SheetRow) -> str:
    """`, blade 2`: which one a sheet is of, where its method reads one at a time."""
    read = row.sheet.readings
    said = f"blade {read['blade']}" if read.get("blade") else str(read.get("bearing") or "")
    return f", {said}" if said else ""


def _way(face: showing.Face, tag: str) -> dict[str, str]:
    """One method, and in a few words what it reads."""
    about = face.about or ", ".join(kind.ABOUT for kind in forms.WAYS[face.name].values())
    return {"tag": face.label, "href": url_for(f"bench.{face.name}_sheet", tag=tag), "size": about.capitalize()}
