"""The lists of lines that come with the app; a yard edits its own copies. No database here."""

from yardapp.relaunch.lines import AFLOAT, FOLLOW_UP, LOCK, TO_OWNER, Line

PROPELLER = Line(
    key="propeller",
    words="Right propeller on this shaft, turning the right way",
    by="scan",
    signs=2,
    plain="The right propeller is on, and turns the right way",
)
VERDICT = Line(key="verdict", words="It goes on: judged against this shaft", by="verdict", plain="It fits the shaft")
PAIR = Line(
    key="pair",
    words="The two are a pair: opposite hands, alike",
    by="pair",
    is_each=False,
    plain="The two propellers are a pair",
)
MARK = Line(key="mark", words="Hub at the mark of the dry fit", by="photo", plain="It sits where it was fitted dry")
KEY = Line(key="key", words="Key in: snug in both keyways, clear on top", plain="Its key is in")
CONTACT = Line(
    key="contact",
    words="Contact of the bore, by bluing",
    by="figure",
    unit="%",
    at_least=70,
    is_stop=False,
    plain="It bears well on the shaft",
)
NUTS = Line(key="nuts", words="Nuts on, in the yard's order: {nut order}", plain="Its nuts are on")
TORQUE = Line(key="torque", words="Nut torque", by="figure", unit="N m", at_least=1, plain="Its nut is tight")
LOCK_LINE = Line(
    key=LOCK,
    words="Lock fitted, looked at after tightening",
    by="photo",
    signs=2,
    plain="Its nut is locked, and two people looked",
)
TURNS = Line(key="turns", words="Turns free by hand, all clear", plain="The shaft turns free")
GAP = Line(
    key="gap",
    words="Gap from hub to bearing, at most one shaft diameter",
    by="figure",
    unit="mm",
    at_least=1,
    is_stop=False,
    plain="There is room for water at the bearing",
)
BEARING = Line(
    key="bearing",
    words="Bearing clearance within the yard's limit",
    by="sheet",
    sheet="bearing",
    plain="The bearing is within its limit",
)
SHAFT = Line(
    key="shaft",
    words="Shaft straight: run-out read",
    by="sheet",
    sheet="run_out",
    is_stop=False,
    plain="The shaft runs straight",
)
BRACKET = Line(
    key="bracket", words="Bracket tight, no crack, no play in its feet", is_stop=False, plain="The bracket holds"
)
COUPLING = Line(
    key="coupling",
    words="Coupling bolts tight, gap between its faces",
    by="figure",
    unit="mm",
    at_most=0.07,
    plain="The coupling to the gearbox is tight and true",
)
GLAND = Line(key="gland", words="Gland packed, or seal set", plain="The gland is ready")
CUTTER = Line(
    key="cutter",
    words="Line cutter on, thread-locked; or none",
    signer="hand",
    is_stop=False,
    plain="The line cutter was looked at",
)
ANODE = Line(
    key="anode",
    words="Anode more than half, bright under it, tight, unpainted",
    by="photo",
    signer="hand",
    plain="The anode is good for the season",
)
BONDING = Line(
    key="bonding",
    words="Bonding, anode to propeller",
    by="figure",
    unit="ohm",
    at_most=1,
    signer="hand",
    is_stop=False,
    plain="The anode is joined to the propeller",
)
COATING = Line(
    key="coating",
    words="Coating: windows met, cured for water at the planned hour",
    by="coating",
    signer="coater",
    plain="The coating is ready for the water",
)
FITTINGS = Line(
    key="fittings",
    words="Walk round: skin fittings, transducers, plugs in; sling marks clear",
    by="photo",
    signer="hand, and owner or office",
    signs=2,
    is_each=False,
    plain="Every hole in the hull was looked at by two people",
)
FAULTS = Line(
    key="faults",
    words="Open faults: none, or each accepted",
    by="faults",
    signer="office",
    is_each=False,
    plain="Nothing is open that would stop her",
)
TRIAL_COMING = Line(
    key="trial_coming",
    words="First trial: who goes, and when",
    signer="office",
    is_stop=False,
    is_each=False,
    plain="A first trial is arranged",
)
GLAND_AFLOAT = Line(
    key="gland_afloat",
    words="In the slings: gland or seal holds, air let out",
    part=AFLOAT,
    signer="lift crew",
    plain="The gland held when she was in the slings",
)
BILGE = Line(
    key="bilge",
    words="Skin fittings and bilge dry",
    part=AFLOAT,
    signer="lift crew and owner's person",
    signs=2,
    is_each=False,
    plain="The bilge was dry, two people looked",
)
GLAND_WARM = Line(
    key="gland_warm",
    words="Under way: gland hand-warm; a packed one drips 2 to 3 a minute",
    part=TO_OWNER,
    plain="The gland ran cool enough",
)
AHEAD = Line(
    key="ahead",
    words="Ahead is ahead, astern is astern, no shake",
    part=TO_OWNER,
    signer="fitter or skipper",
    plain="She goes ahead, and does not shake",
)
FULL_SPEED = Line(
    key="full_speed",
    words="Revolutions at full throttle, by a proven tachometer",
    part=TO_OWNER,
    by="figure",
    unit="rpm",
    signer="fitter or skipper",
    is_stop=False,
    plain="Full throttle was read",
)
ALIGNMENT = Line(
    key="alignment",
    words="Gap between coupling faces, afloat and loaded",
    part=FOLLOW_UP,
    by="figure",
    unit="mm",
    at_most=0.07,
    after=AFLOAT,
    after_h=24,
    by_h=48,
    is_stop=False,
    plain="The coupling is checked again afloat, after a day or two",
)
GLAND_WATCHED = Line(
    key="gland_watched",
    words="Gland watched: drip and warmth once more",
    part=FOLLOW_UP,
    signer="hand",
    after=AFLOAT,
    after_h=12,
    by_h=24,
    is_stop=False,
    plain="The gland is looked at once more",
)
NUTS_AFTER = Line(
    key="nuts_after",
    words="Nuts and gland after her first hours; nuts if hauled or dived",
    part=FOLLOW_UP,
    after=TO_OWNER,
    after_h=24,
    by_h=336,
    is_stop=False,
    plain="Nuts and gland are looked at after her first hours",
)
FIRST_TRIAL = Line(
    key="first_trial",
    words="First trial run and written down",
    part=FOLLOW_UP,
    signer="fitter or skipper",
    after=TO_OWNER,
    after_h=0,
    by_h=168,
    is_stop=False,
    is_each=False,
    plain="Her first trial",
)
BELLOWS = Line(key="bellows", words="Bellows or lower seal whole, clamps tight", plain="Bellows and seals are whole")
GEAR_OIL = Line(key="gear_oil", words="Gear oil full, no water in it", plain="The gear oil is full and clean")
SPLINE = Line(
    key="spline",
    words="Spline greased, slip hub sound, thrust washer on",
    plain="The propeller sits well on its spline",
)
STEERING = Line(
    key="steering", words="Tilts and turns through its whole range", is_stop=False, plain="It tilts and turns"
)

_ON_A_SHAFT = (
    PROPELLER, VERDICT, MARK, KEY, CONTACT, NUTS, TORQUE, LOCK_LINE, TURNS, GAP, BEARING, SHAFT, BRACKET,
    COUPLING, GLAND, CUTTER, ANODE, BONDING, COATING, FITTINGS, FAULTS, TRIAL_COMING,
    GLAND_AFLOAT, BILGE, GLAND_WARM, AHEAD, FULL_SPEED, GLAND_WATCHED, ALIGNMENT, NUTS_AFTER, FIRST_TRIAL,
)  # fmt: skip
_ON_A_LEG = (
    PROPELLER, SPLINE, TORQUE, LOCK_LINE, TURNS, GEAR_OIL, BELLOWS, CUTTER, ANODE, COATING, FITTINGS, FAULTS,
    TRIAL_COMING, BILGE, AHEAD, FULL_SPEED, FIRST_TRIAL,
)  # fmt: skip
_SHAFT_LINE, _PAIR_OF_LINES = "shaft line", "pair of shaft lines"
LISTS: dict[str, tuple[Line, ...]] = {
    _SHAFT_LINE: _ON_A_SHAFT,
    _PAIR_OF_LINES: (*_ON_A_SHAFT[:2], PAIR, *_ON_A_SHAFT[2:]),
    "saildrive": _ON_A_LEG,
    "stern drive": (*_ON_A_LEG[:7], STEERING, *_ON_A_LEG[7:]),
    "outboard": tuple(line for line in (*_ON_A_LEG[:7], STEERING, *_ON_A_LEG[7:]) if line.key != "bellows"),
    "other": (PROPELLER, LOCK_LINE, TURNS, ANODE, COATING, FITTINGS, FAULTS, BILGE, AHEAD, FIRST_TRIAL),
}


def suggested(positions: int) -> str:
    """The list for a boat with so many drives, until somebody says otherwise."""
    return _PAIR_OF_LINES if positions > 1 else _SHAFT_LINE
