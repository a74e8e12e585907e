"""A released sheet as it was kept, with what changed since beside it."""

from typing import Any

from flask.typing import ResponseReturnValue

from yardapp.relaunch import services
from yardapp.relaunch.showing import papers
from yardapp.relaunch.showing import sheet as showing
from yardapp.relaunch.views.door import bp
from yardapp.relaunch.views.sheet import OPEN, paper, yards
from yardapp.web import page

ACT = "<int(max=2147483647):act_id>"


def _kept(launch_id: int, act_id: int) -> tuple[services.LaunchSheet, Any]:
    sheet = yards(launch_id)
    return sheet, services.kept_release(sheet, act_id)


@bp.get(f"/{OPEN}/kept/{ACT}")
def kept_sheet(launch_id: int, act_id: int) -> ResponseReturnValue:
    """The sheet of a release."""
    sheet, act = _kept(launch_id, act_id)
    back = next((one for one in sheet.acts if one.takes_back_id == act_id), None)
    return page(
        "relaunch/kept_sheet.html",
        launch_id=launch_id,
        act=act,
        frozen=act.frozen,
        back=back,
        block=showing.kept_block(act.frozen),
        groups=showing.kept(act.frozen),
        changed=showing.change_rows(services.changed_since(sheet, act)),
    )


@bp.get(f"/{OPEN}/kept/{ACT}/sheet.pdf")
def kept_file(launch_id: int, act_id: int) -> ResponseReturnValue:
    """The same as a file."""
    sheet, act = _kept(launch_id, act_id)
    parts = papers.kept_paper(act.frozen, services.changed_since(sheet, act))
    title = f"{act.frozen['boat']}, released {act.release}"
    return paper(title, parts, title)
