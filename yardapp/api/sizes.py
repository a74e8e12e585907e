"""Figures as they come in: text under a plain name ("diameter": "22 in"), or SI under the full one ("diameter_m")."""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

from yardapp import quantities
from yardapp.api.problems import Unfit
from yardapp.quantities import Kind
from yardapp.quantities.asking import AT_MOST, WHAT

K = 2  # a ± that people type and read
SI_UNITS: dict[Kind, str] = {
    "length": "m",
    "angle": "rad",
    "taper": "1",
    "power": "W",
    "rotation": "rev/s",
    "speed": "m/s",
    "mass": "kg",
    "number": "1",
    "count": "1",
    "force": "N",
    "torque": "N m",
    "pressure": "Pa",
    "area": "m²",
    "volume": "m³",
    "density": "kg/m³",
    "temperature": "°C",
    "duration": "s",
}
ENDINGS = ("_m", "_m2", "_rad", "_w", "_rps", "_kg", "_ratio")
UNITLESS: tuple[Kind, ...] = ("taper", "number", "count")


@dataclass(frozen=True)
class Size:
    """One figure: its full name, what it measures, how people call it, and between which bounds (SI) it can be true.

    Without `least` it lies above zero; `assume` is the unit of a text that has none, where not every size's will do.
    """

    name: str
    kind: Kind
    says: str
    least: float | None = None
    most: float | None = None
    assume: str | None = None

    @property
    def plain(self) -> str:
        """The name under which text comes in; of a taper, a count and a ratio the full name itself."""
        ending = next((ending for ending in ENDINGS if self.name.endswith(ending)), "")
        return self.name.removesuffix(ending)

    @property
    def unit(self) -> str:
        """The SI unit."""
        return SI_UNITS[self.kind]

    @property
    def at_most(self) -> float:
        """What is beyond this is a slip of the finger."""
        return AT_MOST[self.kind] if self.most is None else self.most


@dataclass(frozen=True, kw_only=True)
class Told:
    """One figure that came in: SI, standard uncertainty (k = 1), and how it was written."""

    size: Size
    field: str
    value: float
    u: float | None
    typed: str
    why: str = ""  # which unit had to be assumed


def told(body: Any, sizes: Iterable[Size], within: str = "") -> dict[str, Told]:
    """Every figure of `body` that was said, by its full name; `within` is the path of `body` itself.

    Raises
    ------
    Unfit
        A text is unreadable, a figure came under both names, or a ± has no figure beside it.
    """
    found: dict[str, Told] = {}
    wrong: list[tuple[str, str]] = []
    for size in sizes:
        try:
            one = _told(body, size)
        except _Wrong as refusal:
            wrong.append((within + refusal.field, refusal.said))
        else:
            if one is not None:
                found[size.name] = one
    if wrong:
        raise Unfit(wrong)
    return found


class _Wrong(Exception):
    def __init__(self, field: str, said: str) -> None:
        super().__init__(said)
        self.field, self.said = field, said


def _told(body: Any, size: Size) -> Told | None:
    said = _said(body, size, "")
    beside = _said(body.plus_minus, size, "plus_minus.") if getattr(body, "plus_minus", None) else None
    if said is None:
        if beside is not None:
            raise _Wrong(beside[0], f"There is no {size.plain} to go with it.")
        return None
    field, sent = said
    value, typed, why = _value(field, sent, size)
    half_width = None if beside is None else _half_width(*beside, size, value)
    u = half_width / K if half_width is not None else 0.0 if size.kind == "count" else None
    return Told(size=size, field=field, value=value, u=u, typed=typed, why=why)


def _said(body: Any, size: Size, within: str) -> tuple[str, str | float] | None:
    """The name under which a figure came in, and what was sent."""
    names = dict.fromkeys((size.plain, size.name))
    sent = {name: getattr(body, name, None) for name in names}
    given = [(f"{within}{name}", value) for name, value in sent.items() if value is not None]
    if len(given) > 1:
        raise _Wrong(given[1][0], f"Send {size.plain} as text or {size.name} as a number, not both.")
    return given[0] if given else None


def _value(field: str, sent: str | float, size: Size) -> tuple[float, str, str]:
    if not isinstance(sent, str):
        return float(sent), quantities.exact(float(sent), size.kind), ""
    try:
        read = quantities.read(
            sent, size.kind, size.assume, at_least=size.least, at_most=size.at_most, what=_what(size)
        )
    except quantities.Unreadable as refusal:
        raise _Wrong(field, refusal.said) from None
    return read.value, sent, read.why if read.assumed else ""


def _what(size: Size) -> str:
    return f"{size.says[:1].lower()}{size.says[1:]}" if size.kind == "length" else WHAT[size.kind]


def _half_width(field: str, sent: str | float, size: Size, value: float) -> float:
    """A ± in SI. Its unit is never assumed: half a millimetre and half an inch look alike."""
    if size.kind == "taper":
        return _of_taper(field, sent, value)
    if not isinstance(sent, str):
        return float(sent)
    read = _read_beside(field, sent, size.kind)
    if read.assumed and size.kind not in UNITLESS:
        raise _Wrong(field, f"`{sent}` has no unit, and a ± needs one. Try 0.5 mm or 1/64 in.")
    return read.value


def _of_taper(field: str, sent: str | float, taper: float) -> float:
    """As text it is the ± of N in 1:N, as people say it, or of the cone's angle; as a number, of the taper itself."""
    if not isinstance(sent, str):
        half_width = float(sent)
    elif any(mark in sent for mark in ("°", "deg")):
        half_width = _read_beside(field, sent, "taper").value
    else:
        half_width = _read_beside(field, sent, "number").value * taper**2
    if half_width > taper:
        raise _Wrong(field, "Is more than the taper itself. As text it is the ± of N in 1:N, such as 0.2.")
    return half_width


def _read_beside(field: str, sent: str, kind: Kind) -> quantities.Read:
    try:
        return quantities.read(sent, kind, at_least=0, what="±")
    except quantities.Unreadable as refusal:
        raise _Wrong(field, refusal.said) from None
