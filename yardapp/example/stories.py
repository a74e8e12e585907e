"""What happened since: names and owners changed, engines replaced, gear worked on, moved, sold, lost and found."""

from yardapp.example.sheets import read_diameter, read_pitch
from yardapp.example.yard import Yard, ago, size
from yardapp.gear import services as gear
from yardapp.gear.services import Said
from yardapp.quantities import Kind
from yardapp.vessels import services as vessels


def boats_change(yard: Yard) -> None:
    """Boats renamed, sold on and re-engined; each is still found under what she was."""
    _rename(yard, "Second Teapot", "Third Teapot")
    _rename(yard, "Mild Surprise", "Great Surprise")
    _rename(yard, "Great Surprise", "No Surprise")
    _rename(yard, "Grumbling Fern", "Contented Fern")
    _sell(yard, "Ninepin", "B. Quillfeather")
    _sell(yard, "Polite Volcano", "Quince family")
    _rename(yard, "Polite Volcano", "Extinct Volcano")
    _re_engine(yard, "Thirteen Spoons, centre", "4-cylinder diesel", power="38 hp", speed="3000 rpm", ratio="2.2")
    _re_engine(yard, "Blue Umbrella, centre", "electric motor", power="20 kW", speed="1500 rpm", ratio="1.25")
    _retire(yard, "Plum Telegraph, centre")


def _rename(yard: Yard, old: str, new: str) -> None:
    vessel_id = yard.vessels[old]
    vessel = vessels.vessel_page(yard.session, yard.who("Ada"), vessel_id).vessel
    vessels.change_vessel(yard.session, yard.who("Ada"), vessel_id, vessel.version, name=new)
    yard.vessels[new] = vessel_id


def _sell(yard: Yard, name: str, owner: str) -> None:
    vessel = vessels.vessel_page(yard.session, yard.who("Ada"), yard.vessels[name]).vessel
    vessels.change_vessel(yard.session, yard.who("Ada"), vessel.id, vessel.version, owner=owner)


def _re_engine(yard: Yard, drive: str, engine: str, *, power: str, speed: str, ratio: str) -> None:
    drive_id = yard.drives[drive]
    there, _vessel = vessels.drive_by_id(yard.session, yard.who("Ada"), drive_id)
    plate: tuple[tuple[str, str, Kind], ...] = (
        ("rated_power_w", power, "power"),
        ("rated_speed_rps", speed, "rotation"),
        ("reduction_ratio", ratio, "number"),
    )
    said: dict[str, object] = {"engine": engine}
    for name, typed, kind in plate:
        said |= {name: size(typed, kind), f"{name}_typed": typed}
    vessels.re_engine(yard.session, yard.who("Ada"), drive_id, there.version, said)


def _retire(yard: Yard, drive: str) -> None:
    """The shaft was drawn and the tube plugged; she has an outboard now."""
    _move(yard, yard.aboard(drive), "came off", 2, "Rack F, bin 2", "Shaft drawn, tube plugged.")
    vessels.retire_drive(yard.session, yard.who("Ada"), yard.drives[drive], note="An outboard on a bracket since.")


def work_is_done(yard: Yard) -> None:
    """Propellers came back from the shop different from what is stamped on them."""
    barrel = yard.spare("Barrel Sonnet, centre")
    _work(yard, barrel, "re-pitched", 0, "An inch on: she overran by 300 rpm.", pitch_m="16 in")
    read_pitch(yard, yard.who("Finn"), barrel, 0.581, 0.409, note="Back from the shop; their sheet says 16 in.")
    singing = yard.spare("Singing Bucket, centre")
    _work(yard, singing, "re-pitched", 310, "Two inches off for the winter engine; shop's letter.", pitch_m="12 in")
    wheelbarrow = yard.spare("Sunday Wheelbarrow, centre")
    _work(yard, wheelbarrow, "cut down", 90, "Tips touched the hull; half an inch off.", diameter_m="15 1/2 in")
    cut = yard.at("Rack C, bin 18")
    _work(yard, cut, "cut down", 0, "Cut for the Eleven Oars, who never came to fetch it.", diameter_m="18 in")
    read_diameter(yard, yard.who("Ivy"), cut, 0.4575, 3)
    _straighten(yard)
    _bore_again(yard)


def _straighten(yard: Yard) -> None:
    """All four blades read again after a log went through."""
    pilot = yard.aboard("Custard Pilot, port")
    _work(yard, pilot, "straightened", 60, "Two blades met a log off the slip.")
    for blade in (1, 2, 3, 4):
        read_pitch(yard, yard.who("Finn"), pilot, 0.660, 0.711, blade=blade, note="After straightening.")


def _bore_again(yard: Yard) -> None:
    """A bushed hub, and a keyway opened."""
    tag = yard.at("Rack D, bin 2")
    bored = [
        Said(what="bore_large_m", basis="measured", value=0.03805, u_value=0.000025, typed="38.05 mm"),
        Said(what="bore_small_m", basis="measured", value=0.03103, u_value=0.000025, typed="31.03 mm"),
        Said(what="bore_length_m", basis="measured", value=0.1125, u_value=0.00025, typed="112.5 mm"),
        Said(what="taper", basis="paper", value=0.0625, typed="1:16", note="as the shop bored it"),
        Said(what="bore_kind", basis="measured", word="taper"),
        Said(what="keyway_width_m", basis="measured", value=0.00953, u_value=0.000025, typed="9.53 mm"),
        Said(what="keyway_depth_m", basis="measured", value=0.0048, u_value=0.00005, typed="4.8 mm"),
    ]
    gear.record_work(yard.session, yard.who("Finn"), tag, "re-bored", *bored, note="Bushed for 1 1/2 in.")
    key = Said(what="keyway_width_m", basis="measured", value=0.016, u_value=0.000025, typed="16.0 mm")
    gear.record_work(
        yard.session, yard.who("Ivy"), yard.at("Rack D, bin 10"), "keyed", key, note="Opened for a stepped key."
    )


def _work(yard: Yard, tag: str, kind: str, days: int, note: str, *, diameter_m: str = "", pitch_m: str = "") -> None:
    gear.work_done(
        yard.session,
        yard.who("Finn"),
        tag,
        kind=kind,
        done_on=ago(days).date(),
        diameter_m=size(diameter_m) if diameter_m else None,
        diameter_m_typed=diameter_m,
        pitch_m=size(pitch_m) if pitch_m else None,
        pitch_m_typed=pitch_m,
        note=note,
    )


def gear_moves(yard: Yard) -> None:
    """To the shop and back, sold, scrapped, lost, and once found again."""
    _move(yard, yard.spare("Custard Pilot, starboard"), "to shop", 30, "the propeller shop", "Balancing.", due=6)
    _move(yard, yard.spare("Tin Pelican, centre"), "lent", 55, "the ferry shed", "Until their own is mended.")
    _move(yard, yard.at("Rack D, bin 9"), "moved", 20, "Office, held for payment")
    _move(yard, yard.at("Rack D, bin 13"), "sold", 15, "", "Went abroad with a tug that was sold.")
    _move(yard, yard.at("Rack D, bin 1"), "sold", 200)
    _move(yard, yard.at("Rack D, bin 11"), "scrapped", 330, "", "Pink all through: no ring left in it.")
    _move(yard, yard.spare("Left Sock, centre"), "lost", 410, "", "Slid off the pontoon in the dark.")
    _move(yard, yard.spare("Ninepin, centre"), "lost", 300)
    _move(yard, yard.spare("Ninepin, centre"), "found", 12, "Rack F, bin 17", "Dredged up with a mooring.")
    _swap(yard)


def _swap(yard: Yard) -> None:
    """The Humble Cannon went back to the propeller she came with, and a spare moved to another boat."""
    humble = "Humble Cannon, centre"
    now_on, before = yard.aboard(humble), yard.spare(humble)
    _move(yard, now_on, "came off", 100, "Bench 2", "Shook at 1900 rpm.")
    gear.move_item(yard.session, yard.who("Ivy"), before, "went on", drive_id=yard.drives[humble], at=ago(99))
    houseboat = yard.drives["Gentle Hatstand, centre"]
    gear.move_item(yard.session, yard.who("Ivy"), yard.at("Rack D, bin 14"), "went on", drive_id=houseboat, at=ago(21))


def _move(
    yard: Yard, tag: str, kind: str, days: int, place: str = "", note: str = "", *, due: int | None = None
) -> None:
    due_on = None if due is None else ago(due).date()
    gear.move_item(yard.session, yard.who("Finn"), tag, kind, place=place, at=ago(days), note=note, due_on=due_on)
