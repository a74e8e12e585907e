"""What is said of an item afterwards: one more statement, a move, work that changed it."""

from datetime import datetime
from typing import Annotated, Literal

from pydantic import AfterValidator, AwareDatetime, Field

from yardapp.api.bodies.base import Basis, Body, Hand, Id, Line, Place, with_sizes
from yardapp.api.bodies.items import PROPELLER_SIZES, SHAFT_SIZES, BoreKind, Metal

EARLIEST = 1850  # no propeller of a yard is older


def _in_reach(moment: datetime) -> datetime:
    if not EARLIEST <= moment.year <= 9000:
        raise ValueError(f"lies before {EARLIEST} or far ahead.")
    return moment


Moment = Annotated[AwareDatetime, AfterValidator(_in_reach)]


class StatementWords(Body):
    """One or more figures, said of an item that has a tag."""

    basis: Basis = Field("measured", description="How the figures are known.")
    material: Metal | None = None
    note: Line = Field("", description="Where it comes from: which paper, which tool, who said so.")


class PropellerStatementWords(StatementWords):
    """One or more figures, said of a propeller that has a tag."""

    hand: Hand | None = None
    bore_kind: BoreKind | None = None


PropellerStatements = with_sizes("PropellerStatements", PropellerStatementWords, PROPELLER_SIZES)
ShaftStatements = with_sizes("ShaftStatements", StatementWords, SHAFT_SIZES)


class Move(Body):
    """From one place to another; an item is in one place at a time."""

    kind: Literal["moved", "went on", "came off", "sold", "scrapped", "lost", "found"]
    place: Place | None = Field(None, description="Where it was put.")
    drive_id: Id | None = Field(None, description="The drive that it went on.")
    at: Moment | None = Field(None, description="When; now, where it is left out.")
    note: Line = ""


class WorkWords(Body):
    """Work that changed it: figures read before no longer speak, those given here are of its outcome."""

    kind: Literal["re-pitched", "straightened", "cut down", "re-bored", "keyed"]
    basis: Basis = Field("paper", description="How the figures are known: the shop's word is paper.")
    at: Moment | None = Field(None, description="When; now, where it is left out.")
    note: Line = Field("", description="By whom, why.")


Work = with_sizes("Work", WorkWords, PROPELLER_SIZES)
