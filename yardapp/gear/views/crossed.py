"""Is this what the tag says? Look at both, and swap the tags in one act with two names."""

from datetime import UTC, datetime, time
from typing import Any

from flask import request, url_for
from flask.typing import ResponseReturnValue

from yardapp.forms import options
from yardapp.gear import services, showing
from yardapp.gear.crossed import Seen
from yardapp.gear.move_forms import SeenForm, SwapForm
from yardapp.gear.views import bp
from yardapp.gear.views.finding import address_of
from yardapp.people import services as people
from yardapp.web import current_who, filled, kept, page, refused, saving, snapshot

WHATS = ("hand", "blades", "diameter_m", "mass_kg", "stamp")


def seen_in(form: SeenForm, prefix: str = "") -> Seen:
    """What the form says was seen."""
    looked: dict[str, Any] = {what: form[f"{prefix}{what}"].data or None for what in WHATS}
    return Seen(**{**looked, "stamp": looked["stamp"] or ""})


@bp.get("/items/<tag>/seen")
def seen(tag: str) -> ResponseReturnValue:
    """Hold what is seen against what the register has under the tag. Nothing is saved."""
    who, form = current_who(), filled(SeenForm)
    form.process(request.args or None)
    looked = seen_in(form)
    with snapshot() as opened:
        found = services.look_at(opened, who, tag, looked)
    return page(
        "gear/seen.html",
        form=form,
        item=found.item,
        is_asked=not looked.is_empty,
        doubt=showing.doubt_shown(found, who.units),
        others=[showing.listed(row, who.units, _swap_address(found.item.tag, row.tag)) for row in found.others],
        back=address_of(found.item.tag),
    )


def _swap_address(tag: str, other: str) -> str:
    kept_args: dict[str, Any] = {what: request.args.get(what, "")[:80] for what in WHATS if request.args.get(what)}
    return url_for("gear.swap_page", tag=tag, other_tag=other, **kept_args)


def _form(tag: str, other_tag: str, form: SwapForm) -> dict[str, Any]:
    """Both things, and the people of the yard who may be the second name."""
    who = current_who()
    with snapshot() as opened:
        item, other = services.pair(opened, who, tag, other_tag)
        everybody = people.people(opened)
    second = [(str(one.id), one.name) for one in everybody if one.is_here and one.role != "owner"]
    mine = str(who.person_id)
    form.second_id.choices = options([("", "choose a name"), *(one for one in second if one[0] != mine)])
    both = [showing.side_shown(one, who.units) for one in (item, other) if one is not None]
    return {"item": item, "other": other, "both": both, "form": form, "back": address_of(item.tag)}


@bp.get("/items/<tag>/swap")
def swap_page(tag: str) -> ResponseReturnValue:
    """Look at the other one too."""
    current_who().must("record")
    form = filled(SwapForm)
    form.process(request.args or None)
    form.other_tag.errors = ()
    return page("gear/swap_page.html", **_form(tag, form.other_tag.data or "", form))


@bp.post("/items/<tag>/swap")
def swap_tags(tag: str) -> ResponseReturnValue:
    """Swap them."""
    form = filled(SwapForm)
    shown = _form(tag, form.other_tag.data or "", form)
    if form.validate():
        since = datetime.combine(form.since_on.data, time(0), UTC) if form.since_on.data else None
        with saving(form) as act:
            _item, other = services.swap_tags(
                act.session,
                act.who,
                tag,
                form.other_tag.data or "",
                second_id=form.second_id.data,
                seen=seen_in(form),
                seen_at_other=seen_in(form, "other_"),
                since=since,
                why=form.why.data or "",
            )
            act.goes_to(shown["back"], f"Swapped with {other.tag}. What was written between is marked on both.")
        if act.answer:
            return kept(act)
    return refused("gear/swap_page.html", **shown)
