"""Pairings of engine, blades, shaft line and condition, worked by hand: what is given, what must come out, and why.

The hull is one whose tow-rope power goes by the cube of the speed, P = 130 V^3 (W, m/s), so that R = 130 V^2 and a
propeller works at one advance ratio J at any speed: KT(J) / J^2 = 130 / ((1-t) (1-w)^2 1025 D^2). At that J the engine,
whose torque near its rating is Q = 28 kW / (2 pi 50/s) = 89.1 N m, turns the shaft at n = sqrt(2.0 x 0.941 x 89.1 /
(KQ 1025 D^5)). With w = 0.14 and t = 0.6 x 0.14 = 0.084 a three-bladed propeller of 420 mm and AE/A0 0.70 has
KT/J^2 = 130 / (0.916 x 0.7396 x 1025 x 0.1764) = 1.061. B-series, from the printed polynomials; test_loading.py finds
the same with a bisection of its own. 100 rpm short of 3000 is accepted, and 10 % over may be left unused.
"""

from dataclasses import dataclass, replace
from typing import Any

from tests.fit.pairings import ASK, GOOD_DRIVE, GOOD_PROPELLER, NO, NOTHING_HUB, NOTHING_SHAFT, OK, WORK, Pairing, mm
from yardapp.fit.figures import DriveFigures, Figure, PropellerFigures
from yardapp.fit.verdict import EVERYTHING

DAY_S = 86400.0
STAINLESS = "Austenitic stainless 316, annealed"
TOWED = tuple((speed, 130.0 * speed**3) for speed in (2.0, 3.0, 4.0, 5.0, 6.0, 7.0, 8.0))


def known(value: float, u: float) -> Figure:
    return Figure(value=value, u=u, basis="measured")


SUITED = replace(
    GOOD_PROPELLER,
    diameter_m=mm(420, 1),
    pitch_m=mm(292, 1.5),
    area_ratio=known(0.70, 0.01),
    mass_kg=known(9.0, 0.1),
    material="aluminium bronze",
    kind="fixed",
    open_faults=(),
    measured_age_s=known(200 * DAY_S, 0.0),
)
BOAT = replace(
    GOOD_DRIVE,
    rated_power_w=known(28e3, 280.0),
    rated_speed_rps=known(50.0, 0.1),
    reduction_ratio=known(2.0, 0.0),
    hull_kind="displacement_single",
    behind="streamlined",
    speed_power=TOWED,
    speed_power_kind="effective",
    shaft_depth_m=mm(700, 10),
    shaft_alloy=STAINLESS,
    safety_factor=known(3.0, 0.0),
    shaft_span_m=mm(1400, 5),
    key_length_m=mm(90, 1),
    thread_length_m=mm(70, 1),
    nut_length_m=mm(45, 1),
    cutter_length_m=mm(8, 0.5),
    bearing_diameter_m=mm(70, 0.5),
    rudder_distance_m=mm(250, 2),
    ahead_distance_m=mm(60, 2),
    aperture_length_m=mm(300, 3),
    old_mass_kg=known(9.0, 0.1),
)


@dataclass(frozen=True, kw_only=True)
class PowerPairing(Pairing):
    """As a pairing, from the pair that suits its engine too; everything is asked unless it says otherwise."""

    ask: tuple[str, ...] | None = EVERYTHING

    @property
    def propeller(self) -> PropellerFigures:
        return replace(SUITED, **self.hub)

    @property
    def drive(self) -> DriveFigures:
        return replace(BOAT, **self.shaft)


ENGINE = ("shaft", "water", "engine")
NO_HULL: dict[str, Any] = {"hull_kind": None, "behind": None, "speed_power": (), "speed_power_kind": None}
BY_WEIGHT = NO_HULL | {
    "hull_kind": "displacement_single",
    "displacement_kg": known(8000, 100),
    "vessel_length_m": known(9.5, 0.05),
    "reduction_ratio": known(2.5, 0.0),
}
EVERY_POWER = {
    "engine load": OK,
    "blade area": OK,
    "tip speed": OK,
    "torsion": OK,
    "critical speed": OK,
    "key": OK,
    "faults": OK,
    "age": OK,
    "nut and thread": OK,
    "cutter": OK,
    "hub and housing": OK,
    "room to the rudder": OK,
    "room ahead of the blades": OK,
    "aperture": OK,
    "immersion": OK,
    "weight": OK,
}

POWER_PAIRINGS = [
    PowerPairing(
        given="the pair that suits, everything asked",
        verdict=OK,
        checks=EVERY_POWER,
        why="P/D 0.695: J 0.381, KQ 0.0194: n 25.4, engine 3045: within 2900 and 3300 with its band. Torsion: "
        "T = 28e3 x 0.941 / (2 pi 25) = 167.8; (16 x 167.8 x 3 / (pi 137.9e6))^(1/3) = 26.5, there are 38.1. Whirl: "
        "pi 0.0381 / (8 x 1.4^2) x sqrt(193e9 / 7944) = 37.6/s, the shaft turns 25: two thirds. Key: 2 x 167.8 / "
        "0.0381 = 8.81 kN over 9.51 x 90: 10.3 MPa, 46 are kept to. Thread 70 - 8 - 45 = 17. Cutter 20 + 1.6 - 8 = "
        "13.6. Blade along the shaft 2.144 x 420 x 0.70 / 3 x sin(17.5 deg) = 63: 250 - 57 - 2 - 32 = 159 aft, 50 "
        "wanted; 60 + 57 + 2 - 32 = 87 ahead, 63 wanted. Tips 700 - 210 = 490 deep.",
    ),
    # Engine
    PowerPairing(
        given="1 inch too much pitch, bronze",
        verdict=WORK,
        checks={"engine load": WORK},
        why="At 322 the engine turns some 2750: 250 short, and a band of 90 does not reach 2900. 30 mm less is right, "
        "and bronze is re-pitched by 2 in.",
        hub={"pitch_m": mm(322, 1.5)},
        ask=ENGINE,
        work="re-pitch",
    ),
    PowerPairing(
        given="1 1/4 inches too much pitch, stainless that can't be re-pitched, and can be cut down",
        verdict=WORK,
        checks={"engine load": WORK},
        why="32 mm is beyond stainless's inch; some 8 % off the diameter does it, 10 % is the most.",
        hub={"pitch_m": mm(326, 1.5), "material": "stainless steel"},
        ask=ENGINE,
        work="cut down",
    ),
    PowerPairing(
        given="3 inches too much pitch, stainless that can't be re-pitched",
        verdict=NO,
        checks={"engine load": NO},
        why="370 for 293: beyond an inch, and more than a tenth of the diameter to cut.",
        hub={"pitch_m": mm(370, 1.5), "material": "stainless steel"},
        ask=ENGINE,
        work="another propeller",
    ),
    PowerPairing(
        given="3 inches too much pitch, bronze",
        verdict=NO,
        checks={"engine load": NO},
        why="77 mm is beyond the trade's 2 in.",
        hub={"pitch_m": mm(370, 1.5)},
        ask=ENGINE,
        work="another propeller",
    ),
    PowerPairing(
        given="1 inch too much pitch, cast iron",
        verdict=WORK,
        checks={"engine load": WORK},
        why="No practice is known for re-pitching cast iron; some 7 % off the diameter does it.",
        hub={"pitch_m": mm(322, 1.5), "material": "cast iron"},
        ask=ENGINE,
        work="cut down",
    ),
    PowerPairing(
        given="1 inch too much pitch, metal not known",
        verdict=ASK,
        checks={"engine load": ASK},
        why="Whether its metal bears a re-pitch is the question.",
        hub={"pitch_m": mm(322, 1.5), "material": None},
        ask=ENGINE,
    ),
    PowerPairing(
        given="an inch and a half too little pitch",
        verdict=WORK,
        checks={"engine load": WORK},
        why="At 255 it would turn some 3470: a third of the power unused. An inch and a half more is right.",
        hub={"pitch_m": mm(255, 1.5)},
        ask=ENGINE,
        work="re-pitch",
    ),
    PowerPairing(
        given="half an inch too much pitch",
        verdict=ASK,
        checks={"engine load": ASK},
        why="Some 2890, and 2900 is the least: the band lies across it.",
        hub={"pitch_m": mm(307, 1.5)},
        ask=ENGINE,
    ),
    PowerPairing(
        given="pitch off a stamp, its ± not said but wide",
        verdict=ASK,
        checks={"engine load": ASK},
        why="± 20 mm of pitch is ± 190 rpm: it may be anything.",
        hub={"pitch_m": mm(292, 10, "stamped")},
        ask=ENGINE,
    ),
    PowerPairing(
        given="the same propeller behind a gear of 1.5",
        verdict=NO,
        checks={"engine load": NO},
        why="The shaft turns faster by 4/3, the torque there falls to 3/4: 25.4 x sqrt(0.75) x 1.5 x 60 = 1980. "
        "Pitch for 3000 at 1.5:1 lies some 70 mm lower, beyond the trade's 2 in and a tenth of the diameter.",
        shaft={"reduction_ratio": known(1.5, 0.0)},
        ask=ENGINE,
        work="another propeller",
    ),
    PowerPairing(
        given="folding propeller (sums that don't hold are left out)",
        verdict=ASK,
        checks={"engine load": ASK, "blade area": ASK, "taper": OK, "tip room": OK, "torsion": OK},
        why="The series has fixed blades; the fit on the shaft and the strength hold all the same.",
        hub={"kind": "folding"},
    ),
    PowerPairing(
        given="feathering propeller",
        verdict=ASK,
        checks={"engine load": ASK, "large end": OK},
        why="Flat blades, whose pitch is set.",
        hub={"kind": "feathering"},
    ),
    PowerPairing(
        given="nothing known of the hull",
        verdict=ASK,
        checks={"engine load": ASK, "blade area": ASK, "tip speed": OK, "torsion": OK, "taper": OK},
        why="Geometry and shaft alone; what she does is not known.",
        shaft=NO_HULL,
    ),
    PowerPairing(
        given="nothing known of the hull, nothing asked of the engine",
        verdict=OK,
        checks={"taper": OK, "tip room": OK},
        why="The geometry can be told by itself.",
        shaft=NO_HULL,
        ask=("shaft", "water"),
    ),
    PowerPairing(
        given="nothing known of the engine",
        verdict=ASK,
        checks={"engine load": ASK, "torsion": ASK, "critical speed": ASK, "tip speed": ASK, "hub length": OK},
        why="Power, speed and reduction are wanted.",
        shaft={"rated_power_w": None, "rated_speed_rps": None, "reduction_ratio": None},
    ),
    PowerPairing(
        given="reduction not known",
        verdict=ASK,
        checks={"engine load": ASK, "torsion": ASK},
        why="A shaft of 1500 or of 1000?",
        shaft={"reduction_ratio": None},
    ),
    PowerPairing(
        given="one screw or two not known",
        verdict=ASK,
        checks={"engine load": ASK},
        why="Half the hull or the whole of it.",
        shaft={"is_twin": None},
        ask=ENGINE,
    ),
    PowerPairing(
        given="a hull of one screw on a drive that is one of two",
        verdict=ASK,
        checks={"engine load": ASK},
        why="The two contradict each other.",
        shaft={"is_twin": True},
        ask=ENGINE,
    ),
    PowerPairing(
        given="pitch not known",
        verdict=ASK,
        checks={"engine load": ASK, "tip room": OK},
        why="Nothing loads an engine like pitch.",
        hub={"pitch_m": None},
        ask=ENGINE,
    ),
    PowerPairing(
        given="blades not counted",
        verdict=ASK,
        checks={"engine load": ASK},
        why="The series is by number of blades.",
        hub={"blades": None},
        ask=ENGINE,
    ),
    PowerPairing(
        given="a typed curve of which nobody says where its power was taken",
        verdict=ASK,
        checks={"engine load": ASK},
        why="On the rope or at the shaft: twice as much.",
        shaft={"speed_power_kind": None},
        ask=ENGINE,
    ),
    PowerPairing(
        given="a typed curve whose speeds fall",
        verdict=ASK,
        checks={"engine load": ASK},
        why="That can't be right.",
        shaft={"speed_power": ((4.0, 8e3), (3.0, 3e3))},
        ask=ENGINE,
    ),
    PowerPairing(
        given="a typed curve that ends before she does",
        verdict=ASK,
        checks={"engine load": ASK},
        why="She makes 4.7 m/s, and nothing is known beyond 4.",
        shaft={"speed_power": TOWED[:3]},
        ask=ENGINE,
    ),
    PowerPairing(
        given="hull by weight and length alone, far too much pitch",
        verdict=NO,
        checks={"engine load": NO},
        why="500 by 450: some 2070 of 3000, and the band of the handbook's line is 130.",
        hub={"diameter_m": mm(500, 1), "pitch_m": mm(450, 2)},
        shaft=BY_WEIGHT,
        ask=ENGINE,
        work="another propeller",
    ),
    PowerPairing(
        given="hull by weight and length alone, near the right pitch",
        verdict=ASK,
        checks={"engine load": ASK},
        why="The handbook's line knows her resistance to some 18 %: ± 170 rpm.",
        hub={"diameter_m": mm(500, 1), "pitch_m": mm(330, 2)},
        shaft=BY_WEIGHT,
        ask=ENGINE,
    ),
    PowerPairing(
        given="displacement that was guessed",
        verdict=ASK,
        checks={"engine load": ASK},
        why="A guess settles nothing, not even what is far off.",
        hub={"diameter_m": mm(500, 1), "pitch_m": mm(450, 2)},
        shaft=BY_WEIGHT | {"displacement_kg": Figure(value=8000.0, u=100.0, basis="guessed")},
        ask=ENGINE,
    ),
    PowerPairing(
        given="left on right, and an engine that it would overload",
        verdict=NO,
        checks={"hand": NO},
        why="On the wrong hand nothing else is priced.",
        hub={"hand": "left", "hand_stamped": "left", "pitch_m": mm(370, 1.5)},
        work="another propeller",
    ),
    # Blades
    PowerPairing(
        given="blade area not known",
        verdict=ASK,
        checks={"blade area": ASK, "engine load": ASK, "room to the rudder": ASK},
        why="Widths at radii are wanted; the engine's figures are told with 0.55 taken, and settle nothing.",
        hub={"area_ratio": None},
    ),
    PowerPairing(
        given="narrow blades",
        verdict=NO,
        checks={"blade area": NO},
        why="0.40 where Keller asks for 0.2 + 2.2 x 3.0 kN / (0.1764 x (99047 + 7036)) = 0.56.",
        hub={"area_ratio": known(0.40, 0.01)},
        ask=("shaft", "water", "blades"),
        work="another propeller",
    ),
    PowerPairing(
        given="depth of the shaft not known",
        verdict=ASK,
        checks={"blade area": ASK, "immersion": ASK, "engine load": OK},
        why="What the water presses with is half of cavitation.",
        shaft={"shaft_depth_m": None},
    ),
    # Shaft
    PowerPairing(
        given="safety factor of 10",
        verdict=NO,
        checks={"torsion": NO},
        why="26.5 x (10/3)^(1/3) = 39.6, there are 38.1.",
        shaft={"safety_factor": known(10.0, 0.0)},
        ask=("shaft", "water", "strength"),
        work="another shaft",
    ),
    PowerPairing(
        given="shaft's metal not known",
        verdict=ASK,
        checks={"torsion": ASK, "critical speed": ASK, "key": ASK},
        why="20 000 or 70 000 psi.",
        shaft={"shaft_alloy": None},
        ask=("shaft", "water", "strength"),
    ),
    PowerPairing(
        given="a span of 1.7 m",
        verdict=WORK,
        checks={"critical speed": WORK, "torsion": OK},
        why="37.6 x (1.4 / 1.7)^2 = 25.5/s: 98 % of it, 80 is the most.",
        shaft={"shaft_span_m": mm(1700, 5)},
        ask=("shaft", "water", "strength"),
        work="fit a bearing",
    ),
    PowerPairing(
        given="a span of 1.5 m",
        verdict=OK,
        checks={"critical speed": OK},
        why="37.6 x (1.4 / 1.5)^2 = 32.8/s: 76 %, in the band of ordinary practice.",
        shaft={"shaft_span_m": mm(1500, 5)},
        ask=("shaft", "water", "strength"),
    ),
    PowerPairing(
        given="length of the key not known",
        verdict=ASK,
        checks={"key": ASK, "torsion": OK},
        why="Force over width times length.",
        shaft={"key_length_m": None},
        ask=("shaft", "water", "strength"),
    ),
    # Seat
    PowerPairing(
        given="nuts that lack thread",
        verdict=NO,
        checks={"nut and thread": NO},
        why="45 of thread less 8 under the hub, for nuts of 45: 8 lack, and the hub stops 1.6 short only.",
        shaft={"thread_length_m": mm(45, 0.5)},
        ask=("shaft", "seat", "water"),
        work="another propeller",
    ),
    PowerPairing(
        given="bore so small that the nuts lack thread",
        verdict=WORK,
        checks={"nut and thread": WORK},
        why="Bore 37.6: stops 8 short, 14.3 past; 56 - 14.3 - 45 = -3.3: bored out it goes up 8.",
        hub={"bore_large_m": mm(37.6), "bore_small_m": mm(30.456)},
        shaft={"thread_length_m": mm(56, 0.5)},
        ask=("shaft", "seat", "water"),
        work="re-bore",
    ),
    PowerPairing(
        given="a cutter as long as the room",
        verdict=WORK,
        checks={"cutter": WORK},
        why="20 + 1.6 - 22 = -0.4; 3 is wanted.",
        shaft={"cutter_length_m": mm(22, 0.5)},
        ask=("shaft", "seat", "water"),
        work="shift the cutter",
    ),
    PowerPairing(
        given="no cutter",
        verdict=OK,
        checks={"cutter": OK},
        why="Somebody looked.",
        shaft={"cutter_length_m": mm(0, 0)},
        ask=("shaft", "seat", "water"),
    ),
    PowerPairing(
        given="thread, nuts and cutter not measured",
        verdict=ASK,
        checks={"nut and thread": ASK, "cutter": ASK},
        why="Unknowns never pass.",
        shaft={"thread_length_m": None, "nut_length_m": None, "cutter_length_m": None},
        ask=("shaft", "seat", "water"),
    ),
    PowerPairing(
        given="bore too large, in a hub too thin for a bush",
        verdict=NO,
        checks={"large end": NO},
        why="A bush of 38.1 + 2 x (4.85 + 3.05) = 53.9 in a hub of 65 leaves 5.5, and 9.5 is wanted.",
        hub={"bore_large_m": mm(39.5), "bore_small_m": mm(32.356), "hub_diameter_m": mm(65, 0.5)},
        ask=("shaft", "water"),
        work="another propeller",
    ),
    PowerPairing(
        given="bore too large, in a hub with metal for a bush",
        verdict=NO,
        checks={"large end": NO},
        why="The same bush in a hub of 76 leaves 11.",
        hub={"bore_large_m": mm(39.5), "bore_small_m": mm(32.356)},
        ask=("shaft", "water"),
        work="bush and re-bore",
    ),
    # Around
    PowerPairing(
        given="rudder too near",
        verdict=NO,
        checks={"room to the rudder": NO},
        why="120 - 57 - 2 - 32 = 29; 0.12 x 420 = 50 is wanted.",
        shaft={"rudder_distance_m": mm(120, 1)},
        ask=("shaft", "water", "around"),
        work="another propeller",
    ),
    PowerPairing(
        given="deadwood too near",
        verdict=NO,
        checks={"room ahead of the blades": NO},
        why="20 + 57 + 2 - 32 = 47; 0.15 x 420 = 63 is wanted.",
        shaft={"ahead_distance_m": mm(20, 1)},
        ask=("shaft", "water", "around"),
        work="another propeller",
    ),
    PowerPairing(
        given="an aperture shorter than hub and nuts",
        verdict=NO,
        checks={"aperture": NO},
        why="114.3 + 45 = 159; there are 150.",
        shaft={"aperture_length_m": mm(150, 2)},
        ask=("shaft", "water", "around"),
        work="another propeller",
    ),
    PowerPairing(
        given="shaft 235 under water",
        verdict=WORK,
        checks={"immersion": WORK},
        why="25 over the tips, 42 wanted; 235 / 0.6 = 392 would have it, 7 % less.",
        shaft={"shaft_depth_m": mm(235, 2)},
        ask=("shaft", "water", "around"),
        work="cut down",
    ),
    PowerPairing(
        given="shaft 200 under water",
        verdict=NO,
        checks={"immersion": NO},
        why="The tips break the surface; 200 / 0.6 = 333 is a fifth less.",
        shaft={"shaft_depth_m": mm(200, 2)},
        ask=("shaft", "water", "around"),
        work="another propeller",
    ),
    PowerPairing(
        given="twice as heavy as the old one",
        verdict=ASK,
        checks={"weight": ASK},
        why="Half as much again is the most that passes unlooked at.",
        hub={"mass_kg": known(18.0, 0.2)},
        ask=("shaft", "water", "around"),
    ),
    PowerPairing(
        given="two blades, for which there is no rule",
        verdict=ASK,
        checks={"room to the rudder": ASK, "room ahead of the blades": ASK},
        why="The table begins at three.",
        hub={"blades": 2},
        ask=("shaft", "water", "around"),
    ),
    # Condition
    PowerPairing(
        given="a bent tip not mended",
        verdict=WORK,
        checks={"faults": WORK},
        why="Mend first.",
        hub={"open_faults": ("blade 2 bent at the tip",)},
        ask=("shaft", "water", "condition"),
        work="mend",
    ),
    PowerPairing(
        given="nobody looked it over",
        verdict=ASK,
        checks={"faults": ASK},
        why="Unknowns never pass.",
        hub={"open_faults": None},
        ask=("shaft", "water", "condition"),
    ),
    PowerPairing(
        given="measured six years ago",
        verdict=ASK,
        checks={"age": ASK, "faults": OK},
        why="The yard wants it within three.",
        hub={"measured_age_s": known(6 * 365 * DAY_S, 0.0)},
        ask=("shaft", "water", "condition"),
    ),
    # All of it
    PowerPairing(
        given="nothing known of either, everything asked",
        verdict=ASK,
        checks={
            "hand": ASK,
            "bore": ASK,
            "nut and thread": ASK,
            "cutter": ASK,
            "tip room": ASK,
            "room to the rudder": ASK,
            "aperture": ASK,
            "immersion": ASK,
            "weight": ASK,
            "faults": ASK,
            "age": ASK,
            "engine load": ASK,
            "blade area": ASK,
            "tip speed": ASK,
            "torsion": ASK,
            "critical speed": ASK,
            "key": ASK,
        },
        why="Unknowns never pass, and no figure is made up for them.",
        hub=NOTHING_HUB,
        shaft=NOTHING_SHAFT | {"speed_power": ()},
    ),
]
