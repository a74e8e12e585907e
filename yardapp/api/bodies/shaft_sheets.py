"""Sheets of a shaft that are kept: the method, and its readings."""

from functools import reduce
from operator import or_
from typing import Annotated, Any

from pydantic import Field, RootModel

from yardapp.api.bodies.bench import sheet_of
from yardapp.api.bodies.measuring import BearingReading, RunOutReading, ShaftEndReading, WearReading

SHAFT_SHEETS = {
    method: sheet_of(method, reading)
    for method, reading in (
        ("wear", WearReading),
        ("run_out", RunOutReading),
        ("shaft_end", ShaftEndReading),
        ("bearing", BearingReading),
    )
}
AnyShaftSheet: Any = reduce(or_, SHAFT_SHEETS.values())


class NewShaftSheet(RootModel[Annotated[AnyShaftSheet, Field(discriminator="method")]]):
    """A sheet of a shaft to be kept: the method, and its readings."""
