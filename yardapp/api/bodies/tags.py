"""Blank tags: printed beforehand, bound when a thing is logged."""

from typing import Literal

from pydantic import Field

from yardapp.api.bodies.base import Body, CountAtOnce, Reply
from yardapp.api.bodies.custody import PartKind

TagKind = Literal["propeller", "shaft"] | PartKind


class NewBlankTags(Body):
    """So many tags of one kind, taken from the counter to be printed."""

    kind: TagKind
    count: CountAtOnce


class BlankTag(Reply):
    """A tag that waits to be hung on something."""

    tag: str
    kind: str
    address: str = Field(description="What its label's code opens, on this server.")


class BlankTags(Reply):
    """Tags that wait to be hung on something, in order."""

    tags: list[BlankTag]
