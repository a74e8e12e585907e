"""A kept verdict is a dated record that says by itself when its premises no longer stand."""

from datetime import timedelta

import pytest
from sqlalchemy import select, text
from sqlalchemy.exc import DBAPIError

from tests.factories.people import make_person, make_who
from tests.factories.vessels import make_drive, make_vessel
from tests.fit.test_stock import SHAFT, good_propeller
from yardapp import __version__
from yardapp.db import now, snapshot, transaction
from yardapp.errors import NotAllowed, NotFound
from yardapp.fit import services
from yardapp.fit.kept import checks_of
from yardapp.fit.models import Kept
from yardapp.fit.verdict import judge
from yardapp.gear import services as gear
from yardapp.people.models import Audit
from yardapp.vessels import services as vessels

ENGINE = {"rated_power_w": 28e3, "rated_speed_rps": 50.0, "reduction_ratio": 2.0, "engine": "Fulmar 38"}


@pytest.fixture
def pair(register):
    """A pair that goes on, kept: tag, drive's number, verdict's number."""
    with transaction() as session:
        who = make_who(session)
        tag, drive = good_propeller(session).tag, make_drive(session, **SHAFT, **ENGINE).id
        return tag, drive, services.keep_verdict(session, who, tag, drive, note="before the lift").id


def now_of(kept_id):
    with transaction() as session:
        who = make_who(session)
    with snapshot() as session:
        return services.kept_verdict(session, who, kept_id)


def work_on(pair, act):
    with transaction() as session:
        act(session, make_who(session), *pair[:2])


def labels_changed(kept_id):
    return {one.path for one in now_of(kept_id).changed}


def test_it_keeps_every_input_the_edition_of_the_app_and_the_verdict(pair):
    found = now_of(pair[2])

    kept = found.kept
    assert (kept.verdict, kept.rule, kept.app_version, kept.note) == ("goes on", "15 %", __version__, "before the lift")
    assert kept.figures["propeller.bore_large_m"] == {"value": 0.038, "u": 0.00002, "basis": "measured"}
    assert kept.figures["drive.hull_clearance_m"] == {"value": 0.375, "u": 0.001, "basis": "measured"}
    assert (kept.figures["propeller.hand"], kept.figures["drive.engine"]) == ("right", "Fulmar 38")
    assert now() - kept.at < timedelta(minutes=1)
    assert kept.said_by == "Ada Brook"
    assert found.holds


def test_its_checks_come_back_as_the_judge_said_them(pair):
    with transaction() as session:
        who = make_who(session)
        found = services.pairing(session, who, *pair[:2])
    again = judge(found.propeller, found.room).checks

    kept = checks_of(now_of(pair[2]).kept.checks)

    for one, other in zip(kept, again, strict=False):
        assert (one.name, one.verdict, one.says, one.sums, one.rests_on) == (
            other.name,
            other.verdict,
            other.says,
            other.sums,
            other.rests_on,
        )


def test_what_a_later_edition_added_to_a_check_is_left_aside():
    told = {
        "name": "hand",
        "verdict": "goes on",
        "says": "",
        "source": "",
        "mood": "new",
        "compared": [{"label": "a", "value": 1.0, "new": 2}],
    }

    assert checks_of([told])[0].compared[0].label == "a"


def repitched(session, who, tag, drive):
    gear.work_done(session, who, tag, kind="re-pitched", pitch_m=0.42)


def rebored(session, who, tag, drive):
    gear.work_done(session, who, tag, kind="re-bored")


def measured_again(session, who, tag, drive):
    gear.note_evidence(
        session, who, tag, gear.Said(what="bore_large_m", basis="measured", value=0.0381, u_value=0.00002)
    )


def other_engine(session, who, tag, drive):
    vessels.re_engine(session, who, drive, 1, {**ENGINE, "engine": "Gannet 40", "hand": "right"})


def other_gear(session, who, tag, drive):
    vessels.change_drive(session, who, drive, 1, {"reduction_ratio": 2.5})


def other_shaft(session, who, tag, drive):
    vessels.change_drive(session, who, drive, 1, {"shaft_diameter_m": 0.040, "u_shaft_diameter_m": 0.00002})


def read_more_coarsely(session, who, tag, drive):
    vessels.change_drive(session, who, drive, 1, {"u_hull_clearance_m": 0.02})


@pytest.mark.parametrize(
    ("act", "path"),
    [
        (repitched, "propeller.pitch_m"),
        (rebored, "propeller.bore_large_m"),
        (measured_again, "propeller.bore_large_m"),
        (other_engine, "drive.engine"),
        (other_gear, "drive.reduction_ratio"),
        (other_shaft, "drive.shaft_diameter_m"),
        (read_more_coarsely, "drive.hull_clearance_m"),
    ],
)
def test_it_ends_with_its_premises_and_names_the_one_that_changed(pair, act, path):
    work_on(pair, act)

    assert path in labels_changed(pair[2])
    assert not now_of(pair[2]).holds


def moved(session, who, tag, drive):
    gear.move_item(session, who, tag, "moved", place="Bench")


def said_again(session, who, tag, drive):
    vessels.change_drive(session, who, drive, 1, {"note": "looked at", "engine": "Fulmar 38"})


@pytest.mark.parametrize("act", [moved, said_again])
def test_what_is_no_premise_does_not_end_it(pair, act):
    work_on(pair, act)

    assert now_of(pair[2]).holds


def test_a_verdict_that_could_not_be_told_ends_when_the_reading_comes(register):
    with transaction() as session:
        who = make_who(session)
        tag = good_propeller(session, hub_length_m=None).tag
        drive = make_drive(session, **SHAFT).id
        kept = services.keep_verdict(session, who, tag, drive).id
    assert now_of(kept).kept.verdict == "cannot tell"

    with transaction() as session:
        length = gear.Said(what="hub_length_m", basis="measured", value=0.1143, u_value=0.0002)
        gear.note_evidence(session, make_who(session), tag, length)

    assert labels_changed(kept) == {"propeller.hub_length_m"}


@pytest.mark.parametrize("statement", ["UPDATE fit_kept SET verdict = 'goes on'", "DELETE FROM fit_kept"])
def test_it_can_not_be_altered_through_any_door(pair, statement):
    with pytest.raises(DBAPIError, match="history stays"), transaction() as session:
        session.execute(text(statement))


def test_who_kept_it_is_in_the_trail(pair):
    with snapshot() as session:
        assert "kept a verdict" in session.scalars(select(Audit.act)).all()


def test_only_the_yard_keeps_verdicts(register):
    with transaction() as session:
        owner = make_person(session, name="R. Thorne", role="owner")
        drive = make_drive(session, make_vessel(session, owner_id=owner.id)).id
        tag = good_propeller(session).tag
        with pytest.raises(NotAllowed):
            services.keep_verdict(session, make_who(session, name="R. Thorne", role="owner"), tag, drive)


def test_an_owner_reads_only_what_is_judged_of_their_own(pair):
    with transaction() as session:
        who = make_who(session, name="R. Thorne", role="owner")
    with snapshot() as session, pytest.raises(NotFound):
        services.kept_verdict(session, who, pair[2])


def test_it_is_kept_from_the_verdict_s_page_and_retried_once(client, pair):
    address = f"/fit/{pair[0]}/on/{pair[1]}/keep"
    assert "Keep this verdict" in client.get(f"/fit/{pair[0]}/on/{pair[1]}").text

    answers = [client.send(address, once="the same", rule="10 %", note="for the surveyor") for _ in range(2)]

    assert {answer.headers["Location"] for answer in answers} == {"/fit/kept/2"}
    with snapshot() as session:
        assert session.scalars(select(Kept.rule).order_by(Kept.id)).all() == ["15 %", "10 %"]


def test_a_note_too_long_is_told_beside_its_box(client, pair):
    answer = client.send(f"/fit/{pair[0]}/on/{pair[1]}/keep", rule="15 %", note="x" * 301)

    assert answer.status_code == 422
    assert 'id="note-said"' in answer.text


def test_its_page_says_then_and_now(fetch, pair):
    before = fetch(f"/fit/kept/{pair[2]}")
    work_on(pair, other_gear)

    after = fetch(f"/fit/kept/{pair[2]}")

    assert "It still holds" in before
    assert "no longer holds" in after
    # 2:1 then, 2.5:1 now.
    assert "<td>2, paper</td><td><b>2.5, paper</b></td>" in after


@pytest.mark.parametrize("of", ["/fit/{0}/kept", "/fit/on/{1}/kept"])
def test_wherever_it_is_listed_it_says_that_it_ended(fetch, pair, of):
    address = of.format(*pair)
    assert "no longer holds" not in fetch(address)

    work_on(pair, repitched)

    assert "no longer holds: pitch" in fetch(address)


def test_a_pair_of_which_nothing_was_kept_says_what_would_be_here(fetch):
    with transaction() as session:
        tag, drive = good_propeller(session).tag, make_drive(session).id

    assert "No verdict was kept yet" in fetch(f"/fit/{tag}/kept")
    assert "No verdict was kept yet" in fetch(f"/fit/on/{drive}/kept")


@pytest.mark.parametrize("address", ["/fit/kept/99", "/fit/P-9999/kept", "/fit/on/99/kept"])
def test_what_is_not_there_is_not_found(client, address):
    assert client.get(address).status_code == 404
