"""Where things are and what belongs together: parts, sets, bins, what is away, tags merged and swapped."""

from collections.abc import Callable
from typing import Any

from yardapp.api.bodies import custody as bodies
from yardapp.api.bodies import items as item_bodies
from yardapp.api.door import Act, creates, reads
from yardapp.api.views import items
from yardapp.db import now
from yardapp.errors import NotFound, Refused
from yardapp.gear import services
from yardapp.gear.crossed import Seen
from yardapp.gear.figures import figures_of


def _shown(act: Act, key: str, **_path: Any) -> item_bodies.Item:
    return items.shown(act, key, services.item_by_tag(act.session, act.who, key).kind)


@reads("/parts", query=bodies.PartPage, reply=item_bodies.Items)
def parts(act: Act, asked: bodies.PartPage) -> item_bodies.Items:
    """Nuts, keys, anodes and the rest, newest first."""
    return items.page_of(act, asked.kind or "parts", asked)


@creates("/parts", body=bodies.NewPart, reply=item_bodies.Item, at="/items/{key}", shows=_shown)
def log_part(act: Act, said: bodies.PartWords) -> str:
    """Give a part a tag; its figures are evidence."""
    told = items.figures_said(said, bodies.PART_SIZES)
    words = {name: getattr(said, name) for name in bodies.PART_WORDS if getattr(said, name)}
    items.must_be_there(act, said.came_off_id)
    _must_have(said.kind, [*told, *words])
    figures: dict[str, Any] = {name: one.value for name, one in told.items()} | words
    figures |= {f"{name}_typed": one.typed for name, one in told.items()}
    return _named(
        "with_tag",
        lambda: (
            services.log_part(
                act.session,
                act.who,
                kind=said.kind,
                place=said.place or "",
                with_tag=said.with_tag or "",
                came_off_id=said.came_off_id,
                note=said.note,
                tag=said.tag,
                **figures,
            ).tag
        ),
    )


def _must_have(kind: str, names: list[str]) -> None:
    has = {figure.name for figure in figures_of(kind)}
    for name in names:
        if name not in has:
            raise Refused(f"A {kind} has no figure called {name}.", name)


def _named(field: str, done: Callable[[], str]) -> str:
    """A tag in a body that nothing carries is a wrong field, not a wrong address."""
    try:
        return done()
    except NotFound as refusal:
        raise Refused(str(refusal), field) from None


@creates("/items/{tag}/undone", body=bodies.Undo, reply=item_bodies.Item, at="/items/{key}", shows=_shown)
def undo_move(act: Act, said: bodies.Undo, tag: str) -> str:
    """Undo a wrong move, and what moved with it; the line stays, and the place is derived again."""
    item = services.item_by_tag(act.session, act.who, tag)
    page = services.item_page(act.session, act.who, item.tag)
    if said.event_id not in {line.id for line in page.events if line.tag == item.tag}:
        raise Refused("There is no such move of this item.", "event_id")
    return services.undo_move(act.session, act.who, said.event_id, why=said.why).tag


def _set_of(act: Act, key: str, **_path: Any) -> bodies.SetOf:
    page = services.set_page(act.session, act.who, int(key))
    return bodies.SetOf(id=page.set.id, name=page.set.name, items=[items.listed(row) for row in page.items])


@reads("/sets/{set_id}", reply=bodies.SetOf)
def set_of_parts(act: Act, set_id: int) -> bodies.SetOf:
    """What comes off and goes on together."""
    return _set_of(act, str(set_id))


@creates("/items/{tag}/together", body=bodies.Together, reply=bodies.SetOf, at="/sets/{key}", shows=_set_of)
def keep_together(act: Act, said: bodies.Together, tag: str) -> str:
    """Keep things together with this one: they move together from now on."""
    return str(services.keep_together(act.session, act.who, tag, said.tags, name=said.name).id)


@creates("/items/{tag}/alone", body=bodies.Leave, reply=item_bodies.Item, at="/items/{key}", shows=_shown)
def leave_set(act: Act, said: bodies.Leave, tag: str) -> str:
    """Take an item out of its set; it stays where it is."""
    return services.leave_set(act.session, act.who, tag, why=said.why).tag


@reads("/away", reply=bodies.AwayList)
def away(act: Act) -> bodies.AwayList:
    """What is at a shop or lent, late ones first."""
    found = services.away(act.session, act.who, now().date())
    return bodies.AwayList(
        items=[
            bodies.AwayItem(
                item=items.listed(one.item),
                since=one.since,
                due_on=one.due_on,
                days_late=one.days_late,
                chased=one.chased,
            )
            for one in found
        ]
    )


@creates("/items/{tag}/chase", body=bodies.Chase, reply=item_bodies.Item, at="/items/{key}", shows=_shown)
def chase(act: Act, said: bodies.Chase, tag: str) -> str:
    """Write down whom you asked after it, and what they promise now."""
    return services.chase(act.session, act.who, tag, said=said.said, due_on=said.due_on).tag


@creates("/items/{tag}/declined", body=bodies.Declined, reply=item_bodies.Item, at="/items/{key}", shows=_shown)
def decline_work(act: Act, said: bodies.Declined, tag: str) -> str:
    """Write down work that was offered and declined, with the name."""
    return services.decline_work(
        act.session, act.who, tag, offered=said.offered, declined_by=said.declined_by, why=said.why
    ).tag


@creates("/items/{tag}/merged", body=bodies.Merge, reply=item_bodies.Item, at="/items/{key}", shows=_shown)
def merge_items(act: Act, said: bodies.Merge, tag: str) -> str:
    """One thing was logged twice: this tag is kept, the other leads to it, and no line of either is lost."""
    kept = services.item_by_tag(act.session, act.who, tag)
    is_there = said.is_where_the_other_is
    return services.merge_items(
        act.session, act.who, kept.tag, said.other_tag, why=said.why, is_where_the_other_is=is_there
    ).tag


@creates("/items/{tag}/swapped", body=bodies.Swap, reply=item_bodies.Item, at="/items/{key}", shows=_shown)
def swap_tags(act: Act, said: bodies.Swap, tag: str) -> str:
    """Two tags had crossed: both are tied to the right thing again, in one act with two names."""
    item = services.item_by_tag(act.session, act.who, tag)
    seen, at_other = _seen(said.seen, "seen."), _seen(said.seen_at_other, "seen_at_other.")
    return _named(
        "other_tag",
        lambda: (
            services.swap_tags(
                act.session,
                act.who,
                item.tag,
                said.other_tag,
                second_id=said.second_id,
                seen=seen,
                seen_at_other=at_other,
                why=said.why,
            )[0].tag
        ),
    )


def _seen(said: Any, within: str) -> Seen:
    sizes = {name: one.value for name, one in items.figures_said(said, bodies.LookSizes, within).items()}
    return Seen(hand=said.hand, blades=said.blades, stamp=said.stamp, **sizes)


@reads("/bins", reply=bodies.Bins)
def bins(act: Act) -> bodies.Bins:
    """The rack map: every bin, and how much is in it."""
    return _bins(act)


def _bins(act: Act, key: str = "", **_path: Any) -> bodies.Bins:
    found = services.rack_map(act.session, act.who, rack=key)
    return bodies.Bins(bins=[bodies.OneBin.model_validate(one, from_attributes=True) for one in found])


@creates("/bins", body=bodies.NewBins, reply=bodies.Bins, at="/bins", shows=_bins)
def add_bins(act: Act, said: bodies.NewBins) -> str:
    """Put a rack on the map; what lies there in words lies in its bins from then on."""
    made = services.add_bins(act.session, act.who, rack=said.rack, shelves=said.shelves, bins=said.bins)
    return made[0].rack
