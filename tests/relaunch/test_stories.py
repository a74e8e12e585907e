"""What happens in a yard before a relaunch, told as it happens."""

from datetime import timedelta

import pytest

from tests.factories import coating as coats
from tests.factories import relaunch as launches
from tests.factories.gear import make_propeller
from tests.factories.people import make_who
from tests.factories.vessels import make_drive, make_vessel
from yardapp.coating import services as coating
from yardapp.db import now, transaction
from yardapp.errors import NotAllowed, Refused
from yardapp.fit import services as fit
from yardapp.gear import services as gear
from yardapp.relaunch import services as relaunch


@pytest.fixture
def session(register):
    with transaction() as opened:
        yield opened


@pytest.fixture
def ada(session):
    return make_who(session)


def line(session, launch, key, drive_id=None):
    return relaunch.launch_sheet(session, make_who(session), launch.id).line(key, drive_id)


def test_parts_of_two_boats_were_swapped_and_the_scan_at_the_shaft_finds_it(session, ada):
    drive, hers = launches.make_boat(session, name="Kittiwake")
    _, other = launches.make_boat(session, name="Sea Otter")
    launch = launches.make_launch(session, drive.vessel_id)

    launches.scan(session, launch.id, drive.id, other)
    found = line(session, launch, "propeller", drive.id)

    assert found.verdict == "no"
    assert f"{other} was scanned on this shaft; the register has {hers} there." in found.said
    assert "belongs on Sea Otter, centre" in found.said
    assert "Look at the other one too." in found.said
    launches.settle(session, launch.id, but=("propeller",))
    with pytest.raises(Refused, match="Right propeller on this shaft"):
        relaunch.release(session, ada, launch.id, "to launch")


def test_port_and_starboard_propellers_were_swapped_and_neither_shaft_is_settled(session):
    boat = make_vessel(session)
    port, starboard = (make_drive(session, boat, position=side, hand=hand) for side, hand in (
        ("port", "left"), ("starboard", "right"),
    ))  # fmt: skip
    left = launches.put_propeller_on(session, port, hand="left")
    right = launches.put_propeller_on(session, starboard, hand="right")
    launch = launches.make_launch(session, boat.id)

    launches.scan(session, launch.id, port.id, right, "right")
    launches.scan(session, launch.id, starboard.id, left, "left")

    at_port, at_starboard = (line(session, launch, "propeller", one.id) for one in (port, starboard))
    assert (at_port.verdict, at_starboard.verdict) == ("no", "no")
    assert f"{right} belongs on Kittiwake, starboard" in at_port.said
    assert f"{left} belongs on Kittiwake, port" in at_starboard.said


def test_the_right_tag_with_the_wrong_hand_seen_is_not_settled(session):
    drive, tag = launches.make_boat(session, hand="left")
    launch = launches.make_launch(session, drive.vessel_id)

    launches.scan(session, launch.id, drive.id, tag, "right")

    found = line(session, launch, "propeller", drive.id)
    assert (found.verdict, found.said) == ("no", "A right-hand propeller was seen; this shaft wants left hand.")


def test_a_wrong_scan_is_taken_back_and_the_right_one_stands_when_a_second_person_has_looked(session, ada):
    drive, hers = launches.make_boat(session, name="Kittiwake")
    _, other = launches.make_boat(session, name="Sea Otter")
    launch = launches.make_launch(session, drive.vessel_id)
    wrong = launches.scan(session, launch.id, drive.id, other)

    relaunch.take_back(session, ada, launch.id, wrong.id, "read the tag of the boat beside her")
    launches.scan(session, launch.id, drive.id, hers)
    once = line(session, launch, "propeller", drive.id)
    launches.answer(session, launch.id, "propeller", drive.id, by="Finn Marsh")
    same_person = line(session, launch, "propeller", drive.id)
    launches.answer(session, launch.id, "propeller", drive.id, by="Ivy Lund")
    twice = line(session, launch, "propeller", drive.id)

    assert (once.verdict, same_person.verdict, twice.verdict) == ("open", "open", "yes")
    assert "a second person must look" in once.said
    assert twice.by == ("Finn Marsh", "Ivy Lund")
    kinds = [act.kind for act in relaunch.launch_sheet(session, ada, launch.id).acts]
    assert kinds == ["planned", "scanned", "taken back", "scanned", "answered", "answered"]


def test_a_propeller_came_back_from_the_shop_with_a_new_pitch_and_its_verdict_no_longer_holds(session, ada):
    drive, tag = launches.make_boat(session)
    launch = launches.make_launch(session, drive.vessel_id)
    fit.keep_verdict(session, ada, tag, drive.id)
    before = line(session, launch, "verdict", drive.id)

    inch_less = gear.Said(what="pitch_m", basis="measured", value=0.432, u_value=0.002)
    gear.record_work(session, ada, tag, "re-pitched", inch_less, note="an inch off, the shop's letter")
    after = line(session, launch, "verdict", drive.id)

    assert before.found[0].said.startswith(f"{tag}: ")
    assert after.verdict == "ask"
    assert f"The verdict of {tag} no longer holds" in after.said
    assert "itch" in after.said


def test_a_verdict_that_can_not_tell_never_settles_but_a_person_who_looked_and_says_so_does(session, ada):
    drive, tag = launches.make_boat(session)
    launch = launches.make_launch(session, drive.vessel_id)
    kept = fit.keep_verdict(session, ada, tag, drive.id)
    assert kept.verdict == "cannot tell"

    unsettled = line(session, launch, "verdict", drive.id)
    with pytest.raises(Refused, match="Say in the note what you go by"):
        launches.answer(session, launch.id, "verdict", drive.id, note="")
    launches.answer(session, launch.id, "verdict", drive.id, note="fitted dry, went to its mark")

    assert unsettled.verdict == "ask"
    assert line(session, launch, "verdict", drive.id).verdict == "yes"


def test_a_coating_two_hours_short_of_cure_at_the_planned_hour_keeps_her_ashore(session, ada):
    drive, tag = launches.make_boat(session)
    with coats.stopped_clock() as clock:
        job = coats.make_job(session, tag=tag, drive_id=drive.id)
        coats.coat_whole(session, job, clock, _units(session, job))
        good_from = _water_from(session, drive.id)
        launch = launches.make_launch(session, drive.vessel_id, planned=good_from - timedelta(hours=2))

        short = line(session, launch, "coating", drive.id)
        relaunch.change_hour(session, ada, launch.id, good_from + timedelta(minutes=1), "the tide after")
        in_time = line(session, launch, "coating", drive.id)

    assert short.verdict == "no"
    assert "2 h short of cure" in short.said
    assert in_time.verdict == "yes"


def _let_go(session, ada, launch, *names):
    for name in names:
        launches.settle(session, launch.id, name)
        if relaunch.launch_sheet(session, ada, launch.id).in_the_way(name):
            relaunch.override(session, ada, launch.id, name, "the coat is wet yet, she goes to the pontoon")
        else:
            relaunch.release(session, ada, launch.id, name)


def test_a_boat_released_afloat_tells_her_coats_and_a_release_taken_back_untells_them(session, ada):
    drive, tag = launches.make_boat(session)
    with coats.stopped_clock() as clock:
        job = coats.make_job(session, tag=tag, drive_id=drive.id)
        coats.coat_whole(session, job, clock, _units(session, job))
        coating.close_job(session, ada, job.id)
        launch = launches.make_launch(session, drive.vessel_id, planned=_water_from(session, drive.id))

        _let_go(session, ada, launch, "to launch")
        ashore = _immersed(session, ada, tag)
        clock.later(hours=1)
        _let_go(session, ada, launch, "afloat")
        afloat, at = _immersed(session, ada, tag), clock.at
        act = relaunch.launch_sheet(session, ada, launch.id).releases["afloat"]
        relaunch.take_release_back(session, ada, launch.id, act.id, "she hangs in the slings yet")

        assert (ashore, afloat) == (None, at)
        assert _immersed(session, ada, tag) is None


def test_a_coat_of_which_somebody_said_before_that_it_is_in_the_water_keeps_its_day(session, ada):
    drive, tag = launches.make_boat(session)
    with coats.stopped_clock() as clock:
        job = coats.make_job(session, tag=tag, drive_id=drive.id)
        coats.coat_whole(session, job, clock, _units(session, job))
        launch = launches.make_launch(session, drive.vessel_id, planned=_water_from(session, drive.id))
        coating.act(session, ada, job.id, coating.Tap(kind="launched"))
        said = _immersed(session, ada, tag)
        clock.later(hours=1)
        _let_go(session, ada, launch, "to launch", "afloat")
        act = relaunch.launch_sheet(session, ada, launch.id).releases["afloat"]
        relaunch.take_release_back(session, ada, launch.id, act.id, "she hangs in the slings yet")

        assert said is not None
        assert _immersed(session, ada, tag) == said


def _immersed(session, ada, tag):
    session.flush()
    session.expire_all()
    return coating.history_of(session, ada, tag).rows[0].piece.immersed


def _units(session, job):
    return tuple(unit.key for unit in coating.story_of(session, make_who(session), job.id).units)


def _water_from(session, drive_id):
    return coating.before_launch(session, make_who(session), drive_id, now())[0].water_from


def test_what_the_coating_says_no_to_can_not_be_signed_away(session, ada):
    drive, tag = launches.make_boat(session)
    with coats.stopped_clock():
        coats.make_job(session, tag=tag, drive_id=drive.id)  # not a coat on it yet
        launch = launches.make_launch(session, drive.vessel_id)

        with pytest.raises(Refused, match="can't be signed away"):
            launches.answer(session, launch.id, "coating", drive.id, note="looks dry to me")


def test_a_release_is_refused_then_overridden_by_name_and_the_reason_stands_on_the_kept_sheet(session, ada):
    drive, _tag = launches.make_boat(session)
    launch = launches.make_launch(session, drive.vessel_id)
    launches.settle(session, launch.id, but=("lock",))

    with pytest.raises(Refused, match="1 thing in the way: Centre: Lock fitted"):
        relaunch.release(session, ada, launch.id, "to launch")
    with pytest.raises(Refused, match="printed on her sheet"):
        relaunch.override(session, ada, launch.id, "to launch", " ")
    act = relaunch.override(session, ada, launch.id, "to launch", "goes to the crane berth only, lock tonight")

    assert act.frozen["kind"] == "overridden"
    assert (act.frozen["said_by"], act.frozen["note"]) == ("Ada Brook", "goes to the crane berth only, lock tonight")
    lock = next(one for one in act.frozen["lines"] if one["key"] == "lock")
    assert lock["verdict"] == "open"
    answer = relaunch.may_she_go(session, ada, launch.id)
    assert (answer.may_go, answer.why) == (True, "On the word of Ada Brook: goes to the crane berth only, lock tonight")


def test_a_release_stays_as_it_was_and_what_changed_since_stands_beside_it(session, ada):
    drive, _tag = launches.make_boat(session)
    launch = launches.make_launch(session, drive.vessel_id)
    launches.settle(session, launch.id)
    act = relaunch.release(session, ada, launch.id, "to launch")
    assert relaunch.may_she_go(session, ada, launch.id).may_go

    relaunch.raise_fault(
        session, ada, relaunch.FaultSaid(severity="stop", what="Rudder stock loose", vessel_id=drive.vessel_id)
    )
    launches.answer(session, launch.id, "turns", drive.id, answer="no", note="binds at one place")
    sheet = relaunch.launch_sheet(session, ada, launch.id)

    changed = {one.key: one for one in sheet.changed("to launch")}
    assert set(changed) == {"faults", "turns"}
    assert changed["turns"].then[0] == "yes"
    assert changed["turns"].now == ("no", "not in order; binds at one place; Finn Marsh")
    assert {one["verdict"] for one in act.frozen["lines"] if one["key"] in changed} == {"yes"}
    answer = relaunch.may_she_go(session, ada, launch.id)
    assert not answer.may_go
    assert "Not as she was released." in answer.why


def test_a_propeller_taken_off_after_the_release_shows_as_a_change_and_stops_the_lift(session, ada):
    drive, tag = launches.make_boat(session)
    launch = launches.make_launch(session, drive.vessel_id)
    launches.settle(session, launch.id)
    relaunch.release(session, ada, launch.id, "to launch")

    gear.move_item(session, ada, tag, "came off", place="Bench 2")
    other = launches.put_propeller_on(session, drive)

    answer = relaunch.may_she_go(session, ada, launch.id)
    assert not answer.may_go
    assert f"{tag} was scanned on this shaft; the register has {other} there." in answer.why


def test_a_release_that_was_taken_back_is_given_again_and_both_stay_readable(session, ada):
    drive, _tag = launches.make_boat(session)
    launch = launches.make_launch(session, drive.vessel_id)
    launches.settle(session, launch.id)
    first = relaunch.release(session, ada, launch.id, "to launch")

    relaunch.take_release_back(session, ada, launch.id, first.id, "wind over the crane's limit")
    assert not relaunch.may_she_go(session, ada, launch.id).may_go
    second = relaunch.release(session, ada, launch.id, "to launch")

    sheet = relaunch.launch_sheet(session, ada, launch.id)
    assert relaunch.kept_release(sheet, first.id).frozen
    assert sheet.releases["to launch"].id == second.id


def test_only_the_office_releases_and_in_order(session, ada):
    drive, _tag = launches.make_boat(session)
    launch = launches.make_launch(session, drive.vessel_id)
    launches.settle(session, launch.id)
    finn = make_who(session, name="Finn Marsh", role="hand")

    with pytest.raises(NotAllowed, match="Only the office releases a boat"):
        relaunch.release(session, finn, launch.id, "to launch")
    with pytest.raises(Refused, match="not released to launch yet"):
        relaunch.release(session, ada, launch.id, "afloat")


def test_a_fault_follows_its_propeller_onto_another_boat(session, ada):
    drive, tag = launches.make_boat(session, name="Kittiwake")
    other = make_drive(session, make_vessel(session, name="Sea Otter"))
    relaunch.raise_fault(session, ada, relaunch.FaultSaid(severity="stop", what="Crack at the root", tag=tag))
    launch = launches.make_launch(session, other.vessel_id)
    before = line(session, launch, "faults")

    gear.move_item(session, ada, tag, "came off", place="Bench 1")
    gear.move_item(session, ada, tag, "went on", drive_id=other.id)
    after = line(session, launch, "faults")

    assert (before.verdict, after.verdict) == ("yes", "no")
    assert after.said == f"{tag}: Crack at the root"
    assert relaunch.faults(session, ada, vessel_id=drive.vessel_id) == []


def test_all_three_releases_then_the_follow_ups_fall_due_and_the_launch_is_over(session, ada):
    drive, _tag = launches.make_boat(session)
    launch = launches.make_launch(session, drive.vessel_id)
    for release in ("to launch", "afloat", "to owner"):
        launches.settle(session, launch.id, release)
        relaunch.release(session, ada, launch.id, release)

    row = next(one for one in relaunch.board(session, ada) if one.launch_id == launch.id)
    due = {one.title: (one.due, one.late) for one in row.follow_ups}
    afloat = relaunch.launch_sheet(session, ada, launch.id).releases["afloat"].at
    # 24 to 48 hours after she is afloat: trade practice, coupling checked again loaded.
    assert due["Centre: Gap between coupling faces, afloat and loaded"] == (
        afloat + timedelta(hours=24),
        afloat + timedelta(hours=48),
    )
    for key, drive_id in [("alignment", drive.id), ("gland_watched", drive.id), ("nuts_after", drive.id)]:
        launches.answer(session, launch.id, key, drive_id)
    launches.answer(session, launch.id, "first_trial")

    assert relaunch.board(session, ada) == []
    assert [one.launch_id for one in relaunch.past(session, ada)] == [launch.id]


def test_a_propeller_nobody_scanned_but_two_know_is_signed_with_what_they_go_by(session):
    drive = make_drive(session)
    make_propeller(session)
    launch = launches.make_launch(session, drive.vessel_id)

    with pytest.raises(Refused, match="Scan the tag"):
        launches.answer(session, launch.id, "propeller", drive.id, note="")
    for name in ("Finn Marsh", "Ivy Lund"):
        launches.answer(session, launch.id, "propeller", drive.id, by=name, note="no tag: the new one out of its box")

    assert line(session, launch, "propeller", drive.id).verdict == "yes"


def test_a_boat_whose_drives_nobody_entered_is_asked_for_the_nuts_lock_all_the_same(session, ada):
    launch = launches.make_launch(session, make_vessel(session).id)

    stops = relaunch.launch_sheet(session, ada, launch.id).in_the_way("to launch")
    assert "Lock fitted, looked at after tightening" in [one.title for one in stops]
