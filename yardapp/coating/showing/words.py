"""An act in a line: on what, which step, what was read."""

from collections.abc import Mapping
from functools import partial
from typing import Any

from yardapp.coating.services import Story
from yardapp.quantities import show


def words_of(story: Story, act: Any) -> str:
    """An act in a line: Blade 1, Primer coat 1: done."""
    unit = story.unit(act.unit)
    step = story.system.steps[act.step].name if act.step is not None else ""
    on = ", ".join(part for part in (unit.label if unit else "", step) if part)
    what = FIGURES[act.kind](act.figures) if act.kind in FIGURES else SAID.get(act.kind, act.kind)
    return f"{on}: {what}" if on else what[:1].upper() + what[1:]


def _read(figures: Mapping[str, Any]) -> str:
    parts = (
        f"air {figures['air_c']:.1f} °C" if figures.get("air_c") is not None else "",
        f"metal {figures['metal_c']:.1f} °C" if figures.get("metal_c") is not None else "",
        f"humidity {100 * figures['relative_humidity']:.0f} %" if figures.get("relative_humidity") is not None else "",
        f"wet bulb {figures['wet_bulb_c']:.1f} °C" if figures.get("wet_bulb_c") is not None else "",
    )
    return "weather: " + ", ".join(part for part in parts if part)


def _of_pot(what: str, figures: Mapping[str, Any]) -> str:
    parts = (
        f"batch {figures['batch']}" if figures.get("batch") else "",
        show(figures["volume_m3"], "volume") if figures.get("volume_m3") is not None else "",
        figures.get("fate", ""),
        *(f"{show(volume_m3, 'volume')} of {part} not from stock" for part, volume_m3 in _short(figures)),
        *(
            f"batch {take['batch'] or 'unknown'} past its date"
            for take in figures.get("takes", ())
            if take.get("is_past")
        ),
    )
    return ", ".join([f"{figures.get('product', '')} {what}", *(part for part in parts if part)])


def _short(figures: Mapping[str, Any]) -> list[tuple[str, float]]:
    return list(figures.get("short_m3", {}).items())


SAID: Mapping[str, str] = {"remedied": "put right", "wet": "still wet"}
FIGURES: Mapping[str, Any] = {
    "weather": _read,
    "stirring": partial(_of_pot, "being stirred"),
    "mixed": partial(_of_pot, "mixed"),
    "left over": partial(_of_pot, "left over"),
    "photo": lambda figures: "photo",
    "launched": lambda figures: "in the water",
    "people": lambda figures: f"{figures.get('people')} coating",
}
