"""A coating system as its data sheet gives it: products, and the steps in order. SI, °C, shares of 1.

None and () mean that the sheet is silent; nothing here is filled in from anywhere else.
"""

from dataclasses import dataclass, field
from functools import cached_property

STEP_KINDS = (
    "strip",
    "degrease wipe",
    "etch wipe",
    "mix",
    "stir",
    "coat",
    "touch test",
    "top coat",
    "leave alone",
)
COATS = ("coat", "top coat")
PREPARING = ("strip", "degrease wipe", "etch wipe")
RATIO_BY = ("volume", "weight")
TOO_EARLY, TOO_LATE, WRONG_WEATHER, PAST_POT_LIFE = "too early", "too late", "wrong weather", "past pot life"
ASK = "Ask the supplier."


@dataclass(frozen=True, kw_only=True)
class Source:
    """Where a thing is known from: who said it, when (ISO date), which document."""

    said_by: str = ""
    said_on: str = ""
    document: str = ""
    words: str = ""


@dataclass(frozen=True, kw_only=True)
class TimeAt:
    """One row of a table of times: at this temperature, so long."""

    temperature_c: float
    time_s: float


@dataclass(frozen=True, kw_only=True)
class WindowAt:
    """One row of a window: not before `earliest_s`, not after `latest_s`; None: the sheet names no latest."""

    temperature_c: float
    earliest_s: float
    latest_s: float | None = None


@dataclass(frozen=True, kw_only=True)
class Window:
    """When the next step may follow on the same blade.

    It opens `earliest_s` after the last stroke on that blade and shuts `latest_s` after the first one, so that no spot
    of it is ever younger or older than the sheet allows. `by_touch`: it opens only when the touch test says so, too.
    """

    rows: tuple[WindowAt, ...] = ()
    by_touch: bool = False


@dataclass(frozen=True, kw_only=True)
class Part:
    """One tin of a product: its share in the mix, and how much of it a kit holds."""

    name: str
    share: float = 1.0
    density_kgpm3: float | None = None
    kit_m3: float | None = None


@dataclass(frozen=True, kw_only=True)
class Product:
    """What comes in one box: its parts, how they are mixed, and how long the mix is good."""

    name: str
    parts: tuple[Part, ...]
    ratio_by: str = "volume"
    stirring_s: float = 0.0
    induction_s: float = 0.0
    pot_life: tuple[TimeAt, ...] = ()
    solids_ratio: float | None = None
    hazards: tuple[str, ...] = ()
    source: Source = field(default_factory=Source)

    @property
    def is_mixed(self) -> bool:
        """Whether it is made of parts that begin to set when they meet."""
        return len(self.parts) > 1


@dataclass(frozen=True, kw_only=True)
class Limits:
    """The weather that a step wants; `margin_c` is how far the metal must be above the dew point."""

    metal_low_c: float | None = None
    metal_high_c: float | None = None
    air_low_c: float | None = None
    air_high_c: float | None = None
    relative_humidity_least: float | None = None
    relative_humidity_most: float | None = None
    margin_c: float = 3.0


@dataclass(frozen=True, kw_only=True)
class Film:
    """How thick, or how far it goes: what the sheet gives of the four."""

    wet_m: float | None = None
    dry_m: float | None = None
    coverage_m2pm3: float | None = None
    use_m3pm2: float | None = None


@dataclass(frozen=True, kw_only=True)
class Remedies:
    """The yard's line for each of four faults, from the system's sheet; "" where it has none."""

    too_early: str = ""
    too_late: str = ""
    wrong_weather: str = ""
    past_pot_life: str = ""

    def line(self, fault: str) -> str:
        """What to do about `fault`, or "": a fault that no sheet knows has no line."""
        return str(getattr(self, fault.replace(" ", "_"), ""))


@dataclass(frozen=True, kw_only=True)
class Step:
    """One step, in its place among the others.

    `work_ratio` is how long it takes against one coat; `cure` is the wait before immersion (of "leave alone");
    `again_s` is how long after "still wet" the finger tries again (of "touch test").
    """

    kind: str
    title: str = ""
    product: str = ""
    window: Window | None = None
    film: Film = field(default_factory=Film)
    limits: Limits | None = None
    work_ratio: float = 1.0
    cure: tuple[TimeAt, ...] = ()
    again_s: float = 300.0
    not_on: tuple[str, ...] = ()
    remedies: Remedies = field(default_factory=Remedies)
    hazards: tuple[str, ...] = ()
    source: Source = field(default_factory=Source)

    @property
    def name(self) -> str:
        """What it is called on a page."""
        return self.title or self.kind

    @property
    def is_coat(self) -> bool:
        """Whether something is left on the metal."""
        return self.kind in COATS

    @property
    def is_on_each(self) -> bool:
        """Whether each blade or piece has its own start and end of it."""
        return self.is_coat or self.kind in PREPARING


@dataclass(frozen=True, kw_only=True)
class System:
    """A whole system in one version; a job keeps the version on which it ran."""

    name: str
    products: tuple[Product, ...]
    steps: tuple[Step, ...]
    version: int = 1
    foul_release: bool = False
    not_on: tuple[str, ...] = ()
    remedies: Remedies = field(default_factory=Remedies)
    life_s: float | None = None
    notes: str = ""
    source: Source = field(default_factory=Source)

    @cached_property
    def chain(self) -> tuple[int, ...]:
        """Numbers of the steps that are done on each blade, in order."""
        return tuple(number for number, step in enumerate(self.steps) if step.is_on_each)

    @cached_property
    def coats(self) -> tuple[int, ...]:
        """Numbers of the steps that leave something on the metal, in order."""
        return tuple(number for number in self.chain if self.steps[number].is_coat)

    @property
    def cure(self) -> tuple[TimeAt, ...]:
        """Wait between the last coat and the water, by temperature."""
        return next((step.cure for step in self.steps if step.cure), ())

    def product(self, name: str) -> Product | None:
        """The product of that name."""
        return next((product for product in self.products if product.name == name), None)

    def step_after(self, number: int) -> int | None:
        """The step that follows a step of the chain on the same blade; None after the last."""
        return self._after.get(number)

    @cached_property
    def _after(self) -> dict[int, int | None]:
        return dict(zip(self.chain, (*self.chain[1:], None), strict=False))

    def test_after(self, number: int) -> Step | None:
        """The touch test between a step and the next one on the same blade."""
        end = self.step_after(number) or len(self.steps)
        return next((step for step in self.steps[number:end] if step.kind == "touch test"), None)

    def remedy(self, number: int | None, fault: str) -> str:
        """The step's line for a fault, else the system's, else to ask; nothing is made up."""
        own = self.steps[number].remedies.line(fault) if number is not None else ""
        return own or self.remedies.line(fault) or ASK
