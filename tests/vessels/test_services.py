"""Boats and drives as the register keeps them."""

import pytest

from tests.factories.gear import make_propeller
from tests.factories.people import make_person, make_who
from tests.factories.vessels import make_drive, make_vessel
from yardapp.db import snapshot, transaction
from yardapp.errors import NotAllowed, NotFound, Refused, Superseded
from yardapp.gear import services as gear
from yardapp.vessels import services as vessels

pytestmark = pytest.mark.usefixtures("register")


def vessel_page(vessel_id, **who):
    with transaction() as session:
        return vessels.vessel_page(session, make_who(session, **who), vessel_id)


def drive_page(drive_id, **who):
    with transaction() as session:
        return vessels.drive_page(session, make_who(session, **who), drive_id)


def test_a_renamed_boat_is_found_by_either_name_and_keeps_both():
    with transaction() as session:
        boat = make_vessel(session)
        vessels.change_vessel(session, make_who(session), boat.id, 1, name="Sea Otter")

    with snapshot() as session:
        found = [vessels.search_vessels(session, _office(session), [word])[0].name for word in ("Kittiwake", "otter")]
    page = vessel_page(boat.id)

    assert found == ["Sea Otter", "Sea Otter"]
    assert [(name.name, name.until is None) for name in page.names] == [("Kittiwake", False), ("Sea Otter", True)]
    assert page.happenings[0].kind == "renamed"
    assert page.happenings[0].before == {"name": "Kittiwake"}


def _office(session):
    return make_who(session)


def test_a_boat_that_changed_hands_is_found_by_the_old_owner_too():
    with transaction() as session:
        boat = make_vessel(session, owner="R. Thorne")
        vessels.change_vessel(session, make_who(session), boat.id, 1, owner="B. Lake")
        found = vessels.search_vessels(session, make_who(session), ["Thorne"])

    assert [(row.name, row.owner) for row in found] == [("Kittiwake", "B. Lake")]


def test_a_word_left_out_stays_as_it_is():
    with transaction() as session:
        boat = make_vessel(session, kind="trawler", length_m=12.5, length_m_typed="12.5 m")
        vessels.change_vessel(session, make_who(session), boat.id, 1, note="Blue hull.")
    vessel = vessel_page(boat.id).vessel

    assert (vessel.name, vessel.kind, vessel.owner, vessel.length_m) == ("Kittiwake", "trawler", "R. Thorne", 12.5)
    assert vessel.note == "Blue hull."


def test_the_same_length_written_another_way_is_no_change():
    with transaction() as session:
        boat = make_vessel(session, length_m=12.4968, length_m_typed="41 ft")
        vessels.change_vessel(
            session, make_who(session), boat.id, 1, length_m=12.496800000000002, length_m_typed="12496.8 mm"
        )
    page = vessel_page(boat.id)

    assert page.vessel.length_m_typed == "41 ft"
    assert [line.kind for line in page.happenings] == ["logged"]


def test_a_boat_saved_by_another_since_is_not_written_over():
    with transaction() as session:
        boat = make_vessel(session)
        vessels.change_vessel(session, make_who(session), boat.id, 1, note="By Ada.")

    with pytest.raises(Superseded, match="Ada Brook saved") as refusal, transaction() as session:
        vessels.change_vessel(session, make_who(session, name="Finn Marsh", role="hand"), boat.id, 1, note="By Finn.")

    assert refusal.value.version == 2
    assert refusal.value.theirs["note"] == "By Ada."
    assert vessel_page(boat.id).vessel.note == "By Ada."


def test_only_an_owner_s_account_opens_a_boat_and_only_the_office_links_it():
    with transaction() as session:
        owner = make_person(session, name="R. Thorne", role="owner")
        hand = make_who(session, name="Finn Marsh", role="hand")
        boat = make_vessel(session)

    with pytest.raises(NotAllowed), transaction() as session:
        vessels.change_vessel(session, hand, boat.id, 1, owner_id=owner.id)
    with pytest.raises(Refused, match="not an owner"), transaction() as session:
        vessels.change_vessel(session, make_who(session), boat.id, 1, owner_id=hand.person_id)
    with transaction() as session:
        vessels.change_vessel(session, make_who(session), boat.id, 1, owner_id=owner.id)

    assert vessel_page(boat.id, name="R. Thorne", role="owner").vessel.name == "Kittiwake"


def linked_boat(session):
    owner = make_person(session, name="R. Thorne", role="owner")
    return make_vessel(session, owner_id=owner.id), owner


def test_when_a_hand_writes_that_she_is_sold_the_old_owner_s_account_opens_her_no_more():
    with transaction() as session:
        boat, _owner = linked_boat(session)
        finn = make_who(session, name="Finn Marsh", role="hand")
        vessels.change_vessel(session, finn, boat.id, 1, owner="B. Lake")

    with pytest.raises(NotFound):
        vessel_page(boat.id, name="R. Thorne", role="owner")


def test_the_office_is_asked_when_the_old_owner_s_account_would_stay_with_a_sold_boat():
    with transaction() as session:
        boat, owner = linked_boat(session)

    with pytest.raises(Refused, match=r"That account is R\. Thorne's") as refusal, transaction() as session:
        vessels.change_vessel(session, make_who(session), boat.id, 1, owner="B. Lake", owner_id=owner.id)

    assert refusal.value.argument == "owner_id"


def test_an_owner_s_name_that_was_misspelt_is_mended_without_losing_the_account():
    with transaction() as session:
        owner = make_person(session, name="R. Thorne", role="owner")
        boat = make_vessel(session, owner="R. Thorn", owner_id=owner.id)
        vessels.change_vessel(session, make_who(session), boat.id, 1, owner="R. Thorne", owner_id=owner.id)

    assert vessel_page(boat.id, name="R. Thorne", role="owner").vessel.owner == "R. Thorne"


def test_boats_of_one_name_are_all_listed_across_two_pages():
    with transaction() as session:
        numbers = [make_vessel(session, name=name).id for name in ("Tern", "tern", "Tern", "Auk", "Wren")]
        who = make_who(session)
        first = vessels.boats(session, who, limit=3)
        rest = vessels.boats(session, who, after=first[-1].name, after_id=first[-1].id, limit=3)

    assert [row.name for row in first + rest] == ["Auk", "Tern", "tern", "Tern", "Wren"]
    assert sorted(row.id for row in first + rest) == numbers


def test_boats_are_narrowed_down_by_every_word_of_any_name_or_owner():
    with transaction() as session:
        make_vessel(session, name="Sea Otter", owner="R. Thorne")
        make_vessel(session, name="Sea Holly", owner="B. Lake")
        found = vessels.boats(session, make_who(session), text="sea lake")

    assert [row.name for row in found] == ["Sea Holly"]


def test_a_boat_has_one_drive_in_a_position():
    with transaction() as session:
        drive = make_drive(session)

    with pytest.raises(Refused, match="has a drive there already") as refusal, transaction() as session:
        vessels.set_drive(session, make_who(session), drive.vessel_id, {"position": "centre"})

    assert refusal.value.argument == "position"


@pytest.mark.parametrize(
    ("said", "argument"),
    [
        ({"position": "amidships"}, "position"),
        ({"hand": "both"}, "hand"),
        ({"hull_clearance_from": "keel"}, "hull_clearance_from"),
    ],
)
def test_a_word_that_is_not_on_its_list_is_told_by_its_box(said, argument):
    with transaction() as session:
        boat = make_vessel(session)

    with pytest.raises(Refused) as refusal, transaction() as session:
        vessels.set_drive(session, make_who(session), boat.id, said)

    assert refusal.value.argument == argument


def test_a_plus_minus_is_kept_as_half_of_what_was_typed():
    with transaction() as session:
        drive = make_drive(session, u_shaft_diameter_m=None, plus_minus_shaft_diameter_m=0.00002)

    # ± is read at k = 2, kept at k = 1.
    assert drive.u_shaft_diameter_m == pytest.approx(0.00001)


def test_a_size_without_a_plus_minus_gets_its_tool_s_usual_one():
    with transaction() as session:
        drive = make_drive(session, u_shaft_diameter_m=None, u_taper=None, hub_space_m=0.04)

    # Common practice, no source: caliper 0.05 mm, tape 1 mm, both at k = 2.
    assert drive.u_shaft_diameter_m == pytest.approx(0.000025)
    assert drive.u_hub_space_m == pytest.approx(0.0005)
    # 1:16 with N good to 0.2 is good to 0.2 / 16 of itself: 0.0625 x 0.0125 / 2.
    assert drive.u_taper == pytest.approx(0.000390625)


def test_a_changed_size_does_not_keep_the_plus_minus_of_the_old_one():
    with transaction() as session:
        drive = make_drive(session, u_shaft_diameter_m=0.0003)
        vessels.change_drive(session, make_who(session), drive.id, 1, {"shaft_diameter_m": 0.035})

    assert drive.u_shaft_diameter_m == pytest.approx(0.000025)


def test_what_stood_before_a_change_of_a_drive_stays_in_its_history():
    with transaction() as session:
        drive = make_drive(session)
        vessels.change_drive(session, make_who(session), drive.id, 1, {"hand": "left", "shaft_diameter_m": 0.04})
    page = drive_page(drive.id)

    assert page.happenings[0].kind == "changed"
    assert page.happenings[0].before["hand"] == "right"
    assert page.happenings[0].before["shaft_diameter_m"] == pytest.approx(0.0381)


def test_two_people_who_save_the_same_of_a_drive_do_not_quarrel():
    with transaction() as session:
        drive = make_drive(session)
        vessels.change_drive(session, make_who(session), drive.id, 1, {"hand": "left"})
        vessels.change_drive(session, make_who(session), drive.id, 1, {"hand": "left"})

    assert drive.version == 3


def test_a_drive_saved_by_another_since_is_not_written_over():
    with transaction() as session:
        drive = make_drive(session, hub_space_m=0.04)
        vessels.change_drive(session, make_who(session), drive.id, 1, {"hub_space_m": 0.05})

    with pytest.raises(Superseded) as refusal, transaction() as session:
        vessels.change_drive(
            session, make_who(session), drive.id, 1, {"hub_space_m": 0.06, "hub_space_m_typed": "60 mm"}
        )

    assert refusal.value.theirs["hub_space_m"] == "50 mm"
    assert drive_page(drive.id).drive.hub_space_m == 0.05


def test_another_engine_leaves_the_shaft_line_and_the_old_figures_in_the_history():
    with transaction() as session:
        drive = make_drive(session, engine="Fulmar 28", rated_power_w=21000.0, reduction_ratio=2.0)
        vessels.re_engine(session, make_who(session), drive.id, 1, {"engine": "Fulmar 38", "hand": "left"})
    page = drive_page(drive.id)

    assert (page.drive.engine, page.drive.rated_power_w, page.drive.reduction_ratio) == ("Fulmar 38", None, None)
    assert page.drive.shaft_diameter_m == 0.0381
    assert page.happenings[0].kind == "re-engined"
    assert page.happenings[0].before["rated_power_w"] == 21000.0


def test_a_moved_drive_takes_its_propeller_along_and_both_boats_say_so():
    with transaction() as session:
        drive, who = make_drive(session), make_who(session)
        old, new = drive.vessel_id, make_vessel(session, name="Sea Otter")
        item = make_propeller(session)
        gear.move_item(session, who, item.tag, "went on", drive_id=drive.id)
        vessels.move_drive(session, who, drive.id, 1, new.id, position="port", note="Engine of the old boat.")
        found = {word: [row.tag for row in gear.search(session, who, word)] for word in ("Kittiwake", "Otter")}

    assert found == {"Kittiwake": [item.tag], "Otter": [item.tag]}
    assert vessel_page(old).drives == []
    assert "to Sea Otter, port" in vessel_page(old).happenings[0].note
    assert "from Kittiwake, centre" in vessel_page(new.id).happenings[0].note
    assert drive_page(drive.id).drive.position == "port"


def test_a_drive_does_not_move_onto_another_one():
    with transaction() as session:
        drive = make_drive(session)
        other = make_drive(session, make_vessel(session, name="Sea Otter"))

    with pytest.raises(Refused, match="already") as refusal, transaction() as session:
        vessels.move_drive(session, make_who(session), drive.id, 1, other.vessel_id)

    assert refusal.value.argument == "position"


def test_a_drive_saved_since_is_not_moved_unseen():
    with transaction() as session:
        drive, new = make_drive(session), make_vessel(session, name="Sea Otter")
        vessels.change_drive(session, make_who(session), drive.id, 1, {"position": "port"})

    with pytest.raises(Superseded) as refusal, transaction() as session:
        vessels.move_drive(session, make_who(session), drive.id, 1, new.id)

    assert refusal.value.theirs == {"vessel_id": str(drive.vessel_id), "position": "port"}


def test_a_drive_out_of_use_is_offered_nowhere_and_leaves_its_place_free():
    with transaction() as session:
        drive, who = make_drive(session), make_who(session)
        vessels.retire_drive(session, who, drive.id, note="Engine sold.")
        offered = vessels.drive_choices(session, who)
        another = vessels.set_drive(session, who, drive.vessel_id, {"position": "centre"})

    assert offered == []
    assert [one.id for one in vessel_page(drive.vessel_id).drives] == [another.id, drive.id]
    with pytest.raises(Refused, match="already"), transaction() as session:
        vessels.return_drive(session, make_who(session), drive.id)


def test_a_drive_taken_into_use_again_is_offered_again():
    with transaction() as session:
        drive, who = make_drive(session), make_who(session)
        vessels.retire_drive(session, who, drive.id)
        vessels.return_drive(session, who, drive.id)
        offered = vessels.drive_choices(session, who)

    assert offered == [(drive.id, "Kittiwake, centre")]


def test_an_owner_sees_of_a_moved_drive_what_happened_in_the_owner_s_own_boat():
    with transaction() as session:
        owner = make_person(session, name="R. Thorne", role="owner")
        drive = make_drive(session, make_vessel(session, name="Sea Holly", owner="B. Lake"))
        mine = make_vessel(session, name="Sea Otter", owner_id=owner.id)
        vessels.move_drive(session, make_who(session), drive.id, 1, mine.id)
        vessels.change_drive(session, make_who(session), drive.id, 2, {"note": "Aligned."})

    seen = drive_page(drive.id, name="R. Thorne", role="owner").happenings

    assert [line.kind for line in seen] == ["changed"]


def test_what_was_long_on_her_is_told_from_what_is_on_her_now():
    from yardapp.gear.services.on_drives import on_and_off

    with transaction() as session:
        drive, who = make_drive(session), make_who(session)
        old, new = make_propeller(session), make_propeller(session)
        gear.move_item(session, who, old.tag, "went on", drive_id=drive.id)
        gear.move_item(session, who, old.tag, "came off", place="Rack A")
        gear.move_item(session, who, new.tag, "went on", drive_id=drive.id)
        on, off = on_and_off(session, who, [drive.id])

    assert [row.tag for row in on[drive.id]] == [new.tag]
    assert [row.tag for row in off] == [old.tag]
