"""The hub's bore laid over the shaft's taper: true along, exaggerated across, with the gap shaded."""

import math
from dataclasses import dataclass

from markupsafe import Markup

from yardapp.drawings.sheet import (
    Point,
    circle,
    dimension,
    figure,
    line,
    notes,
    path,
    points,
    sheet,
    words,
)
from yardapp.formulas.ranges import OutsideRange
from yardapp.formulas.taper import ContactGap, contact_gap

LEFT, LONG, MIDDLE, HALF, WALL = 36.0, 258.0, 122.0, 66.0, 88.0
EXAGGERATIONS = (1, 2, 3, 4, 5, 10, 20, 50)
# How far the taper may fall towards the axis on the sheet, each side.
FALL = 55.0


@dataclass(frozen=True)
class _Cone:
    """A taper from its large end, `at_m` aft of the shaft's own large end."""

    at_m: float
    large_m: float
    taper: float
    length_m: float

    @property
    def end_m(self) -> float:
        return self.at_m + self.length_m

    def diameter(self, along_m: float) -> float:
        return self.large_m - self.taper * max(along_m - self.at_m, 0)


@dataclass(frozen=True)
class _Labels:
    shaft: str
    bore: str
    gap: str
    set_up: str
    overhang: str


@dataclass(frozen=True)
class _Scale:
    first_m: float
    last_m: float
    widest_m: float
    times: int

    def x(self, along_m: float) -> float:
        return LEFT + (along_m - self.first_m) * LONG / (self.last_m - self.first_m)

    def half(self, diameter_m: float) -> float:
        """Half a diameter on the sheet: differences from the widest are true to length, `times` over."""
        return HALF - self.times * (self.widest_m - diameter_m) / 2 * LONG / (self.last_m - self.first_m)


def bore_on_taper(
    shaft_large_m: float | None,
    shaft_taper: float | None,
    shaft_length_m: float | None,
    bore_large_m: float | None,
    bore_taper: float | None,
    bore_length_m: float | None,
    *,
    shaft_label: str = "",
    bore_label: str = "",
    gap_label: str = "",
    set_up_label: str = "",
    overhang_label: str = "",
    contact: ContactGap | None = None,
    key: str = "bore",
) -> Markup:
    """The hub pushed up its shaft until it bears. `contact` is worked out by `contact_gap` when not given.

    `gap_label` stands at the widest gap, `set_up_label` at the way from the shaft's large end to the hub's,
    `overhang_label` at what of the hub lies past the shaft's small end (or short of it).
    """
    shaft = _cone(0.0, shaft_large_m, shaft_taper, shaft_length_m)
    hub, contact, said = _hub_up(shaft, (bore_large_m, bore_taper, bore_length_m), contact)
    if shaft is None and hub is None:
        marks, below = notes(said, 24)
        return sheet(key, 340, below, title="Hub bore over shaft taper: not drawn", desc=" ".join(said), marks=marks)
    labels = _Labels(shaft_label, bore_label, gap_label, set_up_label if hub else "", overhang_label if hub else "")
    return _drawn(shaft, hub, contact, said, labels, key)


def _drawn(
    shaft: _Cone | None, hub: _Cone | None, contact: ContactGap | None, said: list[str], labels: _Labels, key: str
) -> Markup:
    scale = _scale([cone for cone in (shaft, hub) if cone])
    touches = f"Bears at: {contact.touches}." if contact else ""
    floor = MIDDLE + WALL + (64 if labels.overhang else 44 if labels.gap and hub else 24)
    lines, below = notes([f"Along to scale; differences across ×{scale.times}.", touches, *said], floor)
    marks = [
        *(_shaft(shaft, scale) if shaft else []),
        *(_gap(hub, contact, scale, labels.gap) if hub and contact else []),
        *(_hub(hub, scale, labels.bore) if hub else []),
        *(_shaft_words(shaft, scale, labels.shaft) if shaft else []),
        *(_places(shaft, hub, scale, (labels.set_up, labels.overhang), key) if shaft and hub else []),
        path(f"M{figure(LEFT - 20)} {figure(MIDDLE)} H{figure(LEFT + LONG + 26)}", "thin chain"),
        *lines,
    ]
    title = f"Hub bore over shaft taper: {_in_words(contact, labels.gap)}"
    desc = ". ".join(filter(None, [labels.bore, labels.shaft, labels.set_up, labels.overhang, *said]))
    top = MIDDLE - WALL - (34 if labels.set_up else 8)
    return sheet(key, 340, below - 8, title=title, desc=desc or "A shaft's taper.", marks=marks, top=top)


def _cone(at_m: float, large_m: float | None, taper: float | None, length_m: float | None) -> _Cone | None:
    given = [one for one in (large_m, taper, length_m) if one is not None and not math.isnan(one) and one > 0]
    return _Cone(at_m, *given) if len(given) == 3 else None


def _hub_up(
    shaft: _Cone | None, bore: tuple[float | None, float | None, float | None], contact: ContactGap | None
) -> tuple[_Cone | None, ContactGap | None, list[str]]:
    """The hub where it comes to rest, the gap along it, and what is missing or cannot be."""
    hub = _cone(0.0, *bore)
    said = [f"{what} not known." for what, one in (("Shaft taper", shaft), ("Hub bore", hub)) if one is None]
    if shaft is None or hub is None:
        return hub, None, said
    try:
        contact = contact or contact_gap(hub.large_m, hub.taper, shaft.large_m, shaft.taper, hub.length_m)
    except OutsideRange as refusal:
        return None, None, [f"The hub is not drawn: {refusal}"]
    hub = _Cone(-float(contact.set_up_m), hub.large_m, hub.taper, hub.length_m)
    if str(contact.touches) == "small end" and hub.end_m > shaft.end_m:
        said.append("The shaft's taper ends inside the hub: drawn as if it went on.")
    return hub, contact, said


def _scale(cones: list[_Cone]) -> _Scale:
    first, last = min(cone.at_m for cone in cones), max(cone.end_m for cone in cones)
    widest = max(cone.large_m for cone in cones)
    narrowest = min(cone.diameter(cone.end_m) for cone in cones)
    fall = (widest - narrowest) / 2 * LONG / (last - first)
    times = max(times for times in EXAGGERATIONS if times == 1 or times * fall <= FALL)
    return _Scale(first, last, widest, times)


def _both_sides(corners: list[Point], drawn: str, *, closed: bool = False, name: str = "") -> list[str]:
    """A line above the axis and its mirror below; corners are given as (x, half width)."""
    upper = [(x, MIDDLE - half) for x, half in corners]
    lower = [(x, MIDDLE + half) for x, half in corners]
    return [
        line(upper, drawn, closed=closed, name=name and f"{name} upper"),
        line(lower, drawn, closed=closed, name=name and f"{name} lower"),
    ]


def _shaft(shaft: _Cone, scale: _Scale) -> list[str]:
    ends = [(scale.x(along), scale.half(shaft.diameter(along))) for along in (scale.first_m, 0.0, shaft.end_m)]
    upper = [(x, MIDDLE - half) for x, half in ends]
    lower = [(x, MIDDLE + half) for x, half in reversed(ends)]
    return [line([*upper, *lower], "line fillshaft", closed=True, name="shaft")]


def _shaft_words(shaft: _Cone, scale: _Scale, label: str) -> list[str]:
    return [words(scale.x(shaft.end_m / 2), MIDDLE - 8, label, anchor="middle")]


def _gap(hub: _Cone, contact: ContactGap, scale: _Scale, label: str) -> list[str]:
    """The gap between bore and shaft, station by station, each side; dots where they touch."""
    stations = [(hub.at_m + float(at), float(gap)) for at, gap in zip(contact.stations_m, contact.gap_m, strict=True)]
    outer = [(scale.x(along), scale.half(hub.diameter(along))) for along, _ in stations]
    inner = [(scale.x(along), scale.half(hub.diameter(along) - gap)) for along, gap in stations]
    widest, _ = max(stations, key=lambda station: station[1])
    x = scale.x(widest)
    at_the_end = widest > (hub.at_m + hub.end_m) / 2
    marks = _both_sides(outer + inner[::-1], "gap", closed=True, name="gap")
    marks += [mark for along in _touching(hub, contact) for mark in _touch(scale, hub, along)]
    return [*marks, *_led_out(x - 5 if at_the_end else x + 5, outer[-1 if at_the_end else 0][1], label, at_the_end)]


def _led_out(x: float, half: float, label: str, at_the_end: bool) -> list[str]:
    """The gap's label under the hub, with a leader up to the gap."""
    if not label:
        return []
    floor = MIDDLE + WALL + 8
    return [
        line([(x, MIDDLE + half - 2), (x, floor + 10)], "thin"),
        words(x - 5 if at_the_end else x + 5, floor + 8, label, anchor="end" if at_the_end else "start"),
    ]


def _touching(hub: _Cone, contact: ContactGap) -> list[float]:
    """Where they touch; ahead of its large end, at 0, the shaft is parallel and clear of the bore."""
    first = max(hub.at_m, 0.0)
    ends = {"large end": [first], "small end": [hub.end_m]}
    return ends.get(str(contact.touches), [first, (first + hub.end_m) / 2, hub.end_m])


def _touch(scale: _Scale, hub: _Cone, along_m: float) -> list[str]:
    x, half = scale.x(along_m), scale.half(hub.diameter(along_m))
    return [circle(x, y, 4, "fillink", name="touch") for y in (MIDDLE - half, MIDDLE + half)]


def _hub(hub: _Cone, scale: _Scale, label: str) -> list[str]:
    """Bore line, both faces of the hub, and a strip of its metal."""
    left, right = scale.x(hub.at_m), scale.x(hub.end_m)
    large, small = scale.half(hub.large_m), scale.half(hub.diameter(hub.end_m))
    metal = [(left, large), (left, WALL), (right, WALL), (right, small)]
    marks = _both_sides(metal, "line none", closed=True, name="hub")
    return [*marks, words((left + right) / 2, MIDDLE - WALL + 17, label, anchor="middle", drawn="dim halo")]


def _places(shaft: _Cone, hub: _Cone, scale: _Scale, labels: tuple[str, str], key: str) -> list[str]:
    """Above: from the shaft's large end to the hub's. Below: from the hub's small end to the shaft's."""
    set_up_label, overhang_label = labels
    top, bottom = MIDDLE - WALL - 16, MIDDLE + WALL + 36
    marks: list[str] = []
    if set_up_label:
        marks += _between(key, scale.x(hub.at_m), scale.x(0), top, set_up_label, "set-up")
    if overhang_label:
        marks += _between(key, scale.x(shaft.end_m), scale.x(hub.end_m), bottom, overhang_label, "overhang")
    return marks


def _between(key: str, x1: float, x2: float, y: float, label: str, name: str) -> list[str]:
    left, right = min(x1, x2), max(x1, x2)
    towards = MIDDLE - WALL if y < MIDDLE else MIDDLE + WALL
    away = y - 6 if y < MIDDLE else y + 6
    after = right + 22
    at_the_right = after + 8 * len(label) > 330
    return [
        path(f"M{points([(left, towards), (left, away)])}", "thin"),
        path(f"M{points([(right, towards), (right, away)])}", "thin"),
        dimension(key, (left, y), (right, y), name=name),
        words(left - 22 if at_the_right else after, y + 5, label, anchor="end" if at_the_right else "start"),
    ]


def _in_words(contact: ContactGap | None, gap_label: str) -> str:
    if contact is None:
        return "not laid over each other"
    if str(contact.touches) == "whole length":
        return "they bear on the whole length"
    return f"they bear at the {contact.touches} only" + (f"; gap {gap_label}" if gap_label else "")
