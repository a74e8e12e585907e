"""Faults of things, drives and boats, and those that the bench marked, in one list."""

from datetime import timedelta

import pytest

from tests.factories import relaunch as launches
from tests.factories.coating import stopped_clock
from tests.factories.gear import make_propeller
from tests.factories.people import make_who
from tests.factories.vessels import make_drive, make_vessel
from yardapp.bench import services as bench
from yardapp.db import now, transaction
from yardapp.errors import NotAllowed, NotFound, Refused
from yardapp.relaunch import services as relaunch


@pytest.fixture
def session(register):
    with transaction() as opened:
        yield opened


@pytest.fixture
def ada(session):
    return make_who(session)


def stop(session, ada, **on):
    fault = relaunch.raise_fault(session, ada, relaunch.FaultSaid(severity="stop", what="Crack", **on))
    return f"y{fault.id}"


def bench_fault(session, ada, tag, severity="stop"):
    said = bench.FaultSaid(kind="crack", severity=severity, side="face", blade=2, radius_ratio=0.7)
    return f"b{bench.raise_fault(session, ada, tag, said).id}"


def test_faults_of_a_thing_a_drive_a_boat_and_the_bench_stand_in_one_list_worst_first(session, ada):
    drive, tag = launches.make_boat(session)
    relaunch.raise_fault(
        session, ada, relaunch.FaultSaid(severity="note", what="Paint gone", vessel_id=drive.vessel_id)
    )
    relaunch.raise_fault(session, ada, relaunch.FaultSaid(severity="watch", what="Gland warm", drive_id=drive.id))
    stop(session, ada, tag=tag)
    bench_fault(session, ada, tag)

    found = relaunch.faults(session, ada)

    assert [(one.severity, one.on, one.what, one.place) for one in found] == [
        ("stop", tag, "Crack", "blade 2, at 0.7 R, face"),
        ("stop", tag, "Crack", ""),
        ("watch", "Kittiwake, centre", "Gland warm", ""),
        ("note", "Kittiwake", "Paint gone", ""),
    ]
    assert relaunch.faults(session, ada, vessel_id=drive.vessel_id) == found
    assert {one.aboard for one in found} == {"Kittiwake, centre", "Kittiwake"}


@pytest.mark.parametrize("raised", [stop, lambda session, ada, tag: bench_fault(session, ada, tag)])
def test_an_accepted_fault_lets_her_go_until_its_day_and_is_back_on_that_day(session, ada, raised):
    drive, tag = launches.make_boat(session)
    key = raised(session, ada, tag=tag)
    until = relaunch.today() + timedelta(days=10)
    launch = launches.make_launch(session, drive.vessel_id)
    before = relaunch.launch_sheet(session, ada, launch.id).line("faults", None).verdict

    found = relaunch.accept_fault(session, ada, key, name="The surveyor", why="hairline, watched", until=until)
    after = relaunch.launch_sheet(session, ada, launch.id).line("faults", None).verdict
    relaunch.change_hour(session, ada, launch.id, launch.planned + timedelta(days=7), "crane is broken")
    on_its_day = relaunch.launch_sheet(session, ada, launch.id).line("faults", None).verdict

    assert (before, after, on_its_day) == ("no", "yes", "no")
    assert (found.is_accepted(until - timedelta(days=1)), found.is_accepted(until)) == (True, False)
    assert (found.is_back(until), found.stops(until)) == (True, True)
    assert (found.acceptance.name, found.acceptance.said_by) == ("The surveyor", "Ada Brook")


def test_an_acceptance_is_ended_with_a_reason_and_the_fault_is_back_at_once(session, ada):
    key = stop(session, ada, vessel_id=make_vessel(session).id)
    until = relaunch.today() + timedelta(days=10)
    relaunch.accept_fault(session, ada, key, name="Ada Brook", why="small", until=until)

    found = relaunch.end_acceptance(session, ada, key, "it has grown")

    assert found.acceptance is None
    assert found.stops(relaunch.today())
    assert [one.kind for one in found.decisions] == ["accepted", "acceptance ended"]


@pytest.mark.parametrize("raised", [stop, lambda session, ada, tag: bench_fault(session, ada, tag)])
def test_a_fault_is_closed_once_by_the_work_that_was_done(session, ada, raised):
    key = raised(session, ada, tag=make_propeller(session).tag)
    today = now().date()
    assert relaunch.fault_by_key(session, ada, key).stops(today)

    found = relaunch.close_fault(session, ada, key, "welded and ground, dye shows nothing")

    assert not found.stops(today)
    assert found.closing.note == "welded and ground, dye shows nothing"
    assert relaunch.faults(session, ada) == []
    assert [one.key for one in relaunch.faults(session, ada, with_closed=True)] == [key]
    with pytest.raises(Refused, match="closed already"):
        relaunch.close_fault(session, ada, key, "again")


def test_whoever_decides_is_named_and_may_be_named_anew(session, ada):
    said = relaunch.FaultSaid(severity="watch", what="Play", tag=make_propeller(session).tag, decides="R. Thorne")
    key = f"y{relaunch.raise_fault(session, ada, said).id}"
    first = relaunch.fault_by_key(session, ada, key).decides

    found = relaunch.say_who_decides(session, ada, key, "The surveyor")

    assert (first, found.decides) == ("R. Thorne", "The surveyor")


@pytest.mark.parametrize(
    ("said", "box"),
    [
        ({"severity": "stop", "what": " "}, "what"),
        ({"severity": "bad", "what": "Crack"}, "severity"),
        ({"severity": "stop", "what": "Crack"}, "tag"),
        ({"severity": "stop", "what": "Crack", "tag": "P-0001", "vessel_id": 1}, "tag"),
        ({"severity": "stop", "what": "Crack", "tag": "P-0001", "found": "dreaming"}, "found"),
    ],
)
def test_a_fault_that_makes_no_sense_names_its_box(session, ada, said, box):
    with pytest.raises(Refused) as refused:
        relaunch.raise_fault(session, ada, relaunch.FaultSaid(**said))

    assert refused.value.argument == box


@pytest.mark.parametrize("days", [0, -1])
def test_an_acceptance_needs_a_day_to_come(session, ada, days):
    key = stop(session, ada, vessel_id=make_vessel(session).id)

    with pytest.raises(Refused, match="day to come"):
        relaunch.accept_fault(session, ada, key, name="Ada", why="small", until=relaunch.today() + timedelta(days=days))


def test_only_the_office_accepts_and_owners_see_the_faults_of_their_own_boats_alone(session, ada):
    owner = make_who(session, name="R. Thorne", role="owner")
    hers = make_drive(session, make_vessel(session, name="Sea Otter", owner_id=owner.person_id))
    mine = stop(session, ada, drive_id=hers.id)
    other = stop(session, ada, vessel_id=make_vessel(session).id)
    finn = make_who(session, name="Finn Marsh", role="hand")
    until = relaunch.today() + timedelta(days=3)

    assert [one.key for one in relaunch.faults(session, owner)] == [mine]
    with pytest.raises(NotFound):
        relaunch.fault_by_key(session, owner, other)
    with pytest.raises(NotAllowed):
        relaunch.close_fault(session, owner, mine, "gone")
    with pytest.raises(NotAllowed, match="Only the office accepts"):
        relaunch.accept_fault(session, finn, other, name="Finn", why="small", until=until)


@pytest.mark.parametrize("key", ["y99", "b99", "x1", "y", "y1'", ""])
def test_a_key_that_is_none_is_not_found(session, ada, key):
    with pytest.raises(NotFound):
        relaunch.fault_by_key(session, ada, key or "-")


def test_a_fault_whose_day_has_come_stands_on_the_board_wherever_its_thing_lies(session, ada):
    key, other = (stop(session, ada, tag=make_propeller(session).tag) for _ in range(2))
    day = relaunch.today() + timedelta(days=2)
    for one, until in ((key, day), (other, day + timedelta(days=90))):
        relaunch.accept_fault(session, ada, one, name="Ada Brook", why="spare", until=until)
    before = relaunch.whole_board(session, ada)[1]

    with stopped_clock(now() + timedelta(days=3)):
        after = relaunch.whole_board(session, ada)[1]

    assert (before, [one.key for one in after]) == ([], [key])
