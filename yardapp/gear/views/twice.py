"""One thing that was logged twice: keep one tag, let the other lead to it; and part them again."""

from flask import request
from flask.typing import ResponseReturnValue

from yardapp.gear import services
from yardapp.gear.move_forms import MergeForm, PartForm
from yardapp.gear.views import bp
from yardapp.gear.views.finding import address_of
from yardapp.web import current_who, filled, kept, page, refused, saving, snapshot


def _kept(tag: str) -> services.Item:
    with snapshot() as opened:
        return services.item_by_tag(opened, current_who(), tag)


@bp.get("/items/<tag>/twice")
def merge_page(tag: str) -> ResponseReturnValue:
    """Which other tag hangs on it?"""
    current_who().must("change")
    item, form = _kept(tag), filled(MergeForm)
    form.other_tag.data = request.args.get("other", "")[:20]
    return page("gear/merge_page.html", form=form, item=item, back=address_of(item.tag))


@bp.post("/items/<tag>/twice")
def merge_items(tag: str) -> ResponseReturnValue:
    """Keep this tag; the other leads to it."""
    form, item = filled(MergeForm), _kept(tag)
    if form.validate():
        with saving(form) as act:
            other = (form.other_tag.data or "").strip().upper()
            is_there = form.where.data == "other"
            services.merge_items(
                act.session, act.who, item.tag, other, why=form.why.data or "", is_where_the_other_is=is_there
            )
            act.goes_to(address_of(item.tag), f"{other} leads here now; nothing of it was lost.")
        if act.answer:
            return kept(act)
    return refused("gear/merge_page.html", form, item=item, back=address_of(item.tag))


@bp.get("/items/<tag>/apart")
def part_page(tag: str) -> ResponseReturnValue:
    """Two tags were merged by mistake."""
    current_who().must("change")
    item = _kept(tag)
    return page("gear/part_page.html", form=filled(PartForm), item=item, tag=tag.upper(), back=address_of(item.tag))


@bp.post("/items/<tag>/apart")
def part_again(tag: str) -> ResponseReturnValue:
    """The other stands for itself again."""
    form, item = filled(PartForm), _kept(tag)
    if form.validate():
        with saving(form) as act:
            other = services.part_again(act.session, act.who, tag, why=form.why.data or "")
            act.goes_to(address_of(other.tag), f"{other.tag} stands for itself again.")
        if act.answer:
            return kept(act)
    return refused("gear/part_page.html", form, item=item, tag=tag.upper(), back=address_of(item.tag))
