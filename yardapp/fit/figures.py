"""What is known about a propeller and about a drive, before anything is judged. SI, standard uncertainties at k = 1."""

from dataclasses import dataclass


@dataclass(frozen=True, kw_only=True)
class Figure:
    """One figure with its ± and what it rests on; `u` None means that nobody said how well it was read."""

    value: float
    u: float | None = None
    basis: str | None = None


@dataclass(frozen=True, kw_only=True)
class PropellerFigures:
    """A propeller off its shaft; None is "not known", and a keyway width of zero is "looked: there is none".

    `bore_large_m` is the bore itself where the bore is parallel or a pilot. `contradictions` names the fields whose
    evidence disagrees by more than its ±.
    """

    tag: str | None = None
    hand: str | None = None
    hand_stamped: str | None = None
    blades: int | None = None
    diameter_m: Figure | None = None
    pitch_m: Figure | None = None
    bore_large_m: Figure | None = None
    bore_small_m: Figure | None = None
    bore_length_m: Figure | None = None
    taper: Figure | None = None
    keyway_width_m: Figure | None = None
    keyway_depth_m: Figure | None = None
    hub_length_m: Figure | None = None
    hub_diameter_m: Figure | None = None
    bore_kind: str | None = None
    material: str | None = None
    contradictions: tuple[str, ...] = ()


@dataclass(frozen=True, kw_only=True)
class DriveFigures:
    """The shaft end, the room around it, and the engine behind it.

    `hand` is the hand of propeller that this drive wants, not the way the engine turns. `hub_space_m` runs from the
    bearing's aft face to the taper's large end; `hull_clearance_m` from the shaft's centre, square to it.
    """

    hand: str | None = None
    shaft_diameter_m: Figure | None = None
    taper: Figure | None = None
    taper_length_m: Figure | None = None
    keyway_width_m: Figure | None = None
    keyway_depth_m: Figure | None = None
    hub_space_m: Figure | None = None
    hull_clearance_m: Figure | None = None
    rated_power_w: Figure | None = None
    rated_speed_rps: Figure | None = None
    reduction_ratio: Figure | None = None
    vessel_length_m: Figure | None = None
    block_ratio: Figure | None = None
    is_twin: bool | None = None
    contradictions: tuple[str, ...] = ()


@dataclass(frozen=True, kw_only=True)
class Limits:
    """The yard's own settings: common practice, no published source, unless a line says otherwise.

    Ratios are of the shaft's diameter at the large end.
    """

    min_wall_ratio: float = 0.25
    min_wall_over_key_ratio: float = 0.15
    min_contact_share_ratio: float = 0.75  # 70 % on one fitting sheet, 75 % in common practice
    lap_m: float = 0.00005  # on diameter: lapping mends hundredths of a millimetre, not tenths
    key_fit_m: float = 0.0002
    min_bearing_gap_m: float = 0.003  # water must leave the bearing; no lower bound is published
    most_overhang_ratio: float = 0.5
    most_spacer_ratio: float = 0.5
    most_cut_ratio: float = 0.1  # of the propeller's own diameter
