"""What answers a search line."""

from typing import Annotated

from pydantic import Field

from yardapp.api.bodies.base import NO_CONTROLS, Body, Reply
from yardapp.api.bodies.items import ItemListed
from yardapp.api.bodies.vessels import VesselListed


class SearchLine(Body):
    """The search line."""

    q: Annotated[str, Field(min_length=1, max_length=80, pattern=NO_CONTROLS)] = Field(
        description="A tag, a boat by any name she bore, an owner, part of a stamp, 22 x 18, LH, bore 1-3/4."
    )


class Found(Reply):
    """Items and boats, best first."""

    items: list[ItemListed]
    boats: list[VesselListed]
