"""What does not agree: stamps that lie, two people's readings, a slip of the unit, a spare of the wrong hand."""

from yardapp.example.yard import Yard, ago
from yardapp.gear import services as gear
from yardapp.gear.services import Said
from yardapp.marks import services as marks
from yardapp.vessels import services as vessels


def readings_disagree(yard: Yard) -> None:
    """Two people, two callipers, two bores; a blade count that was copied; a hand that was taken from the stamp."""
    tag = yard.at("Rack C, bin 14")
    _say(yard, "Ivy", tag, Said(what="bore_large_m", basis="measured", value=0.0311, u_value=0.0001, typed="31.1 mm"))
    _say(yard, "Ada", yard.at("Rack D, bin 10"), Said(what="blades", basis="paper", value=3.0, typed="3", note="bill"))
    left = Said(what="hand", basis="measured", word="left", note="Looked again: it leans left.")
    _say(yard, "Ivy", yard.at("Rack C, bin 15"), Said(what="hand", basis="paper", word="right", note="sold to us so"))
    _say(yard, "Finn", yard.spare("Treacle Moon, centre"), left)
    _say(yard, "Ada", yard.at("Rack E, bin 2"), Said(what="pitch_m", basis="paper", value=0.33, typed="33 cm"))
    guess = Said(what="bore_large_m", basis="guessed", value=0.0381, typed="1 1/2 in", note="by eye, in the rain")
    _say(yard, "Tam", yard.at("Rack F, bin 18"), guess)


def slips_are_put_right(yard: Yard) -> None:
    """A correction names what it takes the place of, and why; what was withdrawn stays readable."""
    finn, tag = yard.who("Finn"), yard.at("Rack F, bin 19")
    slip = Said(what="bore_large_m", basis="measured", value=0.635, u_value=0.0005, typed="25 in")
    wrong = gear.note_evidence(yard.session, finn, tag, slip)[0]
    right = Said(what="bore_large_m", basis="measured", value=0.025, u_value=0.0001, typed="25 mm")
    gear.correct_evidence(yard.session, finn, wrong.id, right, why="Typed inches; the caliper was in millimetres.")
    other = yard.spare("Gentle Hatstand, centre")
    pitch = Said(what="pitch_m", basis="measured", value=0.61, u_value=0.01, typed="610 mm")
    mistaken = gear.note_evidence(yard.session, yard.who("Ivy"), other, pitch)[0]
    gear.correct_evidence(yard.session, yard.who("Ivy"), mistaken.id, None, why="That was the propeller beside it.")


def spares_of_the_wrong_hand(yard: Yard) -> None:
    """Bought for the port shaft, and found to turn the other way only when she was in the slings."""
    for tag, note in (
        (yard.spare("Sleepy Turnstile, port"), "Hangs beside its pair: take the right one."),
        (yard.spare("Custard Pilot, port"), "Pair of the one at the shop."),
    ):
        gear.change_item(yard.session, yard.who("Ada"), tag, _version(yard, tag), note=note)
    seen = "seen: how the near blade leans"
    item = gear.log_item(
        yard.session,
        yard.who("Finn"),
        Said(what="hand", basis="measured", word="right", true_from=ago(44), note=seen),
        Said(what="blades", basis="measured", value=4.0, u_value=0.0, typed="4", true_from=ago(44)),
        Said(what="diameter_m", basis="measured", value=0.584, u_value=0.0025, typed="23 in", true_from=ago(44)),
        place="Rack F, bin 1",
        note="Bought as the port spare of the Upside Clover. It is right-handed: never for that shaft.",
        at=ago(44),
    )
    marks.record_mark(yard.session, yard.who("Finn"), item, "23 x 21 LH 4", spot="aft face")
    yard.tags["Rack F, bin 1"] = item.tag


def _version(yard: Yard, tag: str) -> int:
    return gear.item_by_tag(yard.session, yard.who("Ada"), tag).version


def second_marks(yard: Yard) -> None:
    """A shop stamps its own pitch beside the maker's; under grease there is more to read."""
    finn = yard.who("Finn")
    marks.record_mark_of(yard.session, finn, yard.spare("Barrel Sonnet, centre"), "23 x 16", spot="hub side")
    marks.record_mark_of(yard.session, finn, yard.at("Rack F, bin 18"), "?80 x 420 RH", spot="hub side")
    marks.record_mark_of(yard.session, finn, yard.at("Box by the crane"), "K 2207 L", spot="forward face")


def drives_are_read_again(yard: Yard) -> None:
    """The clearance was taken from the shaft's surface the first time."""
    drive_id = yard.drives["Copper Bathtub, centre"]
    there, _vessel = vessels.drive_by_id(yard.session, yard.who("Ivy"), drive_id)
    said = {"hull_clearance_m": 0.402, "hull_clearance_m_typed": "402 mm", "hull_clearance_from": "centre"}
    vessels.change_drive(yard.session, yard.who("Ivy"), drive_id, there.version, said)


def an_owner_proposes(yard: Yard) -> None:
    """R. Thorne found two in a garage: the office took one into the register, the other waits."""
    thorne = yard.who("Thorne")
    first = gear.log_propeller(
        yard.session, thorne, place="My garage", hand="right", stamp="17 x 11 RH", blades=3, note="Came with the boat."
    )
    gear.accept_proposal(yard.session, yard.who("Ada"), first.tag)
    gear.log_propeller(
        yard.session, thorne, place="My garage, under the sink", stamp="1? x 11", note="Would this do as a spare?"
    )


def _say(yard: Yard, name: str, tag: str, said: Said) -> None:
    gear.note_evidence(yard.session, yard.who(name), tag, said)
