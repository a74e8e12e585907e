"""One propeller and one drive put before the judge, and the verdict."""

from typing import Annotated, Any, Literal

from pydantic import Discriminator, Field, Tag

from yardapp.api.bodies.base import NO_CONTROLS, Assumed, Basis, Body, Hand, Id, Reply, with_sizes
from yardapp.api.bodies.drives import DRIVE_SIZES, Alloy, Behind, EngineCurve
from yardapp.api.bodies.hulls import HULL_SIZES, HullKind, PlaningKind, PowerTaken, SpeedPower
from yardapp.api.bodies.items import PROPELLER_SIZES, BladeKind, BoreKind, Metal
from yardapp.api.sizes import SI_UNITS, Size

Word = Literal["goes on", "goes on after work", "does not go on", "cannot tell"]
Group = Literal["shaft", "seat", "water", "around", "condition", "engine", "blades", "strength"]
ROOM_SIZES = (
    *DRIVE_SIZES,
    Size("vessel_length_m", "length", "Boat's length on the waterline", least=1.5, most=400.0, assume="m"),
    *HULL_SIZES,
)
FaultSaid = Annotated[str, Field(min_length=1, max_length=120, pattern=NO_CONTROLS)]


class PropellerFitWords(Body):
    """A propeller off its shaft; whatever is left out is not known."""

    hand: Hand | None = Field(None, description="By look.")
    hand_stamped: Hand | None = None
    bore_kind: BoreKind | None = None
    material: Metal | None = None
    blade_kind: BladeKind | None = Field(None, description="Left out, fixed blades are taken and that is said.")
    open_faults: list[FaultSaid] | None = Field(
        None, description="What was found and not mended; empty where somebody looked and found nothing."
    )
    basis: Basis = Field("measured", description="How the figures are known; a guess settles nothing.")


class DriveFitWords(Body):
    """The shaft end, the room around it, the engine behind it. `hull_clearance` is from the shaft's centre."""

    hand: Hand | None = Field(None, description="The hand of propeller that this drive wants.")
    is_twin: bool | None = Field(None, description="Whether it is one of two beside each other.")
    block_ratio: Annotated[float, Field(ge=0.1, le=1)] | None = Field(None, description="Block coefficient.")
    shaft_alloy: Alloy | None = Field(None, description="Metal of the shaft and its condition.")
    behind: Behind | None = Field(None, description="Rudder behind one screw, or what stands beside two.")
    hull_kind: HullKind | None = Field(None, description="Kind of hull and arrangement.")
    planing_kind: PlaningKind | None = Field(None, description="How fast a kind of planing boat.")
    speed_power: SpeedPower = Field([], description="Pairs of speed, m/s, and power, W, speeds rising.")
    speed_power_kind: PowerTaken | None = Field(None, description="Where that power is.")
    engine_curve: EngineCurve = Field([], description="Pairs of engine speed, rev/s, and power, W, speeds rising.")
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
    ask: list[Group] | None = Field(
        None,
        description="Which parts to judge. Left out: shaft and water, and each further part of which a figure of its "
        "own is given.",
        max_length=8,
    )


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
    group: Group
    verdict: Word
    says: str
    remedy: str | None
    caution: str | None
    source: str
    needs: list[Need]
    compared: list[Compared]
    sums: list[Result]


class Part(Reply):
    """One part of the question: the worst of its own checks."""

    group: Group
    verdict: Word
    checks: list[str]


class Verdict(Reply):
    """The worst of the checks, and each of them."""

    verdict: Word
    lede: str
    parts: list[Part] = Field(description="What was asked, part by part, in the order of refusal.")
    checks: list[Check]
    needs: list[Need]
    works: list[str] = Field(description="Work that would make it go on, cheapest first.")
    assumed: list[Assumed] = Field([], description="Units that had to be assumed in what was sent.")


def unit_of(kind: str) -> str | None:
    """The SI unit of a figure of the judge."""
    known: Any = kind
    return "1" if kind == "ratio" else SI_UNITS.get(known)
