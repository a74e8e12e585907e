"""Where a printed tag leads: to the thing that it hangs on, or, when it is blank, to the page that logs one."""

from flask import redirect, url_for
from flask.typing import ResponseReturnValue

from yardapp.errors import NotFound
from yardapp.gear import services
from yardapp.gear.views import bp
from yardapp.gear.views.finding import address_of
from yardapp.web import current_who, snapshot


@bp.get("/t/<tag>")
def tag(tag: str) -> ResponseReturnValue:
    """The short address on a tag's label. What was printed once must answer for ever."""
    who = current_who()
    with snapshot() as opened:
        try:
            return redirect(address_of(services.item_by_tag(opened, who, tag).tag), code=302)
        except NotFound:
            kind = services.blank_kind(opened, who, tag)
            if kind is None:
                raise
    return redirect(log_address(kind, tag.strip().upper()), code=302)


def log_address(kind: str, tag: str) -> str:
    """The page on which a thing of that kind is logged under a tag that is tied on already."""
    pages = {"propeller": "gear.log_page", "shaft": "gear.log_shaft_page"}
    if kind in pages:
        return url_for(pages[kind], tag=tag)
    return url_for("gear.log_part_page", kind=kind, tag=tag)
