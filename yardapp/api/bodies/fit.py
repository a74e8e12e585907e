"""One propeller and one drive put before the judge, and the verdict."""

from typing import Annotated, Any, Literal

from pydantic import Discriminator, Field, Tag

from yardapp.api.bodies.base import NO_CONTROLS, Assumed, Basis, Body, Hand, Id, Reply, with_sizes
from yardapp.api.bodies.drives import DRIVE_SIZES
from yardapp.api.bodies.items import PROPELLER_SIZES, BoreKind, Metal
from yardapp.api.sizes import Size

Word = Literal["goes on", "goes on after work", "does not go on", "cannot tell"]
ROOM_SIZES = (*DRIVE_SIZES, Size("vessel_length_m", "length", "Boat's length", least=1.5, most=400.0, assume="m"))


class PropellerFitWords(Body):
    """A propeller off its shaft; whatever is left out is not known."""

    hand: Hand | None = Field(None, description="By look.")
    hand_stamped: Hand | None = None
    bore_kind: BoreKind | None = None
    material: Metal | None = None
    basis: Basis = Field("measured", description="How the figures are known; a guess settles nothing.")


class DriveFitWords(Body):
    """The shaft end, the room around it, the engine behind it. `hull_clearance` is from the shaft's centre."""

    hand: Hand | None = Field(None, description="The hand of propeller that this drive wants.")
    is_twin: bool | None = Field(None, description="Whether it is one of two beside each other.")
    block_ratio: Annotated[float, Field(ge=0.1, le=1)] | None = Field(None, description="Block coefficient.")
    basis: Basis = Field("measured", description="How the figures are known; a guess settles nothing.")


PropellerFit = with_sizes("PropellerFit", PropellerFitWords, PROPELLER_SIZES)
DriveFit = with_sizes("DriveFit", DriveFitWords, ROOM_SIZES)
ItemTag = Annotated[str, Field(min_length=1, max_length=20, pattern=NO_CONTROLS)]


def _either(one: str, of: type) -> Discriminator:
    """A tag or number of the register, else figures."""
    return Discriminator(lambda sent: one if isinstance(sent, of) and not isinstance(sent, bool) else "by figures")


class Pair(Body):
    """What is put before the judge."""

    propeller: Annotated[
        Annotated[ItemTag, Tag("by tag")] | Annotated[PropellerFit, Tag("by figures")],  # type: ignore[valid-type]
        _either("by tag", str),
    ] = Field(description="A propeller's tag, or its figures.")
    drive: Annotated[
        Annotated[Id, Tag("by number")] | Annotated[DriveFit, Tag("by figures")],  # type: ignore[valid-type]
        _either("by number", int | float),
    ] = Field(description="A drive's number, or its figures.")
    rule: Literal["8 %", "10 %", "15 %", "20 %", "class"] = Field("15 %", description="The rule for room at the tips.")


class Need(Reply):
    """A reading that would settle something."""

    figure: str
    says: str


class Compared(Reply):
    """One figure as it was weighed."""

    label: str
    value: float | str | None
    unit: str | None
    plus_minus: float | None
    basis: str | None


class Result(Reply):
    """A result, to be opened."""

    label: str
    formula: str
    inputs: list[Compared]
    value: float
    unit: str | None
    plus_minus: float | None


class Check(Reply):
    """One question put to the pair, and its answer."""

    name: str
    verdict: Word
    says: str
    remedy: str | None
    caution: str | None
    source: str
    needs: list[Need]
    compared: list[Compared]
    sums: list[Result]


class Verdict(Reply):
    """The worst of the checks, and each of them."""

    verdict: Word
    lede: str
    checks: list[Check]
    needs: list[Need]
    works: list[str] = Field(description="Work that would make it go on, cheapest first.")
    assumed: list[Assumed] = Field([], description="Units that had to be assumed in what was sent.")


def unit_of(kind: str) -> str | None:
    """The SI unit of a figure of the judge."""
    units: dict[str, Any] = {"length": "m", "power": "W", "taper": "1", "ratio": "1", "count": "1"}
    return units.get(kind)
