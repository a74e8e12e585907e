"""What would it be stamped? And what the register teaches about a table."""

from flask import request
from flask.typing import ResponseReturnValue

from yardapp.marks import forms, services, showing
from yardapp.marks.views.door import bp
from yardapp.web import current_who, page, snapshot


@bp.get("/reverse")
def reverse_page() -> ResponseReturnValue:
    """What a propeller of these sizes would be stamped, by every table."""
    who = current_who()
    who.must("see")
    form = forms.ReverseForm(request.args if request.args else None, meta={"system": who.units})
    wanted = form.wanted() if form.validate() else {}
    found = None
    if wanted:
        with snapshot() as opened:
            found = services.would_be_stamped(opened, who, wanted)
    shown = None if found is None else showing.reversing.stamped(found, who.units)
    return page("marks/reverse.html", form=form, found=shown)


@bp.get("/tables/<int:table_id>/learn")
def learn_page(table_id: int) -> ResponseReturnValue:
    """What the measured propellers of the register propose for a table."""
    with snapshot() as opened:
        found = services.learned(opened, current_who(), table_id)
    shown = showing.reversing.proposals(found)
    return page("marks/learn.html", table=found.table, proposals=shown, left_out=found.left_out)
