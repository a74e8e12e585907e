"""Does it go on? Figures of the register put before the judge."""

from dataclasses import dataclass, replace
from math import hypot
from typing import Any

from sqlalchemy import select
from sqlalchemy.orm import Session

from yardapp.errors import Refused
from yardapp.fit.checks.groups import EVERYTHING
from yardapp.fit.figures import DriveFigures, Figure, PropellerFigures
from yardapp.fit.services.condition import states_of, with_state
from yardapp.fit.verdict import RULES, Verdict, asked_by, plain
from yardapp.fit.verdict import judge as judge_figures
from yardapp.gear import services as gear
from yardapp.people.services import Who
from yardapp.vessels import services as vessels

_PROPELLER = (
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
    "area_ratio",
    "mass_kg",
)
_SHAFT_END = ("shaft_diameter_m", "taper", "taper_length_m", "keyway_width_m", "keyway_depth_m", "hub_space_m")
_ENGINE = ("rated_power_w", "rated_speed_rps", "reduction_ratio")
_LENGTH = "length_m"  # of the waterline, which the judge calls the vessel's
_HULL = tuple(name for name in vessels.HULL_FIGURES if name != _LENGTH)
OTHER = {"right": "left", "left": "right"}


@dataclass(frozen=True, kw_only=True)
class Pairing:
    """One propeller put before one drive."""

    tag: str
    drive_id: int
    drive: str
    vessel_id: int
    propeller: PropellerFigures
    room: DriveFigures
    verdict: Verdict
    # The groups of which nobody gave a figure of their own: each can't be told, and says what would settle it.
    unjudged: Verdict | None = None
    item_id: int = 0
    engine: str = ""


def propeller_figures(item: gear.Item) -> PropellerFigures:
    """The working figures of a propeller. Only a hand that somebody saw counts as seen."""
    is_seen = item.known.get("hand") == "measured"
    odds = tuple(dict.fromkeys(str(one["what"]) for one in item.odds if one["sure"]))
    stamped = (OTHER[str(item.hand)] if "hand" in odds else None) if is_seen else item.hand
    sizes: dict[str, Any] = {name: _known(item, name) for name in _PROPELLER}
    return PropellerFigures(
        tag=item.tag,
        hand=item.hand if is_seen else None,
        hand_stamped=stamped,
        blades=item.blades,
        bore_kind=item.bore_kind,
        material=item.material,
        kind=item.blade_kind,
        contradictions=tuple(what for what in odds if what != "hand"),
        **sizes,
    )


def _known(item: gear.Item, name: str) -> Figure | None:
    value = getattr(item, name)
    return None if value is None else Figure(value=value, u=getattr(item, f"u_{name}"), basis=item.known.get(name))


def drive_figures(drive: Any, vessel: Any) -> DriveFigures:
    """What is said of a drive; the way to the hull is brought to the shaft's centre."""
    given: dict[str, Any] = {name: _said(getattr(drive, name), getattr(drive, f"u_{name}")) for name in _SHAFT_END}
    given |= {name: _said(getattr(drive, name)) for name in (*_ENGINE, *vessels.LINE_FIGURES)}
    given |= {name: getattr(drive, name) for name in vessels.LINE_WORDS}
    given |= {name: _said(getattr(vessel, name)) for name in _HULL}
    given |= {name: getattr(vessel, name) for name in vessels.HULL_WORDS}
    return DriveFigures(
        hand=drive.hand,
        hull_clearance_m=_from_centre(drive),
        vessel_length_m=_said(vessel.length_m),
        is_twin=drive.position != "centre",
        engine_curve=_pairs(drive.engine_curve),
        speed_power=_pairs(vessel.speed_power),
        **given,
    )


def _pairs(pairs: Any) -> tuple[tuple[float, float], ...]:
    return tuple((float(speed), float(power)) for speed, power in pairs or ())


def _said(value: float | None, u: float | None = None) -> Figure | None:
    return None if value is None else Figure(value=value, u=u, basis="measured" if u is not None else "paper")


def _from_centre(drive: Any) -> Figure | None:
    value = vessels.clearance_from_centre(drive.hull_clearance_m, drive.hull_clearance_from, drive.shaft_diameter_m)
    if value is None or drive.u_hull_clearance_m is None or drive.hull_clearance_from == "centre":
        return _said(value, drive.u_hull_clearance_m)
    return _said(value, hypot(drive.u_hull_clearance_m, (drive.u_shaft_diameter_m or 0.0) / 2))


def pairing(session: Session, who: Who, tag: str, drive_id: int, *, rule: str = "15 %", say: Any = plain) -> Pairing:
    """One propeller of the register before one of its drives.

    Raises
    ------
    NotFound
        No propeller carries the tag, or there is no such drive, or this person may not know of either.
    Refused
        There is no such rule for the room at the tips.
    """
    if rule not in RULES:
        raise Refused(f"There is no rule {rule}: {', '.join(RULES)}.", "rule")
    item, drive, vessel = _both(session, who, tag, drive_id)
    propeller = with_state(propeller_figures(item), states_of(session, [item.id])[item.id])
    room = drive_figures(drive, vessel)
    return Pairing(
        tag=item.tag,
        drive_id=drive.id,
        drive=vessels.label_of(vessel.name, drive.position),
        vessel_id=vessel.id,
        propeller=propeller,
        room=room,
        verdict=judge_figures(propeller, room, rule=rule, say=say),
        unjudged=unjudged(propeller, room, say=say),
        item_id=item.id,
        engine=drive.engine,
    )


def _both(session: Session, who: Who, tag: str, drive_id: int) -> tuple[gear.Item, vessels.Drive, vessels.Vessel]:
    """The propeller, the drive and its boat: in one go, or one by one to say which of them there is not."""
    drive, vessel = vessels.Drive, vessels.Vessel
    chosen = select(gear.Item, drive, vessel).select_from(gear.Item)
    chosen = chosen.join(drive, drive.id == drive_id).join(vessel, vessel.id == drive.vessel_id)
    chosen = chosen.where(gear.Item.tag == tag.strip().upper(), gear.Item.kind == "propeller")
    found = session.execute(chosen.where(gear.seen_by(who), vessels.may_see_vessel(who))).first()
    if found is not None:
        return found[0], found[1], found[2]
    item = gear.item_by_tag(session, who, tag, kind="propeller")
    return item, *vessels.drive_by_id(session, who, drive_id)


def propeller_by_tag(session: Session, who: Who, tag: str) -> tuple[PropellerFigures, str]:
    """A propeller of the register with all that is known of its state, and its tag as it stands there.

    Raises
    ------
    NotFound
        No propeller carries the tag, or this person may not know of it.
    """
    item = gear.item_by_tag(session, who, tag, kind="propeller")
    return with_state(propeller_figures(item), states_of(session, [item.id])[item.id]), item.tag


def unjudged(propeller: PropellerFigures, room: DriveFigures, *, say: Any = plain) -> Verdict | None:
    """What the judge would still ask for: every group that the verdict leaves out; None on the wrong hand."""
    left = tuple(group for group in EVERYTHING if group not in asked_by(propeller, room))
    found = judge_figures(propeller, room, say=say, ask=left)
    return None if len(found.checks) < 2 else replace(found, checks=found.checks[1:])  # but for the hand


def judge(session: Session, who: Who, tag: str, drive_id: int, *, rule: str = "15 %", say: Any = plain) -> Verdict:
    """The verdict alone.

    Raises
    ------
    NotFound, Refused
        As `pairing` does.
    """
    return pairing(session, who, tag, drive_id, rule=rule, say=say).verdict
