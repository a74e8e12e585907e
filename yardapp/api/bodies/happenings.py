"""What is said of an item afterwards: one more statement, a move, work that changed it."""

from datetime import date, datetime
from typing import Annotated, Literal

from pydantic import AfterValidator, AwareDatetime, Field

from yardapp.api.bodies.base import NO_CONTROLS, Basis, Body, Hand, Id, Line, Words, with_sizes
from yardapp.api.bodies.items import PROPELLER_SIZES, SHAFT_SIZES, BoreKind, Metal
from yardapp.api.sizes import Size

EARLIEST = 1850  # no propeller of a yard is older


def _in_reach(moment: datetime) -> datetime:
    if not EARLIEST <= moment.year <= 9000:
        raise ValueError(f"lies before {EARLIEST} or far ahead.")
    return moment


ShortPlace = Annotated[str, Field(min_length=1, max_length=100, pattern=NO_CONTROLS)]
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

    kind: Literal[
        "moved",
        "went on",
        "came off",
        "to shop",
        "back from shop",
        "lent",
        "back from loan",
        "sold",
        "scrapped",
        "lost",
        "stolen",
        "found",
        "came back",
    ]
    place: ShortPlace | None = Field(None, description="Where it was put, which shop, or who has it now.")
    drive_id: Id | None = Field(None, description="The drive that it went on.")
    at: Moment | None = Field(None, description="When; now, where it is left out.")
    due_on: date | None = Field(None, description="When it is expected back from the shop or the loan.")
    is_alone: bool = Field(False, description="It leaves its set; without this the whole set moves.")
    note: Line = ""


# Work is done on shafts and other parts too: their diameters are a propeller's no longer.
OF_ANY_THING = (
    Size("diameter_m", "length", "Diameter", least=0.008, most=12.0),
    Size("bore_large_m", "length", "Bore, large end", least=0.005, most=0.6),
)
WORK_SIZES = tuple({size.name: size for size in (*PROPELLER_SIZES, *OF_ANY_THING)}.values())


class AsFound(Body):
    """Figures as they were found before the work."""


WorkFound = with_sizes("WorkFound", AsFound, WORK_SIZES)


class WorkWords(Body):
    """Work that changed it: figures read before no longer speak, those given here are of its outcome."""

    kind: Literal[
        "inspected",
        "straightened",
        "re-pitched",
        "cut down",
        "bored",
        "re-bored",
        "keyed",
        "re-stamped",
        "welded",
        "polished",
        "balanced",
    ]
    by_whom: Words = Field("", description="The shop, or who did it.")
    cost: Annotated[str, Field(max_length=40, pattern=NO_CONTROLS)] = Field("", description="As it is written.")
    found: WorkFound | None = Field(None, description="The figures as found; those beside `kind` are as left.")  # type: ignore[valid-type]
    basis: Basis = Field("paper", description="How the figures are known: the shop's word is paper.")
    at: Moment | None = Field(None, description="When; now, where it is left out.")
    note: Line = Field("", description="By whom, why.")


Work = with_sizes("Work", WorkWords, WORK_SIZES)
