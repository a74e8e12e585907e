"""One propeller against one drive: its readings with their ±, and the words and sums that a check is built of."""

from dataclasses import dataclass, replace
from functools import cached_property
from typing import Any

from uncertainties import UFloat

from yardapp.fit.checks.check import CANNOT_TELL, Check, Compared, Need, Sum
from yardapp.fit.checks.readings import (
    ENDS,
    HUB_TAPER,
    LARGE,
    READINGS,
    SHAFT,
    SHAFT_TAPER,
    assumed_u,
    is_none_there,
)
from yardapp.fit.checks.sums import add_up, measured, size
from yardapp.fit.checks.weighing import at_most, is_sane
from yardapp.fit.checks.words import Say, listed, sentence
from yardapp.fit.figures import DriveFigures, Figure, Limits, PropellerFigures
from yardapp.formulas.ranges import OutsideRange
from yardapp.formulas.taper import set_up, taper_from_ends

# SAE J755 lets a bore's taper come out 0.0020 in per foot slow (secondary): less than that is no difference.
SAME_TAPER = 0.0020 / 12
HANDS = {"right": "right", "rh": "right", "r": "right", "left": "left", "lh": "left", "l": "left"}
MOST_U_SHARE = 10.0


@dataclass(frozen=True, kw_only=True)
class Case:
    """The pair in question. A figure is called by its path, as in `drive.hub_space_m`."""

    propeller: PropellerFigures
    drive: DriveFigures
    rule: str
    say: Say
    limits: Limits

    def figure(self, path: str) -> Any:
        """What was handed in, unjudged."""
        owner, name = path.split(".")
        return getattr(getattr(self, owner), name)

    @cached_property
    def _kept(self) -> dict[str, UFloat | None]:
        return {}

    def known(self, path: str) -> UFloat | None:
        """The figure with its ±; None where it is not known or can't be right."""
        kept = self._kept
        if path not in kept:
            kept[path] = self._read(path)
        return kept[path]

    def _read(self, path: str) -> UFloat | None:
        reading, figure = READINGS.get(path), self.figure(path)
        if reading is None or figure is None or not is_sane(figure.value, reading.least, reading.most):
            return None
        return measured(figure.value, _u(figure, reading.kind))

    def surely(self, path: str) -> UFloat:
        """The figure with its ±, where a check has made sure that it is known."""
        known = self.known(path)
        assert known is not None, path
        return known

    def unknown(self, *paths: str) -> tuple[str, ...]:
        """Those of the figures that are not known."""
        return tuple(path for path in paths if self.known(path) is None)

    def has_none(self, path: str) -> bool:
        """Tell whether somebody looked for this keyway and found none."""
        figure = self.figure(path)
        return figure is not None and is_none_there(path, figure)

    def hand(self, path: str) -> str | None:
        """Right, left, or not known."""
        return HANDS.get(str(self.figure(path) or "").strip().lower())

    def tell(self, path: str) -> str:
        """The figure in words."""
        reading = self.surely(path)
        return self.say(READINGS[path].kind, reading.n, reading.s)

    def tell_length(self, length: UFloat) -> str:
        """A length in words, its sign left to the sentence."""
        return self.say("length", abs(length.n), length.s)

    def tell_size(self, path: str) -> str:
        """The figure in words without its ±, as one tells a shop what to make."""
        return self.say(READINGS[path].kind, self.surely(path).n, None)

    def compared(self, *paths: str) -> tuple[Compared, ...]:
        """The figures as they were weighed; None for what is not known."""
        return tuple(self._compared(path) for path in paths)

    def _compared(self, path: str) -> Compared:
        label, kind = sentence(READINGS[path].label), READINGS[path].kind
        reading, figure = self.known(path), self.figure(path)
        if reading is None:
            return Compared(label=label, value=0.0 if self.has_none(path) else None, kind=kind)
        return Compared(label=label, value=reading.n, u=reading.s, kind=kind, basis=figure.basis)

    def needs(self, *paths: str) -> tuple[Need, ...]:
        """What to read, in words."""
        return tuple(Need(figure=path, says=self._how(path)) for path in paths)

    def _how(self, path: str) -> str:
        reading, figure = READINGS[path], self.figure(path)
        if figure is None or self.known(path) is not None or self.has_none(path):
            return reading.how
        return f"{reading.how} What is written can't be right."

    def cannot_tell(self, name: str, says: str, source: str, *paths: str, missing: tuple[str, ...] = ()) -> Check:
        """A check that lacks the readings `missing`; it puts `paths` side by side all the same."""
        return Check(
            name=name,
            verdict=CANNOT_TELL,
            says=says,
            source=source,
            compared=self.compared(*paths),
            needs=self.needs(*missing),
            rests_on=paths,
        )

    def lacking(self, name: str, source: str, *paths: str) -> Check:
        """A check that can't be made for want of figures: it says which, and how to read them."""
        missing = self.unknown(*paths)
        labels = [READINGS[path].label for path in missing]
        says = f"The {listed(labels, 'and the')} {'is' if len(labels) == 1 else 'are'} not known."
        return self.cannot_tell(name, says, source, *paths, missing=missing)

    @cached_property
    def taper_from_bore(self) -> tuple[UFloat, Sum] | None:
        """The hub's taper out of both ends of its bore; None where they don't give one."""
        if self.unknown(*ENDS):
            return None
        large, small, length = (self.surely(path) for path in ENDS)
        try:
            taper, workings = add_up(
                "Taper of the hub from its ends",
                taper_from_ends,
                "taper",
                large_m=large,
                small_m=small,
                length_m=length,
            )
        except OutsideRange:
            return None
        return (taper, workings) if is_sane(taper.n, READINGS[HUB_TAPER].least, READINGS[HUB_TAPER].most) else None

    @cached_property
    def set_up(self) -> tuple[UFloat, Sum] | None:
        """How far the hub's large end passes the taper's, if both are on one taper; None where a figure lacks."""
        large, shaft, taper = self.known(LARGE), self.known(SHAFT), self.known(SHAFT_TAPER)
        if large is None or shaft is None or taper is None:
            return None
        return add_up("Set-up", set_up, "length", bore_large_m=large, shaft_large_m=shaft, taper=taper)

    @property
    def hub_taper(self) -> UFloat | None:
        """The hub's taper as read, else out of its ends."""
        if (read := self.known(HUB_TAPER)) is not None:
            return read
        return self.taper_from_bore[0] if self.taper_from_bore else None

    @property
    def hub_taper_rests_on(self) -> tuple[str, ...]:
        """Which figures the hub's taper comes out of."""
        return ENDS if self.known(HUB_TAPER) is None and self.taper_from_bore else (HUB_TAPER,)

    @property
    def ends_contradict_taper(self) -> bool:
        """Tell whether the taper on record is not the one that the bore's ends give."""
        read = self.known(HUB_TAPER)
        if read is None or self.taper_from_bore is None:
            return False
        return at_most(size(read - self.taper_from_bore[0]), SAME_TAPER) is False

    def doubted(self, check: Check) -> Check:
        """The check, or "cannot tell" where it rests on a guess or on figures that contradict each other."""
        doubts = [(path, self._doubt(path)) for path in check.rests_on]
        doubts = [(path, doubt) for path, doubt in doubts if doubt]
        if not doubts:
            return replace(check, says=check.says + self._assumed(check.rests_on))
        needs = tuple(dict.fromkeys(check.needs + self.needs(*(path for path, _ in doubts if path in READINGS))))
        says = " ".join([*(doubt for _, doubt in doubts), check.says])
        return replace(check, verdict=CANNOT_TELL, says=says, needs=needs)

    def _doubt(self, path: str) -> str:
        owner, name = path.split(".")
        label = READINGS[path].label if path in READINGS else name.replace("_", " ")
        if name in getattr(self, owner).contradictions:
            return f"What is known about the {label} disagrees with itself: measure it again."
        basis = getattr(self.figure(path), "basis", None)
        return f"The {label} is only guessed." if basis == "guessed" else ""

    def _assumed(self, paths: tuple[str, ...]) -> str:
        bare = [
            path
            for path in paths
            if (reading := self.known(path)) is not None and not _is_said(self.figure(path)) and reading.s
        ]
        if not bare:
            return ""
        told = [f"{READINGS[path].label} {self.tell(path)}" for path in bare]
        return f" No ± was given; assumed: {listed(told)}."


def _is_said(figure: Figure) -> bool:
    return figure.u is not None and is_sane(figure.u, 0.0, float("inf"))


def _u(figure: Figure, kind: str) -> float:
    # A ± of many times the figure says no more than "not known", and its square would overflow.
    if figure.u is None or not _is_said(figure):
        return assumed_u(kind, figure.value)
    return min(figure.u, MOST_U_SHARE * figure.value)
