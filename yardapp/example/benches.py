"""Other days at the bench: blades held against each other, areas, shafts, faults, and a sheet half done."""

from collections.abc import Mapping
from dataclasses import dataclass
from math import fsum
from typing import Any

from yardapp.bench import services as bench
from yardapp.bench.rows import row_name
from yardapp.bench.tools import TOOLS
from yardapp.example.sheets import read_pitch
from yardapp.example.yard import Yard, millimetres, size

BENT_M, SOUND_M = (0.0824, 0.0893, 0.0821), (0.0821, 0.0888, 0.0825)  # tips above the table, by Finn and by Ivy
WIDTHS_M = ((0.060, 0.118), (0.090, 0.146), (0.120, 0.163), (0.150, 0.158), (0.180, 0.131), (0.200, 0.098))


@dataclass(frozen=True, kw_only=True)
class ReadWith:
    """Figures of one sheet, all read with one tool."""

    tool: str
    figures: Mapping[str, float]

    def reading(self) -> dict[str, Any]:
        """Each with the tool's standard uncertainty."""
        return {**self.figures, **{f"u_{name}": TOOLS[self.tool].u for name in self.figures}}

    def boxes(self) -> dict[str, str]:
        """Each as it was typed, and the tool."""
        typed = {f"{name}_typed": millimetres(value_m, 2) for name, value_m in self.figures.items()}
        return typed | {f"{name}_tool": self.tool for name in self.figures}


def _keep(yard: Yard, name: str, tag: str, method: bench.Method, *read: ReadWith, **said: Any) -> None:
    note = said.pop("note", "")
    figures: dict[str, Any] = {}
    boxes: dict[str, Any] = {}
    for one in read:
        figures |= one.reading()
        boxes |= one.boxes()
    about = bench.Filled(boxes=boxes, note=note)
    bench.measure(yard.session, yard.who(name), tag, method, method.reading(**figures, **said), about)


def blades_are_compared(yard: Yard) -> None:
    """A bent one, seen by two people; and one that a quick pitch of each blade finds."""
    tag = yard.spare("Feather Locomotive, centre")
    for name, heights in (("Finn", BENT_M), ("Ivy", SOUND_M)):
        tips = {row_name("height_m", number): height for number, height in enumerate(heights, 1)}
        _keep(yard, name, tag, bench.ALIKE, ReadWith(tool="height gauge", figures=tips), blades=3)
    off = yard.spare("Barrel Sonnet, centre")
    for blade, share in ((2, 1.21), (1, 1.0), (3, 0.99), (4, 1.0)):
        read_pitch(yard, yard.who("Finn"), off, size("581 mm"), size("15 in") * share, blade=blade)


def areas_are_read(yard: Yard) -> None:
    """Widths by tape over one blade; a tip radius read three times over."""
    tag = yard.spare("Feather Locomotive, centre")
    radii = {row_name("radius_m", number): radius for number, (radius, _) in enumerate(WIDTHS_M, 1)}
    widths = {row_name("width_m", number): width for number, (_, width) in enumerate(WIDTHS_M, 1)}
    hub = {"hub_diameter_m": 0.093}
    taped = (ReadWith(tool="steel rule", figures=radii), ReadWith(tool="tape", figures=widths))
    _keep(yard, "Ivy", tag, bench.AREA, *taped, ReadWith(tool="caliper", figures=hub), blades=3)
    several = (0.2160, 0.2165, 0.2158)
    reading = bench.DiameterReading(
        tip_radius_m=fsum(several) / 3, u_tip_radius_m=TOOLS["tape"].u, repeats={"tip_radius_m": several}
    )
    boxes = {"tip_radius_m_typed": "216, 216.5, 215.8", "tip_radius_m_tool": "tape"}
    bench.measure_diameter(yard.session, yard.who("Ivy"), tag, reading, bench.Filled(boxes=boxes))


def shafts_are_read(yard: Yard) -> None:
    """One worn where it ran and a little bent; its end; and the play of another in its bearing."""
    tag = yard.tags["shaft Tin Pelican, centre"]
    along = {row_name("along_m", number): place for number, place in enumerate((0.2, 0.9, 1.5), 1)}
    across = {row_name("diameter_m", number): d for number, d in enumerate((0.05714, 0.05688, 0.05712), 1)}
    named = {"place_1": "under the gland", "place_2": "in the cutless bearing", "place_3": "before the taper"}
    taped = ReadWith(tool="tape", figures=along)
    _keep(yard, "Finn", tag, bench.WEAR, taped, ReadWith(tool="micrometer", figures=across), **named)
    swings = {row_name("swing_m", number): swing for number, swing in enumerate((0.00012, 0.00031, 0.00018), 1)}
    _keep(yard, "Finn", tag, bench.RUN_OUT, taped, ReadWith(tool="dial gauge", figures=swings))
    end = {"large_m": 0.05714, "small_m": 0.04763, "length_m": 0.152}
    _keep(yard, "Ivy", tag, bench.SHAFT_END, ReadWith(tool="caliper", figures=end), thread="1-3/4 in, 8 to the inch")
    play = {"bearing_bore_m": 0.0523, "shaft_m": 0.0507}
    other = yard.tags["shaft Sleepy Turnstile, port"]
    _keep(yard, "Finn", other, bench.BEARING, ReadWith(tool="caliper", figures=play), bearing="strut, port")


def faults_are_marked(yard: Yard) -> None:
    """A crack that stops a propeller, a bend to watch, nicks that were dressed, and zinc that is gone."""
    cracked, bent = yard.spare("Barrel Sonnet, centre"), yard.spare("Feather Locomotive, centre")
    finn, ivy = yard.who("Finn"), yard.who("Ivy")
    crack = _fault("crack", "stop", 3, 0.6, "14 mm", "From the trailing edge inward; found with dye.")
    bench.raise_fault(yard.session, finn, cracked, crack)
    bench.note_ring(yard.session, finn, cracked, "dull", 3, "The others ring.")
    bench.raise_fault(yard.session, ivy, bent, _fault("bend", "watch", 2, 0.9, "7 mm", "Met a log, by the look of it."))
    nick = bench.raise_fault(yard.session, ivy, bent, _fault("nick", "note", 1, 0.8, "3 mm", "Leading edge."))
    bench.close_fault(yard.session, ivy, nick.id, "Dressed out with a file, faired into the edge.")
    pink = bench.FaultSaid(kind="pink", severity="watch", side="hub", note="Salmon patches round the keyway.")
    bench.raise_fault(yard.session, finn, yard.spare("Plum Telegraph, centre"), pink)


def _fault(kind: str, severity: str, blade: int, radius: float, long: str, note: str) -> bench.FaultSaid:
    size_m = size(long)
    return bench.FaultSaid(
        kind=kind,
        severity=severity,
        side="face",
        blade=blade,
        radius_ratio=radius,
        size_m=size_m,
        size_m_typed=long,
        note=note,
    )


def a_sheet_is_left_half_done(yard: Yard) -> None:
    """Tam read two tips of four and went to help with the crane."""
    boxes = {"way": "alike", "unit": "mm", "blades": "4", "height_1_m": "91.2", "height_2_m": "91.4"}
    tag = yard.spare("Upside Clover, port")
    bench.begin_sheet(yard.session, yard.who("Tam"), tag, "alike", boxes | {"height_tool": "height gauge"})


def the_bench_is_used(yard: Yard) -> None:
    """All of it, in the order of the days."""
    for day in (blades_are_compared, areas_are_read, shafts_are_read, faults_are_marked, a_sheet_is_left_half_done):
        day(yard)
