"""Racks on the map, nuts and anodes with tags, a set, what is at a shop or lent, and what an owner declined."""

from datetime import timedelta
from typing import Any

from yardapp.db import now
from yardapp.example.yard import Yard, ago, size
from yardapp.gear import services as gear

RACKS = {"A": 20, "B": 20, "C": 20, "D": 14, "E": 6, "F": 20}
ABOARD = "Humble Cannon, centre"
SPARE = "Barrel Sonnet, centre"


def racks_are_mapped(yard: Yard) -> None:
    """The racks as they stand in the shed, and a shelf rack for small parts."""
    for rack, bins in RACKS.items():
        gear.add_bins(yard.session, yard.who("Ivy"), rack=rack, bins=bins)
    gear.add_bins(yard.session, yard.who("Ivy"), rack="S", shelves=3, bins=6)


def parts_get_tags(yard: Yard) -> None:
    """A spare with its nut, lock and key as one set; what one boat has on her shaft line; small parts on shelves."""
    spare = yard.spare(SPARE)
    _part(yard, "nut", with_tag=spare, hand="right", thread_diameter_m="1 in", thread_pitch_m="1/8 in", width_m="41 mm")
    _part(yard, "lock", with_tag=spare, lock_kind="tab washer", outside_diameter_m="48 mm")
    _part(yard, "key", with_tag=spare, key_kind="parallel", width_m="9.5 mm", height_m="8 mm", length_m="75 mm")
    on = yard.drives[ABOARD]
    for kind, figures in (
        ("anode", {"anode_metal": "zinc", "bore_m": "38 mm", "left_ratio": "0.4"}),
        ("anode", {"anode_metal": "zinc", "bore_m": "38 mm", "left_ratio": "0.9"}),
        ("bearing", {"bore_m": "38.1 mm", "outside_diameter_m": "50.8 mm", "length_m": "152 mm"}),
        ("gland", {"gland_kind": "packed", "bore_m": "38.5 mm", "packing_m": "6 mm"}),
        ("coupling", {"outside_diameter_m": "127 mm", "bore_m": "38 mm", "bolt_circle_m": "108 mm"}),
    ):
        item = _part(yard, kind, place="Bench 1", **figures)
        gear.move_item(yard.session, yard.who("Ivy"), item.tag, "went on", drive_id=on)
    _part(yard, "nut", place="Rack S, shelf 1, bin 1", thread_diameter_m="24 mm", thread_pitch_m="2 mm")
    _part(
        yard, "nut", place="Rack S, shelf 1, bin 1", thread_diameter_m="24 mm", thread_pitch_m="2 mm", length_m="12 mm"
    )
    _part(yard, "key", place="Rack S, shelf 1, bin 4", key_kind="stepped", width_m="16 mm", height_m="10 mm")
    _part(yard, "cutter", place="Rack S, shelf 2, bin 2", bore_m="35 mm", note="One blade short.")
    _part(yard, "bracket", place="Rack F, bin 5", bore_m="63.5 mm", note="Off a boat that was broken up.")
    _part(yard, "other", place="Rack S, shelf 3, bin 6", length_m="300 mm", note="Puller, three legs.")


def _part(yard: Yard, kind: str, *, place: str = "", with_tag: str = "", note: str = "", **figures: str) -> gear.Item:
    said: dict[str, Any] = {}
    for name, text in figures.items():
        if name.endswith("_m"):
            said |= {name: size(text), f"{name}_typed": text}
        else:
            said[name] = float(text) if name.endswith("_ratio") else text
    return gear.log_part(yard.session, yard.who("Finn"), kind=kind, place=place, with_tag=with_tag, note=note, **said)


def some_are_away(yard: Yard) -> None:
    """Promised for last week and asked after; lent; and work that an owner declined."""
    late = yard.spare("Custard Pilot, starboard")
    finn = yard.who("Finn")
    gear.chase(yard.session, finn, late, said="Rang: their balancer is down, perhaps by the weekend.")
    gear.decline_work(
        yard.session,
        yard.who("Ada"),
        yard.aboard(ABOARD),
        offered="Weld up the nick on blade 3 and balance it, a day's work",
        declined_by="the owner of the Humble Cannon",
        at=ago(98),
        why="She is sold in spring.",
    )
    gear.move_item(
        yard.session,
        finn,
        yard.at("Rack C, bin 19"),
        "to shop",
        place="the propeller shop",
        due_on=(now() + timedelta(days=12)).date(),
        note="Re-pitch to 15 in.",
    )
