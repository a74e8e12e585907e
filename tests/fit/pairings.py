"""Propellers and drives put side by side by hand: what is given, what must come out, and why, with the arithmetic.

Every pairing is a change to one good pair: a 1-1/2 in shaft of SAE J755 (1:16; taper 4-1/4 in long, small end
1.234 in, keyway 3/8 in: reference table, confirmed) and a propeller that fits it. Lengths here are in mm and the ± is
one standard uncertainty, as a careful person with callipers gets it.
"""

from dataclasses import dataclass, field, replace
from typing import Any

from yardapp.fit.figures import DriveFigures, Figure, PropellerFigures

OK, WORK, NO, ASK = "goes on", "goes on after work", "does not go on", "cannot tell"


def mm(value: float, u: float = 0.02, basis: str = "measured") -> Figure:
    return Figure(value=value / 1000, u=u / 1000, basis=basis)


def one_in(ratio: float, u: float = 0.2, basis: str = "measured") -> Figure:
    """1:ratio with a ± on the ratio."""
    return Figure(value=1 / ratio, u=u / ratio**2, basis=basis)


GOOD_PROPELLER = PropellerFigures(
    tag="P-014",
    hand="right",
    hand_stamped="right",
    blades=3,
    diameter_m=mm(560, 1),
    pitch_m=mm(400, 8),
    bore_large_m=mm(38.0),
    bore_small_m=mm(30.856),  # 38.0 - 114.3 / 16
    bore_length_m=mm(114.3, 0.2),
    taper=one_in(16),
    keyway_width_m=mm(9.53, 0.03),
    keyway_depth_m=mm(4.85, 0.05),
    hub_length_m=mm(114.3, 0.2),
    hub_diameter_m=mm(76, 0.5),
    bore_kind="taper",
    material="bronze",
)
GOOD_DRIVE = DriveFigures(
    hand="right",
    shaft_diameter_m=mm(38.1),
    taper=one_in(16),
    taper_length_m=mm(107.95, 0.2),
    keyway_width_m=mm(9.51, 0.03),
    keyway_depth_m=mm(4.85, 0.05),
    hub_space_m=mm(20, 0.5),
    hull_clearance_m=mm(375, 1),
    rated_power_w=Figure(value=40e3, u=1e3, basis="paper"),
    rated_speed_rps=Figure(value=50.0, u=0.5, basis="paper"),
    reduction_ratio=Figure(value=2.0, u=0.0, basis="paper"),
    vessel_length_m=Figure(value=10.0, u=0.1, basis="paper"),
    block_ratio=Figure(value=0.4, u=0.02, basis="paper"),
    is_twin=False,
)


@dataclass(frozen=True, kw_only=True)
class Pairing:
    """`hub` and `shaft` change the good pair; `checks` must come out so, `verdict` over all."""

    given: str
    verdict: str
    checks: dict[str, str]
    why: str
    hub: dict[str, Any] = field(default_factory=dict)
    shaft: dict[str, Any] = field(default_factory=dict)
    rule: str = "15 %"
    work: str | None = None  # one of the works that must be asked for
    ask: tuple[str, ...] | None = None  # the groups asked for; None: the geometry and what was given figures of its own

    @property
    def propeller(self) -> PropellerFigures:
        return replace(GOOD_PROPELLER, **self.hub)

    @property
    def drive(self) -> DriveFigures:
        return replace(GOOD_DRIVE, **self.shaft)


HUB_1_12 = {"taper": one_in(12), "bore_large_m": mm(38.0), "bore_small_m": mm(28.475)}  # 38.0 - 114.3 / 12
HUB_1_10 = {"taper": one_in(10), "bore_large_m": mm(38.0), "bore_small_m": mm(26.57)}  # 38.0 - 114.3 / 10
NO_ENDS = {"bore_large_m": None, "bore_small_m": None, "bore_length_m": None}
PILOT = {"bore_kind": "pilot", "taper": None, "bore_small_m": None, "keyway_width_m": None, "keyway_depth_m": None}
NOTHING_HUB = {name: None for name in PropellerFigures.__dataclass_fields__ if name != "contradictions"}
NOTHING_SHAFT = {name: None for name in DriveFigures.__dataclass_fields__ if name != "contradictions"}

PAIRINGS = [
    Pairing(
        given="the good pair",
        verdict=OK,
        checks={
            "hand": OK,
            "taper": OK,
            "large end": OK,
            "keyway width": OK,
            "keyway depth": OK,
            "hub length": OK,
            "tip room": OK,
        },
        why="Bore 0.1 under the shaft: stops 0.1 x 16 = 1.6 short, ± 0.9; hub 114.3 - 107.95 + 1.6 = 8 past; "
        "tips 375 - 280 = 95 clear, 17 % of 560.",
    ),
    # Hand
    Pairing(
        given="left on right",
        verdict=NO,
        checks={"hand": NO},
        why="Nothing turns a left hand propeller into a right: no work is offered.",
        hub={"hand": "left", "hand_stamped": "left"},
        work="another propeller",
    ),
    Pairing(
        given="left on right, and a pilot bore that could be bored",
        verdict=NO,
        checks={"hand": NO},
        why="Machining is never offered on the wrong hand.",
        hub={"hand": "left", "hand_stamped": None, **PILOT, "bore_large_m": mm(25)},
        work="another propeller",
    ),
    Pairing(
        given="seen right, stamped left",
        verdict=ASK,
        checks={"hand": ASK, "taper": OK},
        why="One of the two is wrong; a look at the blades settles it.",
        hub={"hand_stamped": "left"},
    ),
    Pairing(
        given="hand not seen, stamped right",
        verdict=ASK,
        checks={"hand": ASK, "large end": OK},
        why="Trusting a stamp is what people get wrong most.",
        hub={"hand": None},
    ),
    Pairing(
        given="hand not seen, stamped left",
        verdict=ASK,
        checks={"hand": ASK},
        why="A stamp neither passes nor condemns.",
        hub={"hand": None, "hand_stamped": "left"},
    ),
    Pairing(
        given="hand that the drive wants not known",
        verdict=ASK,
        checks={"hand": ASK},
        why="Two facts are needed; one is missing.",
        shaft={"hand": None},
    ),
    Pairing(
        given="LH written on both sides",
        verdict=OK,
        checks={"hand": OK},
        why="LH is left.",
        hub={"hand": "LH", "hand_stamped": "lh"},
        shaft={"hand": "left"},
    ),
    # Taper
    Pairing(
        given="hub 1:16 on shaft 1:12, ends known",
        verdict=NO,
        checks={"taper": NO},
        why="Three quarters down, 85.7 along: the shaft is 38.1 - 7.14 = 30.96, the bore 38.0 - 5.36 = 32.64: "
        "1.7 too big already, so a re-bore can't clean up.",
        shaft={"taper": one_in(12)},
        work="bush and re-bore",
    ),
    Pairing(
        given="hub 1:16 on shaft 1:12, ends not known",
        verdict=NO,
        checks={"taper": NO},
        why="On a shaft of its own size its small end is too big; 1:16 ± 0.4 and 1:12 ± 0.4 lie far apart.",
        hub=NO_ENDS,
        shaft={"taper": one_in(12)},
        work="bush and re-bore",
    ),
    Pairing(
        given="hub 1:12 on shaft 1:16",
        verdict=WORK,
        checks={"taper": WORK, "hub length": OK},
        why="A quarter down, 28.6 along: the bore is 38.0 - 2.38 = 35.62, the shaft 38.1 - 1.79 = 36.31: 0.7 of metal; "
        "wall (76 - 38.1) / 2 = 18.95, the yard wants 38.1 / 4 = 9.5.",
        hub=HUB_1_12,
        work="re-bore",
    ),
    Pairing(
        given="hub 1:12 on shaft 1:16 in too thin a hub",
        verdict=NO,
        checks={"taper": NO},
        why="Wall (52 - 38.1) / 2 = 6.95, and 9.5 is wanted.",
        hub=HUB_1_12 | {"hub_diameter_m": mm(52, 0.5)},
        work="another propeller",
    ),
    Pairing(
        given="hub 1:12 on shaft 1:16, diameter of the hub not known",
        verdict=ASK,
        checks={"taper": ASK},
        why="It cleans up, but what wall is left is not known.",
        hub=HUB_1_12 | {"hub_diameter_m": None},
    ),
    Pairing(
        given="hub 1:12 on shaft 1:16, ends not known",
        verdict=ASK,
        checks={"taper": ASK},
        why="A re-bore may do; that hangs on the bore's size.",
        hub=HUB_1_12 | NO_ENDS,
    ),
    Pairing(
        given="a small 1:16 hub on a larger 1:12 shaft",
        verdict=WORK,
        checks={"taper": WORK},
        why="Bore 25 at the large end. At 85.7 along: shaft 38.1 - 7.14 = 30.96, bore 25 - 5.36 = 19.64: 11 of metal. "
        "Wall (80 - 38.1) / 2 = 20.95.",
        hub={"bore_large_m": mm(25), "bore_small_m": mm(17.856), "hub_diameter_m": mm(80, 0.5)},
        shaft={"taper": one_in(12)},
        work="re-bore",
    ),
    Pairing(
        given="1:10 on 1:10",
        verdict=OK,
        checks={"taper": OK, "large end": OK},
        why="One taper; 0.1 on diameter is 1.0 short; 114.3 - 107.95 + 1.0 = 7.3 past.",
        hub=HUB_1_10,
        shaft={"taper": one_in(10)},
    ),
    Pairing(
        given="1:10 hub on a 1:12 shaft",
        verdict=WORK,
        checks={"taper": WORK},
        why="Faster hub: a quarter down, bore 38.0 - 2.86 = 35.14, shaft 38.1 - 2.38 = 35.72: 0.6 of metal.",
        hub=HUB_1_10,
        shaft={"taper": one_in(12)},
        work="re-bore",
    ),
    Pairing(
        given="± too wide to tell 1:12 from 1:16",
        verdict=ASK,
        checks={"taper": ASK, "large end": ASK},
        why="1:14 ± 3 (k = 2) reaches from 1:11 to 1:17.",
        hub={"taper": one_in(14, 1.5), "bore_small_m": None},
    ),
    Pairing(
        given="1:15 ± 2 on 1:16",
        verdict=ASK,
        checks={"taper": ASK},
        why="It reaches from 1:13 to 1:17: neither surely 1:16 nor surely another.",
        hub={"taper": one_in(15, 1.0), "bore_small_m": None},
    ),
    Pairing(
        given="1:15.7 ± 0.4 on 1:16 ± 0.4",
        verdict=OK,
        checks={"taper": OK},
        why="0.0012 apart and ± 0.0022 together (k = 2): at most 5.4 % of a taper, where 1:12 is a third away.",
        hub={"taper": one_in(15.7), "bore_small_m": None},
    ),
    Pairing(
        given="nearly 1:16",
        verdict=NO,
        checks={"taper": NO},
        why="1:15.0 ± 0.2 (k = 2) is not 1:16 ± 0.2: they part by 0.00417 x 114.3 = 0.48 mm, tenths, which lapping "
        "does not mend. Faster hub: 28.6 along, the bore is 38.30 - 1.90 = 36.40 and the shaft 38.1 - 1.79 = 36.31: "
        "no metal, so no re-bore.",
        hub={"taper": one_in(15, 0.1), "bore_large_m": mm(38.30, 0.01), "bore_small_m": mm(30.68, 0.01)},
        shaft={"taper": one_in(16, 0.1), "shaft_diameter_m": mm(38.1, 0.01)},
        work="bush and re-bore",
    ),
    Pairing(
        given="two tapers that part by four hundredths",
        verdict=WORK,
        checks={"taper": WORK},
        why="1:15.92 and 1:16.00, each ± 0.01 (k = 2): 0.000314 apart, over 114.3 it is 0.036: lapping mends that.",
        hub={"taper": one_in(15.92, 0.005), "bore_small_m": None},
        shaft={"taper": one_in(16.0, 0.005)},
        work="lap",
    ),
    Pairing(
        given="taper on record 1:16, ends of the bore say 1:12",
        verdict=ASK,
        checks={"taper": ASK},
        why="(38.0 - 28.475) / 114.3 = 1/12: one of the two is wrong.",
        hub={"bore_small_m": mm(28.475)},
    ),
    Pairing(
        given="taper out of the bore's ends alone",
        verdict=OK,
        checks={"taper": OK},
        why="(38.0 - 30.856) / 114.3 = 0.0625, ± 0.0005 at k = 2.",
        hub={"taper": None},
    ),
    Pairing(
        given="taper of the hub not known",
        verdict=ASK,
        checks={"taper": ASK, "large end": ASK},
        why="One end of the bore is missing.",
        hub={"taper": None, "bore_small_m": None},
    ),
    Pairing(
        given="a taper that can't be right",
        verdict=ASK,
        checks={"taper": ASK},
        why="16 written where 0.0625 was meant: no taper widens by sixteen times its length.",
        shaft={"taper": Figure(value=16.0, u=0.1, basis="paper")},
    ),
    # Large end
    Pairing(
        given="bore 0.3 too large, room for it",
        verdict=OK,
        checks={"large end": OK},
        why="Slides up 0.3 x 16 = 4.8 toward the bearing: 20 - 4.8 = 15.2 is left; 118 - 107.95 - 4.8 = 5.2 past.",
        hub={"bore_large_m": mm(38.4), "bore_small_m": mm(31.256), "hub_length_m": mm(118, 0.2)},
    ),
    Pairing(
        given="bore too large, and no room before the bearing",
        verdict=NO,
        checks={"large end": NO},
        why="Slides up 1.4 x 16 = 22.4, and there are 20.",
        hub={"bore_large_m": mm(39.5), "bore_small_m": mm(32.356), "hub_length_m": mm(140, 0.2)},
        work="bush and re-bore",
    ),
    Pairing(
        given="bore too large, room not known",
        verdict=ASK,
        checks={"large end": ASK},
        why="Slides up 4.8: whether there is room has to be measured.",
        hub={"bore_large_m": mm(38.4), "bore_small_m": mm(31.256), "hub_length_m": mm(118, 0.2)},
        shaft={"hub_space_m": None},
    ),
    Pairing(
        given="bore far too large for the taper",
        verdict=NO,
        checks={"large end": NO},
        why="Slides up 2.4 x 16 = 38.4: a third of a bore of 114.3 is off the taper, a quarter is the most.",
        hub={"bore_large_m": mm(40.5), "bore_small_m": mm(33.356)},
        shaft={"hub_space_m": mm(100, 0.5)},
        work="bush and re-bore",
    ),
    Pairing(
        given="bore far too small",
        verdict=WORK,
        checks={"large end": WORK, "hub length": OK},
        why="Stops 2.6 x 16 = 41.6 short: 107.95 - 41.6 = 66 of taper for a bore of 114.3, 86 is wanted. Bored out "
        "it goes to the mark.",
        hub={"bore_large_m": mm(35.5), "bore_small_m": mm(28.356)},
        work="re-bore",
    ),
    Pairing(
        given="bore a little small",
        verdict=OK,
        checks={"large end": OK, "hub length": OK},
        why="Stops 0.5 x 16 = 8 short: 100 of taper for a bore of 114.3 is 87 %; 14.3 past, half a shaft is 19.",
        hub={"bore_large_m": mm(37.6), "bore_small_m": mm(30.456)},
    ),
    Pairing(
        given="bore and shaft off a tape measure",
        verdict=ASK,
        checks={"large end": ASK},
        why="± 1 on each diameter is ± 23 along 1:16 (k = 2): anywhere from the bearing to well short.",
        hub={"bore_large_m": mm(38, 0.5), "bore_small_m": None},
        shaft={"shaft_diameter_m": mm(38.1, 0.5)},
    ),
    Pairing(
        given="a bore stamped 1-1/2, nothing said of its ±",
        verdict=ASK,
        checks={"hub length": ASK},
        why="A stamp is a nominal size: half a millimetre is assumed, 8 along the shaft, 16 at k = 2. The 20 of room "
        "takes that, but 114.3 - 107.95 = 6.35 past the taper does not.",
        hub={"bore_large_m": Figure(value=0.0381, basis="stamped"), "bore_small_m": None},
    ),
    # Pilot and parallel bores
    Pairing(
        given="a pilot of 25 in a stout hub",
        verdict=WORK,
        checks={"pilot bore": WORK, "hub length": OK},
        why="Least that is needed 38.1 - 85.7 / 16 = 32.7, over 25; wall 18.95 and 18.95 - 4.85 = 14.1 over the key; "
        "9.5, 5.7 wanted. To the mark it stands 6.35 past.",
        hub=PILOT | {"bore_large_m": mm(25, 0.1)},
        work="bore and key",
    ),
    Pairing(
        given="a pilot in too thin a hub",
        verdict=NO,
        checks={"pilot bore": NO},
        why="Wall (54 - 38.1) / 2 = 7.95, 9.5 is wanted.",
        hub=PILOT | {"bore_large_m": mm(25, 0.1), "hub_diameter_m": mm(54, 0.5)},
        work="another propeller",
    ),
    Pairing(
        given="a pilot whose wall is too thin over the keyway alone",
        verdict=NO,
        checks={"pilot bore": NO},
        why="Wall (60 - 38.1) / 2 = 10.95 passes 9.5; over a keyway of 6: 4.95, 5.7 is wanted.",
        hub=PILOT | {"bore_large_m": mm(25, 0.1), "hub_diameter_m": mm(60, 0.2)},
        shaft={"keyway_depth_m": mm(6, 0.05)},
        work="another propeller",
    ),
    Pairing(
        given="a pilot just at the least wall, ± on the hub",
        verdict=ASK,
        checks={"pilot bore": ASK},
        why="(57.2 - 38.1) / 2 = 9.55 ± 0.5 (k = 2) against 9.525; over a keyway of 3 it passes.",
        hub=PILOT | {"bore_large_m": mm(25, 0.1), "hub_diameter_m": mm(57.2, 0.5)},
        shaft={"keyway_depth_m": mm(3, 0.05)},
    ),
    Pairing(
        given="a pilot that is larger than the shaft's small end",
        verdict=NO,
        checks={"pilot bore": NO},
        why="At three quarters, 85.7 along, the shaft is 32.74; the pilot is 36.",
        hub=PILOT | {"bore_large_m": mm(36, 0.1)},
        work="bush and re-bore",
    ),
    Pairing(
        given="a pilot, diameter of the hub not known",
        verdict=ASK,
        checks={"pilot bore": ASK},
        why="What wall is left is not known.",
        hub=PILOT | {"bore_large_m": mm(25, 0.1), "hub_diameter_m": None},
    ),
    Pairing(
        given="a pilot of unknown size",
        verdict=ASK,
        checks={"pilot bore": ASK},
        why="It may be larger than the shaft's small end.",
        hub=PILOT | {"bore_large_m": None},
    ),
    Pairing(
        given="a parallel bore on a taper shaft",
        verdict=NO,
        checks={"bore": NO},
        why="It touches at one ring.",
        hub={"bore_kind": "parallel", "taper": None, "bore_small_m": None},
        work="bush and re-bore",
    ),
    Pairing(
        given="a parallel bore on a shaft that nobody measured",
        verdict=ASK,
        checks={"bore": ASK},
        why="The shaft may be parallel too.",
        hub={"bore_kind": "parallel", "taper": None, "bore_small_m": None},
        shaft={"taper": None},
    ),
    Pairing(
        given="a small parallel bore that could be bored like a pilot",
        verdict=NO,
        checks={"bore": NO},
        why="As it is it touches at one ring; 25 leaves metal everywhere, 38.1 - 6.7 = 31.4 at the small end.",
        hub={"bore_kind": "parallel", "taper": None, "bore_small_m": None, "bore_large_m": mm(25, 0.1)},
        work="bore and key",
    ),
    Pairing(
        given="kind of bore not known, no taper read",
        verdict=ASK,
        checks={"bore": ASK},
        why="38 may be a finished parallel bore or a pilot.",
        hub={"bore_kind": None, "taper": None, "bore_small_m": None},
    ),
    # Keyway
    Pairing(
        given="hub's keyway 1 mm narrow",
        verdict=WORK,
        checks={"keyway width": WORK},
        why="8.5 against 9.51: it can be opened.",
        hub={"keyway_width_m": mm(8.5, 0.03)},
        work="open the keyway",
    ),
    Pairing(
        given="hub's keyway 1 mm wide of the mark",
        verdict=WORK,
        checks={"keyway width": WORK},
        why="10.5 against 9.51: a stepped key.",
        hub={"keyway_width_m": mm(10.5, 0.03)},
        work="fit a key",
    ),
    Pairing(
        given="no keyway in the hub",
        verdict=WORK,
        checks={"keyway width": WORK},
        why="Looked: there is none; it can be cut.",
        hub={"keyway_width_m": mm(0, 0), "keyway_depth_m": None},
        work="open the keyway",
    ),
    Pairing(
        given="no keyway in the shaft",
        verdict=ASK,
        checks={"keyway width": ASK},
        why="A keyless fit goes by its maker's push-up.",
        shaft={"keyway_width_m": mm(0, 0), "keyway_depth_m": None},
    ),
    Pairing(
        given="keyway of the hub never measured",
        verdict=ASK,
        checks={"keyway width": ASK, "keyway depth": ASK},
        why="Unknown is not the same as none.",
        hub={"keyway_width_m": None, "keyway_depth_m": None},
    ),
    Pairing(
        given="keyways off a rule",
        verdict=ASK,
        checks={"keyway width": ASK},
        why="9.5 ± 1 and 9.5 ± 1 (k = 2) may part by more than 0.2.",
        hub={"keyway_width_m": mm(9.5, 0.5)},
        shaft={"keyway_width_m": mm(9.5, 0.5)},
    ),
    Pairing(
        given="hub's keyway too shallow for the standard key",
        verdict=WORK,
        checks={"keyway depth": WORK},
        why="3.0 + 4.85 = 7.85 for a square key of 9.525: 1.7 too high, a tenth of it (0.95) may be eased.",
        hub={"keyway_depth_m": mm(3.0, 0.05)},
        work="open the keyway",
    ),
    Pairing(
        given="a keyway of no standard",
        verdict=OK,
        checks={"keyway width": OK, "keyway depth": OK},
        why="11 is not 3/8 in, nor the 12 of ISO/R 773 for 38 to 44: a key is made, 9.7 high at most.",
        hub={"keyway_width_m": mm(11.0, 0.03)},
        shaft={"keyway_width_m": mm(11.0, 0.03)},
    ),
    # Length of the hub
    Pairing(
        given="hub shorter than the taper",
        verdict=WORK,
        checks={"hub length": WORK},
        why="100 - 107.95 + 1.6 = -6.35: a spacer of 6.35 + 6.35 = 12.7, half a shaft is 19.",
        hub={"hub_length_m": mm(100, 0.2), "bore_length_m": mm(100, 0.2), "bore_small_m": None},
        work="fit a spacer",
    ),
    Pairing(
        given="hub far shorter than the taper",
        verdict=NO,
        checks={"hub length": NO},
        why="70 - 107.95 + 1.6 = -36: a spacer of 43, half a shaft is 19.",
        hub={"hub_length_m": mm(70, 0.2), "bore_length_m": mm(70, 0.2), "bore_small_m": None},
        work="another propeller",
    ),
    Pairing(
        given="hub that ends with the taper, within its ±",
        verdict=ASK,
        checks={"hub length": ASK},
        why="106.35 - 107.95 + 1.6 = 0.0 ± 1.1.",
        hub={"hub_length_m": mm(106.35, 0.2), "bore_length_m": mm(106.35, 0.2), "bore_small_m": None},
    ),
    Pairing(
        given="a hub that stands far past the taper",
        verdict=ASK,
        checks={"hub length": ASK},
        why="140 - 107.95 + 1.6 = 33.6, half a shaft is 19: is there thread enough?",
        hub={"hub_length_m": mm(140, 0.2)},
    ),
    Pairing(
        given="length of the taper not known",
        verdict=ASK,
        checks={"hub length": ASK, "large end": ASK},
        why="Neither the nut nor the contact can be judged.",
        shaft={"taper_length_m": None},
    ),
    # Room at the tips
    Pairing(
        given="tip room 12 % under the 15 % rule",
        verdict=WORK,
        checks={"tip room": WORK},
        why="347.2 - 280 = 67.2 = 12 % of 560; 84 is asked for. Cut down to 347.2 / 0.65 = 534.",
        shaft={"hull_clearance_m": mm(347.2, 0.5)},
        work="cut down",
    ),
    Pairing(
        given="tip room 12 % under the 10 % rule",
        verdict=OK,
        checks={"tip room": OK},
        why="67.2, and 56 is asked for.",
        shaft={"hull_clearance_m": mm(347.2, 0.5)},
        rule="10 %",
    ),
    Pairing(
        given="tip room just at 15 %, with a ±",
        verdict=ASK,
        checks={"tip room": ASK},
        why="364 - 280 = 84 = 15 % of 560: 84 ± 2.4 either side of it.",
        shaft={"hull_clearance_m": mm(364, 1)},
    ),
    Pairing(
        given="tip room just at 15 %, figures exact",
        verdict=OK,
        checks={"tip room": OK},
        why="84 is 84: at the rule is enough.",
        hub={"diameter_m": mm(560, 0)},
        shaft={"hull_clearance_m": mm(364, 0)},
    ),
    Pairing(
        given="tips that strike the hull",
        verdict=NO,
        checks={"tip room": NO},
        why="270 - 280 = -10.",
        shaft={"hull_clearance_m": mm(270, 1)},
        work="another propeller",
    ),
    Pairing(
        given="tip room 5 % under the 15 % rule",
        verdict=NO,
        checks={"tip room": NO},
        why="308 - 280 = 28 = 5 %, under every band; 308 / 0.65 = 474 would cut 86 off, more than a tenth of 560.",
        shaft={"hull_clearance_m": mm(308, 1)},
        work="another propeller",
    ),
    Pairing(
        given="shaft centre to hull never measured",
        verdict=ASK,
        checks={"tip room": ASK},
        why="No room is known.",
        shaft={"hull_clearance_m": None},
    ),
    Pairing(
        given="class rule, single screw, 10 m",
        verdict=OK,
        checks={"tip room": OK},
        why="K = (0.1 + 10 / 3050) (3.48 x 0.4 x 40 / 100 + 0.3) = 0.1033 x 0.857 = 0.0885; 1.2 K = 0.106 D = 59, "
        "over the least of 0.10 D; 95 is there.",
        rule="class",
    ),
    Pairing(
        given="class rule, twin screw, 10 m",
        verdict=WORK,
        checks={"tip room": WORK},
        why="On two screws the least is 0.20 D = 112, and 95 is there; 375 / 0.7 = 536.",
        shaft={"is_twin": True},
        rule="class",
        work="cut down",
    ),
    Pairing(
        given="class rule, block coefficient not known",
        verdict=ASK,
        checks={"tip room": ASK},
        why="K wants length, block coefficient and power.",
        shaft={"block_ratio": None},
        rule="class",
    ),
    Pairing(
        given="class rule, two blades",
        verdict=ASK,
        checks={"tip room": ASK},
        why="The table begins at three blades.",
        hub={"blades": 2},
        rule="class",
    ),
    Pairing(
        given="class rule, one screw or two not known",
        verdict=ASK,
        checks={"tip room": ASK},
        why="0.10 D or 0.20 D.",
        shaft={"is_twin": None},
        rule="class",
    ),
    # Doubt
    Pairing(
        given="diameter that was guessed",
        verdict=ASK,
        checks={"tip room": ASK},
        why="A guess settles nothing.",
        hub={"diameter_m": mm(560, 1, "guessed")},
    ),
    Pairing(
        given="stamp and tape that disagree on the diameter",
        verdict=ASK,
        checks={"tip room": ASK, "taper": OK},
        why="95 would pass, but of which diameter?",
        hub={"contradictions": ("diameter_m",)},
    ),
    Pairing(
        given="nothing known of the propeller",
        verdict=ASK,
        checks={"hand": ASK, "bore": ASK, "keyway width": ASK, "hub length": ASK, "tip room": ASK},
        why="Unknowns never pass.",
        hub=NOTHING_HUB,
    ),
    Pairing(
        given="nothing known of either",
        verdict=ASK,
        checks={"hand": ASK, "bore": ASK, "keyway width": ASK, "hub length": ASK, "tip room": ASK},
        why="Unknowns never pass.",
        hub=NOTHING_HUB,
        shaft=NOTHING_SHAFT,
    ),
]
