"""Two sheets side by side."""

from collections.abc import Sequence

from flask import request, url_for
from flask.typing import ResponseReturnValue

from yardapp.bench import services, showing
from yardapp.bench.showing import comparing as words
from yardapp.bench.views import bp
from yardapp.errors import NotFound, Refused
from yardapp.filters import day
from yardapp.web import current_who, page, snapshot


@bp.get("/compare")
def compare() -> ResponseReturnValue:
    """How far two sheets of one thing are apart, and whether within their ±."""
    who = current_who()
    ids = [request.args.get(name, type=int) for name in ("first", "second")]
    if None in ids:
        raise NotFound("Which two sheets?")
    with snapshot() as opened:
        try:
            found = services.compare_sheets(opened, who, ids[0] or 0, ids[1] or 0)
        except Refused as refusal:
            raise NotFound(refusal.said) from None
    face = showing.FACES[found.first.sheet.method]
    return page(
        "bench/compare.html",
        heading=f"Two sheets of {found.item.tag}",
        tag=found.item.tag,
        label=face.label,
        first=found.first,
        second=found.second,
        verdict=words.verdict(found, who.units) if found.differences else None,
        rows=words.rows(found, who.units),
        remarks=words.remarks(found),
    )


def others_to_compare(sheet_id: int, others: Sequence[services.Sheet]) -> list[tuple[str, str]]:
    """Other sheets that one may be held against, each with the page that does so, the older one first."""
    return [
        (
            f"{one.said_by}, {day(one.at)}, sheet {one.id}",
            url_for("bench.compare", first=min(one.id, sheet_id), second=max(one.id, sheet_id)),
        )
        for one in others
    ]
