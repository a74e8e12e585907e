"""Blank sheets to print and take along."""

from flask import request, url_for
from flask.typing import ResponseReturnValue

from yardapp.bench import forms, paper, services, showing
from yardapp.bench.views import bp
from yardapp.web import current_who, page, snapshot


@bp.get(f"/<tag>/<any({', '.join(forms.WAYS)}):method>/blank")
def blank(tag: str, method: str) -> ResponseReturnValue:
    """One method's readings with room to write, for this propeller or shaft."""
    who = current_who()
    who.must("record")
    with snapshot() as opened:
        there = services.at_bench(opened, who, tag, showing.FACES[method].of)
    ways = forms.WAYS[method]
    way = request.args.get("way", "")
    way = way if way in ways else next(iter(ways))
    return page(
        "bench/blank.html",
        tag=there.item.tag,
        heading=f"{showing.FACES[method].heading} of {there.item.tag}, to write on",
        about=ways[way].ABOUT,
        heads=paper.HEADS[way],
        lines=paper.lines(way, there.known),
        known=paper.known_rows(there.item.tag, there.known, who.units, there.item.kind),
        drawing=paper.picture(method, way, there.known),
        note=paper.note_of(method, there.item.kind),
        caution_said=showing.FACES[method].caution,
        back=url_for(f"bench.{method}_sheet", tag=there.item.tag, way=way),
    )
