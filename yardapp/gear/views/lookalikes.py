"""Have we seen this one? And: which one is it, when the tag is gone?"""

from typing import Any

from flask import request, url_for
from flask.typing import ResponseReturnValue

from yardapp.drawings.hand import hand_picture
from yardapp.gear import forms, services, showing
from yardapp.gear.lookalike_forms import UntaggedForm
from yardapp.gear.views import bp
from yardapp.gear.views.finding import address_of
from yardapp.web import current_who, filled, kept, page, refused, saving, snapshot

ASKED = ("kind", "hand", "diameter_m", "blades", "stamp")
PICTURES = {hand: hand_picture(hand) for hand in ("right", "left")}


@bp.get("/items/<tag>/seen-before")
def seen_before(tag: str) -> ResponseReturnValue:
    """A thing beside every other that it may be, photo beside photo."""
    who = current_who()
    with snapshot() as opened:
        found = services.seen_before(opened, who, tag)
    mine = found.item
    shown = [
        {**showing.lookalike_shown(one, who.units, address_of(one.row.tag)), "merge": _merge(one.row.tag, mine.tag)}
        for one in found.found
    ]
    return page("gear/seen_before.html", found=found, item=mine, shown=shown, plain=filled(forms.PlainForm))


def _merge(tag: str, other: str) -> str | None:
    """Where the two become one again, for those who may do so."""
    may = current_who().may("change")
    return url_for("gear.merge_page", tag=tag, other=other) if may else None


@bp.post("/items/<tag>/seen-before/<other>/apart")
def tell_apart(tag: str, other: str) -> ResponseReturnValue:
    """They were held beside each other: they are two."""
    form = filled(forms.PlainForm)
    if form.validate():
        with saving(form) as act:
            item = services.tell_apart(act.session, act.who, tag, other)
            act.goes_to(url_for("gear.seen_before", tag=item.tag), f"Written down: it is not {other.upper()}.")
        if act.answer:
            return kept(act)
    said = (form.overall or ["Open the page again, then say so once more."])[0]
    return refused("yard/no.html", form, heading="Not written down", said=said, status=422)


@bp.get("/rack/untagged")
def untagged() -> ResponseReturnValue:
    """The tag is gone or can't be read: which of these is it?"""
    who, form = current_who(), filled(UntaggedForm)
    form.process(request.args or None)
    is_fine = not request.args or form.validate()
    with snapshot() as opened:
        found, further = services.photo_grid(
            opened,
            who,
            kind=form.kind.data or "propeller",
            hand=form.hand.data or None,
            blades=int(form.blades.data) if is_fine and form.blades.data else None,
            diameter_m=form.diameter_m.data if is_fine else None,
            stamp=form.stamp.data or "",
            before=request.args.get("before", type=int),
        )
    onward: dict[str, Any] = {name: request.args[name] for name in ASKED if request.args.get(name)}
    return page(
        "gear/untagged.html",
        form=form,
        pictures=PICTURES,
        rows=[showing.pictured(one, who.units, address_of(one.row.tag)) for one in found],
        further=url_for("gear.untagged", before=further, **onward) if further else None,
    ), 200 if is_fine else 422
