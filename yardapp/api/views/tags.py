"""Blank tags: take a batch from the counter, see which still wait to be hung on something."""

from yardapp.api.bodies import tags as bodies
from yardapp.api.door import Act, creates, reads
from yardapp.gear import services
from yardapp.gear.figures import kind_of_tag


@reads("/blank-tags", reply=bodies.BlankTags)
def blank_tags(act: Act) -> bodies.BlankTags:
    """Blank tags that hang on nothing yet, in order."""
    return bodies.BlankTags(tags=[_shown(one.tag) for one in services.free_tags(act.session, act.who)])


def _taken(act: Act, key: str) -> bodies.BlankTags:
    return bodies.BlankTags(tags=[_shown(one) for one in services.tags_in(key)])


def _shown(tag: str) -> bodies.BlankTag:
    return bodies.BlankTag(tag=tag, kind=kind_of_tag(tag), address=f"/t/{tag}")


@creates("/blank-tags", body=bodies.NewBlankTags, reply=bodies.BlankTags, at="/blank-tags", shows=_taken)
def reserve_tags(act: Act, said: bodies.NewBlankTags) -> str:
    """Take so many tags of one kind, to be printed now and bound when a thing is logged."""
    tags = services.reserve_tags(act.session, act.who, kind=said.kind, count=said.count)
    return f"{tags[0]} to {tags[-1]}"
