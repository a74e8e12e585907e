"""A size as people write it, read."""

from pydantic import Field

from yardapp.api.bodies.base import Body, Line, Reply, Words
from yardapp.quantities import Kind


class SizeText(Body):
    """One size as it is written."""

    text: Line = Field(description='As people write it: 23 1/2", 1-3/4 in, 597, 2 ft 3 in, 1:16, 38 hp.')
    kind: Kind = Field("length", description="What is measured.")
    assume: Words | None = Field(None, description="The unit to read where none is written.")


class SizeRead(Reply):
    """The size in SI, and what had to be assumed."""

    value: float = Field(description="In `si_unit`.")
    si_unit: str
    unit: str = Field(description="The unit that was read.")
    assumed: bool = Field(description="Whether that unit was assumed.")
    why: str = Field(description="Why that unit.")
