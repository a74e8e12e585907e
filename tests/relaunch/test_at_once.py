"""Two people act upon one launch at the same moment."""

import threading

import pytest

from tests.factories import relaunch as launches
from tests.factories.people import make_who
from yardapp.db import transaction
from yardapp.errors import Refused
from yardapp.relaunch import services as relaunch


@pytest.fixture
def ready(register):
    """A launch of which every line to launch is in order, and who releases."""
    with transaction() as session:
        drive, _ = launches.make_boat(session)
        launch = launches.make_launch(session, drive.vessel_id)
        launches.settle(session, launch.id)
        return launch.id, drive.vessel_id, make_who(session)


def at_once(*acts):
    """Each act in a thread and a save of its own; what each came to."""
    gate, came_to = threading.Barrier(len(acts)), {}

    def run(number, act):
        gate.wait(5)
        try:
            with transaction() as session:
                act(session)
            came_to[number] = "done"
        except Refused as refused:
            came_to[number] = str(refused)

    tries = [threading.Thread(target=run, args=pair) for pair in enumerate(acts)]
    for one in tries:
        one.start()
    for one in tries:
        one.join(20)
    return [came_to[number] for number in range(len(acts))]


def test_of_two_who_release_her_at_the_same_moment_one_is_told_that_she_was(ready):
    launch_id, _, who = ready

    def release(session):
        relaunch.release(session, who, launch_id, "to launch")

    answers = at_once(release, release)

    assert sorted(answers) == ["She was released already. Take that release back first.", "done"]
    with transaction() as session:
        acts = relaunch.launch_sheet(session, who, launch_id).acts
    assert [act.release for act in acts if act.release] == ["to launch"]


def test_one_overrides_while_another_closes_the_fault_and_the_kept_sheet_says_what_it_saw(ready):
    launch_id, vessel_id, who = ready
    with transaction() as session:
        said = relaunch.FaultSaid(severity="stop", what="Rudder stock loose", vessel_id=vessel_id)
        key = f"y{relaunch.raise_fault(session, who, said).id}"

    overriding, closing = at_once(
        lambda session: relaunch.override(session, who, launch_id, "to launch", "goes to the berth only"),
        lambda session: relaunch.close_fault(session, who, key, "Stock tightened, looked at twice"),
    )

    with transaction() as session:
        kept = relaunch.launch_sheet(session, who, launch_id).releases.get("to launch")
    assert closing == "done"
    if overriding == "done":
        assert [fault["what"] for fault in kept.frozen["faults"]] == ["Rudder stock loose"]
    else:
        assert (overriding, kept) == ("Nothing is in the way: release her.", None)
