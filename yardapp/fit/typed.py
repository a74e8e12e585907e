"""Figures as somebody types them beside a propeller in a scrapyard, with the ± of what they were read with."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, fields
from typing import Any

from yardapp.fit.figures import DriveFigures, Figure, PropellerFigures

K = 2  # a ± that people read
PITCH_SHARE = 0.05  # common practice: pitch by hand is good to about an inch in 24
HULL_M = 0.005  # a tape held square by eye


@dataclass(frozen=True)
class Reach:
    """What one way of reading is good for (k = 2, common practice, no source): metres, or N of a taper 1:N."""

    said: str
    basis: str
    fine_m: float | None = None  # bores, keyways, shaft
    along_m: float | None = None
    across_m: float | None = None
    n_of_taper: float | None = None


WAYS = {
    "caliper": Reach("Calliper, rule and tape", "measured", 0.00005, 0.0005, 0.005, 0.2),
    "tape": Reach("Tape or rule alone", "measured", 0.001, 0.001, 0.005, 1.0),
    "told": Reach("By eye, or somebody said so", "guessed"),
}
ALONG = ("bore_length_m", "hub_length_m", "hub_diameter_m", "taper_length_m", "hub_space_m")
WORDS = ("hand", "bore_kind", "material")
PROPELLER_SIZES = (
    "diameter_m",
    "pitch_m",
    "bore_large_m",
    "bore_small_m",
    "bore_length_m",
    "taper",
    "keyway_width_m",
    "keyway_depth_m",
    "hub_length_m",
    "hub_diameter_m",
)
# Box of the shaft's side, and the figure of the drive that it is.
SHAFT_SIZES = {
    "shaft_diameter_m": "shaft_diameter_m",
    "shaft_taper": "taper",
    "taper_length_m": "taper_length_m",
    "shaft_keyway_width_m": "keyway_width_m",
    "shaft_keyway_depth_m": "keyway_depth_m",
    "hub_space_m": "hub_space_m",
    "hull_clearance_m": "hull_clearance_m",
    "rated_power_w": "rated_power_w",
    "rated_speed_rps": "rated_speed_rps",
    "reduction_ratio": "reduction_ratio",
}
OFF_A_PLATE = ("rated_power_w", "rated_speed_rps", "reduction_ratio")


def figure_typed(name: str, value: float, way: str) -> Figure:
    """One typed figure; a keyway of nothing is "looked: there is none", and exact."""
    reach = WAYS[way]
    if name in OFF_A_PLATE:
        return Figure(value=value, basis="paper" if reach.basis == "measured" else reach.basis)
    width = None if reach.basis != "measured" else 0.0 if value == 0 else _plus_minus(name, value, reach)
    return Figure(value=value, u=None if width is None else width / K, basis=reach.basis)


def _plus_minus(name: str, value: float, reach: Reach) -> float | None:
    if name == "taper":
        return None if reach.n_of_taper is None else reach.n_of_taper * value**2
    if name == "pitch_m":
        return PITCH_SHARE * value
    if name == "hull_clearance_m":
        return HULL_M
    if name == "diameter_m":
        return reach.across_m
    return reach.along_m if name in ALONG else reach.fine_m


def propeller_typed(said: Mapping[str, Any], way: str) -> PropellerFigures:
    """The propeller's side. A hand that somebody was only told of was not seen."""
    sizes: dict[str, Any] = {
        name: figure_typed(name, said[name], way) for name in PROPELLER_SIZES if said.get(name) is not None
    }
    hand = said.get("hand") or None
    seen: dict[str, Any] = {"hand": hand} if WAYS[way].basis == "measured" else {"hand_stamped": hand}
    return PropellerFigures(
        blades=said.get("blades"),
        bore_kind=said.get("bore_kind") or None,
        material=said.get("material") or None,
        **seen,
        **sizes,
    )


def drive_typed(said: Mapping[str, Any], way: str) -> DriveFigures:
    """The shaft's side."""
    sizes: dict[str, Any] = {
        name: figure_typed(name, said[box], way) for box, name in SHAFT_SIZES.items() if said.get(box) is not None
    }
    return DriveFigures(hand=said.get("shaft_hand") or None, **sizes)


def is_said(figures: PropellerFigures | DriveFigures) -> bool:
    """Whether anything at all was typed for that side."""
    return any(getattr(figures, one.name) not in (None, ()) for one in fields(figures))


def left_out(names: Iterable[str], figures: PropellerFigures) -> tuple[str, ...]:
    """Those of the names of which nothing was typed."""
    return tuple(name for name in names if getattr(figures, name) is None)
