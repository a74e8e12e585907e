"""The room's first page: jobs that run, jobs that ran."""

from typing import Any

from flask import request, url_for
from flask.typing import ResponseReturnValue

from yardapp.coating import services
from yardapp.coating.views import bp
from yardapp.filters import day
from yardapp.web import current_who, page, snapshot


@bp.get("")
def coating() -> ResponseReturnValue:
    """Jobs that run, newest first; those that are over, where they are asked for."""
    is_open = request.args.get("show") != "over"
    before = request.args.get("before", type=int)
    with snapshot() as opened:
        rows = services.jobs(opened, current_who(), is_open=is_open, before=before)
    further = rows[-1].id if len(rows) == services.PAGE else None
    return page("coating/coating.html", rows=[_listed(row) for row in rows], is_open=is_open, further=further)


def _listed(row: services.JobRow) -> dict[str, Any]:
    launch = f"; launch {day(row.launches)}" if row.launches else ""
    return {
        "tag": row.title,
        "href": url_for("coating.job", job_id=row.id),
        "size": f"{row.system}, version {row.version}",
        "where": f"planned {day(row.planned)}, {row.said_by}{launch}",
    }
