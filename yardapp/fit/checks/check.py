"""What a check says: its verdict, the figures it put side by side, and what would settle it."""

from dataclasses import dataclass

GOES_ON = "goes on"
AFTER_WORK = "goes on after work"
CANNOT_TELL = "cannot tell"
NO = "does not go on"
BADNESS = (GOES_ON, AFTER_WORK, CANNOT_TELL, NO)

LAP = "lap"
SPACER = "fit a spacer"
FIT_KEY = "fit a key"
OPEN_KEYWAY = "open the keyway"
SHIFT_CUTTER = "shift the cutter"
MEND = "mend"
BORE = "bore and key"
REBORE = "re-bore"
REPITCH = "re-pitch"
CUT_DOWN = "cut down"
BEARING = "fit a bearing"
BUSH = "bush and re-bore"
ANOTHER = "another propeller"
ANOTHER_SHAFT = "another shaft"
WORKS = (  # cheapest first
    LAP,
    SPACER,
    FIT_KEY,
    OPEN_KEYWAY,
    SHIFT_CUTTER,
    MEND,
    BORE,
    REBORE,
    REPITCH,
    CUT_DOWN,
    BEARING,
    BUSH,
    ANOTHER,
    ANOTHER_SHAFT,
)

SHOP = "Bore and key work is for a competent machine or propeller shop, with the shaft or a gauge of it beside them."


@dataclass(frozen=True, kw_only=True)
class Need:
    """A reading that would settle a "cannot tell"; `figure` says whose it is, as in `drive.hull_clearance_m`."""

    figure: str
    says: str

    def __str__(self) -> str:
        return self.says


@dataclass(frozen=True, kw_only=True)
class Compared:
    """One figure as it was weighed; the ± is one standard uncertainty."""

    label: str
    value: float | str | None
    u: float | None = None
    kind: str = "words"
    basis: str | None = None


@dataclass(frozen=True, kw_only=True)
class Sum:
    """A result that can be opened: which formula, from which figures."""

    label: str
    formula: str
    inputs: tuple[Compared, ...]
    value: float
    u: float | None
    kind: str


@dataclass(frozen=True, kw_only=True)
class Check:
    """One question put to the pair, and its answer; `rests_on` names the figures that it holds for.

    `group` is one of `groups.EVERYTHING`: what was asked.
    """

    name: str
    verdict: str
    says: str
    source: str
    compared: tuple[Compared, ...] = ()
    remedy: str | None = None
    work: str | None = None
    caution: str | None = None
    needs: tuple[Need, ...] = ()
    sums: tuple[Sum, ...] = ()
    rests_on: tuple[str, ...] = ()
    group: str = "shaft"
