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
    evidence disagrees by more than its ±. `kind` is fixed, folding, feathering or controllable. `open_faults` is what
    was found and not mended: empty where somebody looked and found nothing, None where nobody looked. `watched_faults`
    are those that are no bar to going on.
    `measured_age_s` is the time since the last measurement.
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
    kind: str | None = None
    area_ratio: Figure | None = None
    mass_kg: Figure | None = None
    open_faults: tuple[str, ...] | None = None
    watched_faults: tuple[str, ...] = ()
    measured_age_s: Figure | None = None
    coating: str | None = None
    contradictions: tuple[str, ...] = ()


@dataclass(frozen=True, kw_only=True)
class DriveFigures:
    """The shaft end, the room around it, the engine behind it, and the hull that it drives.

    `hand` is the hand of propeller that this drive wants, not the way the engine turns. `hub_space_m` runs from the
    bearing's aft face to the taper's large end; `hull_clearance_m` from the shaft's centre, square to it.
    `rudder_distance_m` runs aft, `ahead_distance_m` forward, from the taper's large end to whatever stands there at
    seven tenths of the radius.
    `vessel_length_m` is the waterline's; centres of the hull count aft from its fore end, `lcg_m` forward from the
    transom. `hull_kind` is a row of `wake_thrust.csv`, `planing_kind` of `crouch.csv`, `behind` what `thrust_deduction`
    calls so, `shaft_alloy` a name of `shaft_alloys`. `speed_power` are pairs of speed and power, at the shaft of one
    propeller or, where `speed_power_kind` is "effective", on a tow rope. `engine_curve` are pairs of engine speed and
    power at full throttle.
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
    engine_curve: tuple[tuple[float, float], ...] = ()
    vessel_length_m: Figure | None = None
    block_ratio: Figure | None = None
    is_twin: bool | None = None
    thread_length_m: Figure | None = None
    nut_length_m: Figure | None = None
    cutter_length_m: Figure | None = None
    bearing_diameter_m: Figure | None = None
    rudder_distance_m: Figure | None = None
    ahead_distance_m: Figure | None = None
    aperture_length_m: Figure | None = None
    shaft_depth_m: Figure | None = None
    old_mass_kg: Figure | None = None
    shaft_alloy: str | None = None
    safety_factor: Figure | None = None
    shaft_span_m: Figure | None = None
    key_length_m: Figure | None = None
    hull_kind: str | None = None
    planing_kind: str | None = None
    behind: str | None = None
    displacement_kg: Figure | None = None
    beam_m: Figure | None = None
    draught_m: Figure | None = None
    wetted_m2: Figure | None = None
    waterplane_m2: Figure | None = None
    prismatic_ratio: Figure | None = None
    midship_ratio: Figure | None = None
    waterplane_ratio: Figure | None = None
    lcb_m: Figure | None = None
    lcf_m: Figure | None = None
    chine_beam_m: Figure | None = None
    deadrise_rad: Figure | None = None
    lcg_m: Figure | None = None
    speed_power: tuple[tuple[float, float], ...] = ()
    speed_power_kind: str | None = None
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
    min_bush_wall_ratio: float = 0.08  # under the keyway; of the shaft's diameter
    margin_ratio: float = 0.015  # aim: 100 to 103 % of the rated speed, new and light (from memory, low to medium)
    most_underload_ratio: float = 0.1  # how far past its rating the engine may run free: a quarter of its power unused
    burrill_line: str = "merchant"
    area_criterion: str = "Burrill"  # which of the criteria of blade area decides where they differ
    safety_factor: float = 3.0  # of an average yacht (D. Gerr, Boat Mechanical Systems Handbook)
    most_critical_ratio: float = 0.8  # 0.7 to 0.8 is ordinary practice (secondary)
    min_tip_depth_ratio: float = 0.1  # of the propeller's diameter, tips under water at rest
    most_heavier_ratio: float = 0.5  # over the propeller that the shaft line carried
    most_age_s: float = 3 * 365.25 * 86400  # edges wear and get bent: an older measurement is taken again
