"""What the register knows of a propeller's state goes into its verdicts, lists and pairs."""

from datetime import UTC, datetime, timedelta

import pytest

from tests.factories.coating import coat_whole, make_job, stopped_clock
from tests.factories.people import make_who
from tests.factories.vessels import make_drive
from tests.fit.pairings import GOOD_DRIVE, GOOD_PROPELLER
from tests.fit.test_pairs_in_stock import bladed
from tests.fit.test_stock import SHAFT, good_propeller
from yardapp.bench import services as bench
from yardapp.db import snapshot, transaction
from yardapp.fit import services
from yardapp.fit.services.condition import State, states_of, with_state
from yardapp.fit.verdict import judge

DAY = datetime(2026, 11, 25, 9, 0, tzinfo=UTC)


def pair():
    with transaction() as session:
        return good_propeller(session).tag, make_drive(session, **SHAFT).id


def mark(tag, severity="stop", kind="crack", blade=2):
    with transaction() as session:
        said = bench.FaultSaid(kind=kind, severity=severity, side="face", blade=blade, radius_ratio=0.5)
        return bench.raise_fault(session, make_who(session), tag, said).id


def ring(tag, heard="rings"):
    with transaction() as session:
        bench.note_ring(session, make_who(session), tag, heard)


def close(fault_id):
    with transaction() as session:
        bench.close_fault(session, make_who(session), fault_id, "welded and dressed")


def found(tag, drive):
    with snapshot() as session:
        return services.pairing(session, make_who(session), tag, drive)


def check_of(verdict, name):
    return next((check for check in verdict.checks if check.name == name), None)


@pytest.mark.usefixtures("register")
def test_a_fault_that_bars_it_is_mended_before_it_goes_on():
    tag, drive = pair()
    mark(tag)

    verdict = found(tag, drive).verdict

    assert verdict.verdict == "goes on after work"
    assert verdict.works == ("mend",)
    assert "crack, blade 2" in check_of(verdict, "faults").says


@pytest.mark.usefixtures("register")
def test_a_fault_to_watch_is_said_and_is_no_bar():
    tag, drive = pair()
    mark(tag, "watch", "nick", 1)

    verdict = found(tag, drive).verdict

    assert verdict.verdict == "goes on"
    assert "nick, blade 1" in check_of(verdict, "faults").says


@pytest.mark.usefixtures("register")
def test_a_fault_that_was_closed_leaves_it_looked_over():
    tag, drive = pair()
    close(mark(tag))

    assert check_of(found(tag, drive).verdict, "faults").verdict == "goes on"


@pytest.mark.usefixtures("register")
def test_where_nobody_looked_the_rest_is_judged_and_the_look_is_asked_for():
    tag, drive = pair()

    answer = found(tag, drive)

    assert answer.verdict.verdict == "goes on"
    assert answer.propeller.open_faults is None
    assert "propeller.open_faults" in {need.figure for need in answer.unjudged.needs}


@pytest.mark.usefixtures("register")
def test_a_clear_ring_is_a_look_and_a_dull_one_is_none():
    (clear, drive), (dull, _) = pair(), pair()
    ring(clear)
    ring(dull, "dull")

    assert check_of(found(clear, drive).verdict, "faults").verdict == "goes on"
    assert found(dull, drive).propeller.open_faults is None


def test_the_page_says_how_old_the_last_measurement_is_in_three_queries(fetch):
    tag, drive = pair()

    assert "Last measured 1 d ago." in fetch(f"/fit/{tag}/on/{drive}")


def test_a_measurement_older_than_the_yard_lets_pass_settles_nothing():
    old = State(looked=DAY, measured=DAY - timedelta(days=4 * 365))

    verdict = judge(with_state(GOOD_PROPELLER, old, at=DAY), GOOD_DRIVE)

    # Limits: three years, a yard setting, no source.
    assert (verdict.verdict, check_of(verdict, "age").verdict) == ("cannot tell", "cannot tell")


@pytest.mark.usefixtures("register")
def test_its_coating_is_told_and_decides_nothing():
    with stopped_clock() as clock, transaction() as session:
        tag = good_propeller(session).tag
        job = make_job(session, tag=tag)
        coat_whole(session, job, clock)
    with snapshot() as session:
        item = services.propeller_by_tag(session, make_who(session), tag)[0]

    assert item.coating
    assert judge(item, GOOD_DRIVE).condition is None


def test_the_list_puts_one_with_a_fault_behind_and_says_what_it_takes(fetch):
    (sound, drive), (cracked, _) = pair(), pair()
    mark(cracked)

    html = fetch(f"/fit/on/{drive}")

    assert "1 go on as they are; 1 go on after work" in html
    assert html.index(sound) < html.index(cracked)
    assert "Mend: about 2 to 8 hours" in html
    assert "2 go on after work" in fetch(f"/fit/{cracked}")


def test_a_pair_of_which_one_is_cracked_is_mended_first(fetch):
    with transaction() as session:
        right, left = (
            bladed(session, hand, area_ratio=(0.5, 0.005), pitch_m=(0.457, 0.001)).tag for hand in ("right", "left")
        )
    assert "A pair" in fetch(f"/fit/pairs/{right}/{left}")

    mark(left)

    page = fetch(f"/fit/pairs/{right}/{left}")
    assert "A pair after work" in page
    assert f"Still open on {left}: crack, blade 2." in page


def test_a_fault_found_since_ends_a_kept_verdict_wherever_it_is_shown(client, fetch):
    tag, drive = pair()
    client.send(f"/fit/{tag}/on/{drive}/keep", rule="15 %", note="")
    assert "It still holds" in fetch("/fit/kept/1")

    mark(tag)

    assert "It still holds" not in fetch("/fit/kept/1")
    for address in ("/fit/kept/1", f"/fit/{tag}/kept", f"/fit/on/{drive}/kept"):
        assert "no longer holds" in fetch(address)
    assert "open faults" in fetch("/fit/kept/1")


@pytest.mark.usefixtures("register")
def test_the_states_of_many_are_one_query(count_queries):
    tags = [pair()[0] for _ in range(3)]
    mark(tags[0])
    with snapshot() as session, count_queries() as asked:
        states = states_of(session, [1, 2, 3])

    assert len(asked) == 1
    assert [bool(states[number].bars) for number in (1, 2, 3)] == [True, False, False]
    assert states_of(None, []) == {}
