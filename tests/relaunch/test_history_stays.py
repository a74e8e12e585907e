"""No act, release, fault, decision, version of a list or policy can be altered or removed, however it is tried."""

import pytest
from sqlalchemy import inspect, select, text, update
from sqlalchemy.exc import DBAPIError

from tests.factories import relaunch as launches
from tests.factories.people import make_who
from yardapp.db import transaction
from yardapp.relaunch import services as relaunch
from yardapp.relaunch.lines import without
from yardapp.relaunch.models import Launch, LaunchAct

TABLES = ("relaunch_act", "relaunch_fault", "relaunch_fault_act", "relaunch_list_version", "relaunch_policy")


@pytest.fixture
def kept(register):
    """One row in each table."""
    with transaction() as session:
        ada = make_who(session)
        drive, tag = launches.make_boat(session)
        launch = launches.make_launch(session, drive.vessel_id)
        launches.answer(session, launch.id, "turns", drive.id)
        said = relaunch.FaultSaid(severity="note", what="Scratch", tag=tag, decides="Ada Brook")
        relaunch.raise_fault(session, ada, said)
        lines = relaunch.list_by_name(session, ada, "other").lines
        relaunch.change_list(session, ada, "other", 0, without(lines, "anode"))
        relaunch.set_policy(session, ada, "nut order", "one nut")
        return launch.id


@pytest.mark.parametrize("table", TABLES)
@pytest.mark.parametrize("act", ["UPDATE {} SET said_by = 'Nobody'", "DELETE FROM {}"])
def test_the_database_refuses_to_alter_or_remove_history(kept, table, act):
    with pytest.raises(DBAPIError, match="history stays"), transaction() as session:
        session.execute(text(act.format(table)))


@pytest.mark.parametrize("column", ["vessel_id", "lines", "list_number", "said_by"])
def test_what_a_launch_was_planned_on_can_not_be_altered(kept, column):
    with pytest.raises(DBAPIError, match="history stays"), transaction() as session:
        session.execute(update(Launch).values({column: getattr(Launch, column)}))


def test_a_launch_can_not_be_removed(kept):
    with pytest.raises(DBAPIError), transaction() as session:
        session.execute(text("DELETE FROM relaunch_launch"))


def alter_an_act():
    with transaction() as session:
        act = session.get_one(LaunchAct, 2)
        act.answer = "no"


def test_a_service_that_changes_a_kept_act_is_refused_by_the_database(kept):
    with pytest.raises(DBAPIError, match="history stays"):
        alter_an_act()


def rows_of(launch_id):
    with transaction() as session:
        acts = session.scalars(select(LaunchAct).where(LaunchAct.launch_id == launch_id).order_by(LaunchAct.id))
        return [{column.key: getattr(act, column.key) for column in inspect(LaunchAct).column_attrs} for act in acts]


def test_every_act_on_the_pages_adds_a_row_and_leaves_the_earlier_ones_as_they_were(client, kept):
    launch = f"/relaunch/{kept}"
    posts = [
        (f"{launch}/lines/turns?drive_id=1", {"answer": "no", "note": "binds"}),
        (f"{launch}/lines/turns/give?drive_id=1", {"name": "Ivy Lund"}),
        (f"{launch}/acts/2/take-back", {"why": "the boat beside her"}),
        (f"{launch}/override/launch", {"reason": "crane leaves at noon"}),
        (f"{launch}/hour", {"planned": "2031-04-01T10:00"}),
        (f"{launch}/kept/6/take-back", {"why": "wind"}),
        (f"{launch}/call-off", {"why": "sold ashore"}),
    ]
    for number, (address, boxes) in enumerate(posts):
        before = rows_of(kept)

        answer = client.send(address, **boxes)

        after = rows_of(kept)
        assert answer.status_code == 303, (address, answer.text[:300])
        assert (len(after), after[: len(before)]) == (len(before) + 1, before), number


def test_no_page_of_the_room_takes_more_than_reading_and_posting(app):
    methods = {
        one for rule in app.url_map.iter_rules() if rule.endpoint.startswith("relaunch.") for one in rule.methods
    }

    assert methods == {"GET", "HEAD", "OPTIONS", "POST"}
