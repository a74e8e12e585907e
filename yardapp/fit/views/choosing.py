"""Both ways: what goes on this drive, and on which drive this propeller goes."""

from flask import redirect, request, url_for
from flask.typing import ResponseReturnValue

from yardapp.fit import services, showing
from yardapp.fit.forms import rule_choices
from yardapp.fit.views import bp
from yardapp.web import current_who, page, snapshot


def _text(name: str) -> str:
    return request.args.get(name, "")[:80].strip()


def _first() -> int:
    return min(max(request.args.get("first", 0, type=int), 0), 10**6)


def _rule() -> str:
    rule = request.args.get("rule", "15 %")
    return rule if rule in services.RULES else "15 %"


def _bands() -> list[tuple[str, str]]:
    return rule_choices()


@bp.get("/on/<int:drive_id>")
def choose_propeller(drive_id: int) -> ResponseReturnValue:
    """What goes on this drive: the stock, ranked."""
    who = current_who()
    if _text("tag"):
        return redirect(url_for("fit.verdict", tag=_text("tag").upper(), drive_id=drive_id), code=302)
    blades = request.args.get("blades", type=int)
    asked = services.Asked(
        place=_text("place"),
        boat=_text("boat"),
        blades=blades if blades in range(2, 8) else None,
        is_aboard_too=bool(request.args.get("aboard")),
        is_for_sale=bool(request.args.get("for_sale")),
        is_any_bore=bool(request.args.get("any_bore")),
        rule=_rule(),
        first=_first(),
    )
    with snapshot() as opened:
        found = services.stock_for(opened, who, drive_id, asked, say=showing.say_in(who.units))
    rows = [
        showing.propeller_row(
            row,
            who.units,
            url_for("fit.verdict", tag=row.tag, drive_id=drive_id, rule=asked.rule),
            found.rated_speed_rps,
        )
        for row in found.rows
    ]
    return page(
        "fit/choose_propeller.html",
        found=found,
        rows=rows,
        asked=asked,
        bands=_bands(),
        counted=showing.counted(found.counts),
        further=_page_from(found.further),
    )


@bp.get("/pairs")
def pairs() -> ResponseReturnValue:
    """Pairs in stock, for the two shafts of one boat."""
    who, drive_id = current_who(), request.args.get("drive", type=int)
    asked = services.Asked(
        place=_text("place"),
        boat=_text("boat"),
        is_aboard_too=bool(request.args.get("aboard")),
        is_for_sale=bool(request.args.get("for_sale")),
        first=_first(),
    )
    with snapshot() as opened:
        found = services.pairs_in_stock(opened, who, asked, drive_id=drive_id, say=showing.say_in(who.units))
    rows = [showing.pair_row(row, who.units, url_for("fit.pair", right=row.right, left=row.left)) for row in found.rows]
    return page(
        "fit/pairs.html", found=found, rows=rows, asked=asked, drive_id=drive_id, further=_page_from(found.further)
    )


@bp.get("/pairs/<right>/<left>")
def pair(right: str, left: str) -> ResponseReturnValue:
    """Are these two a pair?"""
    who = current_who()
    with snapshot() as opened:
        one, other, verdict = services.pair(opened, who, right, left, say=showing.say_in(who.units))
    rows = showing.rows_of(verdict.checks, who.units, lambda name: url_for("front.formula", name=name))
    said = showing.PAIR[verdict.verdict]
    return page("fit/pair.html", right=one, left=other, verdict=verdict, said=said, rows=rows)


@bp.get("/<tag>")
def choose(tag: str) -> ResponseReturnValue:
    """On which drive this propeller goes: the yard's drives, ranked, and whose they are."""
    who = current_who()
    drive_id = request.args.get("drive", type=int)
    if drive_id:
        return redirect(url_for("fit.verdict", tag=tag, drive_id=drive_id), code=302)
    with snapshot() as opened:
        found = services.drives_for(
            opened, who, tag, words=_text("boat"), rule=_rule(), first=_first(), say=showing.say_in(who.units)
        )
    rows = [
        showing.drive_row(row, who.units, url_for("fit.verdict", tag=found.tag, drive_id=row.drive_id, rule=_rule()))
        for row in found.rows
    ]
    return page(
        "fit/choose.html",
        tag=found.tag,
        rows=rows,
        boat=_text("boat"),
        rule=_rule(),
        bands=_bands(),
        counted=showing.counted(found.counts),
        further=_page_from(found.further),
    )


def _page_from(first: int | None) -> str | None:
    """The address of the same list, further on."""
    if first is None:
        return None
    kept = {name: value for name, value in request.args.items() if name != "first"}
    return url_for(request.endpoint or "", **{**(request.view_args or {}), **kept, "first": first})
