import dataclasses
import io

import pytest
from PIL import Image
from sqlalchemy import select

from tests.factories.coating import (
    COAT_1,
    NOON,
    coat_whole,
    make_job,
    make_sheet,
    make_system,
    mix,
    read_weather,
    tap,
)
from tests.factories.gear import make_propeller
from tests.factories.people import make_who
from tests.factories.vessels import make_drive
from yardapp.coating import services as coating
from yardapp.coating.models import Job, Piece, Tin
from yardapp.db import snapshot, transaction
from yardapp.errors import Refused
from yardapp.gear import services as gear

PLAN = {
    "system_id": "1",
    "people": "1",
    "way": "brush",
    "blade_s": "5",
    "metal_c": "20",
    "pieces-0-kind": "bracket",
    "pieces-0-name": "Port bracket",
    "pieces-0-area_m2": "0.1",
}


@pytest.fixture
def system(register):
    with transaction() as session:
        return make_system(session)


@pytest.fixture
def propeller(register):
    with transaction() as session:
        item = make_propeller(session)
        figures = {"blades": 3.0, "area_ratio": 0.5, "hub_length_m": 0.1, "hub_diameter_m": 0.09}
        said = [gear.Said(what=what, basis="measured", value=value, u_value=0.0) for what, value in figures.items()]
        gear.note_evidence(session, make_who(session), item.tag, *said)
        return item.tag


def look(client, **boxes):
    return client.send("/coating/plan/look", **PLAN | boxes).text


def test_a_plan_without_a_system_sends_to_the_systems(fetch):
    assert "The yard has none yet" in fetch("/coating/plan", queries=4)


def test_a_plan_says_whether_it_can_be_done_and_draws_it(client, fetch, system, clock):
    fetch("/coating/plan", queries=4)

    text = look(client)

    assert "It can be done" in text
    assert "<svg" in text
    assert "Port bracket" in text


def test_a_plan_that_can_t_be_done_says_what_would_do(client, system, clock):
    # 45 minutes for the coat and 20 to wait: its window shut 60 minutes after it was begun.
    text = look(client, blade_s="45", other_blade_s="10")

    assert "be done so" in text
    assert "A roller instead of the brush" in text
    assert "It can be done" not in text


def test_a_plan_that_nothing_would_help_says_so(client, system, clock):
    assert "Neither another person nor fewer at once would do it" in look(client, blade_s="45")


def test_metal_outside_the_sheet_is_no_plan_and_no_job(client, system, clock):
    assert "the sheet gives 10 to 30 °C" in look(client, metal_c="35")

    answer = client.send("/coating/plan", **PLAN | {"metal_c": "35"})

    assert answer.status_code == 422
    assert 'id="metal_c-said"' in answer.text


@pytest.mark.parametrize("kind", ["anode", "bearing face", "bore", "taper", "thread", "keyway"])
def test_what_is_never_coated_is_refused_beside_its_box(client, system, kind):
    answer = client.send("/coating/plan", **PLAN | {"pieces-0-kind": kind})

    assert answer.status_code == 422
    assert 'id="pieces-0-kind-said"' in answer.text
    assert "It is never coated." in answer.text


def test_an_anode_under_another_name_is_an_anode(client, system):
    answer = client.send("/coating/plan", **PLAN | {"pieces-0-kind": "other", "pieces-0-name": "Shaft anode"})

    assert answer.status_code == 422
    assert "never coated" in answer.text


def test_a_transducer_waits_for_who_said_that_its_maker_allows_it_and_when(client, system, clock):
    transducer = {"pieces-0-kind": "transducer", "pieces-0-name": "Log transducer"}
    assert "who said that its maker allows it" in look(client, **transducer)
    assert client.send("/coating/plan", **PLAN | transducer).status_code == 422

    said = {"pieces-0-allowed_by": "the maker's letter", "pieces-0-allowed_on": "2026-03-02"}
    answer = client.send("/coating/plan", **PLAN | transducer | said)

    assert answer.status_code == 303
    with snapshot() as session:
        piece = session.scalars(select(Piece)).one()
        assert (piece.allowed_by, piece.allowed_on.isoformat()) == ("the maker's letter", "2026-03-02")


def test_a_propellers_area_comes_from_its_own_figures(client, system, propeller, clock):
    piece = {"pieces-0-kind": "propeller", "pieces-0-name": propeller.lower(), "pieces-0-area_m2": ""}

    answer = client.send("/coating/plan", **PLAN | piece)

    assert answer.status_code == 303
    with snapshot() as session:
        piece = session.scalars(select(Piece)).one()
    # Both sides of 0.5 of the disc of 0.559 m, and a hub of 90 by 100 mm: 2 x 0.5 x pi/4 D2 + pi d L.
    assert piece.area_m2 == pytest.approx(3.14159265 / 4 * 0.559**2 + 3.14159265 * 0.09 * 0.1, rel=1e-6)
    assert (piece.label, piece.blades) == (propeller, 3)


def test_a_propeller_of_which_too_little_is_known_says_what_is_missing(client, system):
    with transaction() as session:
        tag = make_propeller(session).tag
    piece = {"pieces-0-kind": "propeller", "pieces-0-name": tag, "pieces-0-area_m2": ""}

    answer = client.send("/coating/plan", **PLAN | piece)

    assert answer.status_code == 422
    assert 'id="pieces-0-area_m2-said"' in answer.text


@pytest.mark.parametrize(
    ("boxes", "box"),
    [
        ({"pieces-0-kind": ""}, "pieces-0-name"),
        ({"pieces-0-kind": "propeller", "pieces-0-name": "P-0999"}, "pieces-0-name"),
        ({"people": "0"}, "people"),
        ({"blade_s": "x"}, "blade_s"),
        ({"metal_c": ""}, "metal_c"),
        ({"pieces-0-area_m2": "-1"}, "pieces-0-area_m2"),
    ],
)
def test_what_can_t_stand_in_a_plan_is_told_beside_its_box(client, system, boxes, box):
    answer = client.send("/coating/plan", **PLAN | boxes)

    assert answer.status_code == 422
    assert f'id="{box}-said"' in answer.text


def test_one_more_piece_keeps_what_was_typed(client, system):
    text = client.send("/coating/plan/look", **PLAN | {"more": "pieces"}).text

    assert "Port bracket" in text
    assert 'name="pieces-1-kind"' in text


def test_a_plan_says_what_is_needed_and_what_stock_has_of_it(client, system, clock):
    with transaction() as session:
        who = make_who(session)
        for part, volume in (("Base", 0.0001), ("Hardener", 0.00001)):
            said = {"product": "Primer", "part": part, "volume_m3": volume, "batch": "B7", "place": "shelf"}
            coating.add_tin(session, who, said)

    text = look(client)

    # 0.1 m2, two coats of 50 um dry at half solids, a fifth lost: 0.1 x 2 x 50e-6 / 0.5 / 0.8 = 25 ml; 4 : 1.
    assert "20 ml of shelf, batch B7" in text
    assert "has no date" in text


def test_weather_that_is_too_damp_says_wait(client, system, clock):
    assert "Wait" in look(client, air_c="20", relative_humidity="95 %")
    assert "Go" in look(client, air_c="20", relative_humidity="50 %")


def test_the_latest_start_before_a_launch_is_told(client, system, clock):
    launch = (clock() + (NOON - NOON)).astimezone().replace(tzinfo=None)
    later = launch.replace(day=launch.day + 2).isoformat(timespec="minutes")

    assert "Latest start for the launch" in look(client, launches=later)


def test_a_job_keeps_what_it_was_planned_as(client, fetch, system, clock):
    with transaction() as session:
        drive_id = make_drive(session).id

    answer = client.send("/coating/plan", **PLAN | {"drive_id": str(drive_id), "title": "Kittiwake", "note": "windy"})

    assert answer.headers["Location"].endswith("/coating/jobs/1")
    with snapshot() as session:
        job = session.scalars(select(Job)).one()
        assert (job.drive_id, job.title, job.blade_s, job.metal_c, job.loss_ratio) == (
            drive_id,
            "Kittiwake",
            300,
            20,
            0.2,
        )
    assert "windy" in fetch("/coating/jobs/1/log", queries=4)


def test_a_tin_is_put_in_stock_changed_and_used_up(client, fetch):
    fetch("/coating/stock")
    tin = {"product": "Primer", "part": "Base", "volume_m3": "200 ml", "batch": "B7", "expires_on": "2020-01-01"}
    assert client.send("/coating/stock/new", **tin).status_code == 303
    assert "past its date" in fetch("/coating/stock")
    fetch("/coating/stock/1")

    client.send("/coating/stock/1", **tin | {"version": "1", "volume_m3": "0"})

    with snapshot() as session:
        assert session.scalars(select(Tin.is_gone)).one()
    assert "Primer" not in fetch("/coating/stock")


def test_a_tin_that_somebody_else_changed_meets_the_merge_page(client):
    tin = {"product": "Primer", "volume_m3": "200 ml", "place": "shelf"}
    client.send("/coating/stock/new", **tin)
    client.send("/coating/stock/1", **tin | {"version": "1", "place": "shed"})

    answer = client.send("/coating/stock/1", **tin | {"version": "1", "place": "van"})

    assert answer.status_code == 409
    assert "shed" in answer.text


@pytest.mark.parametrize(("boxes", "box"), [({"product": ""}, "product"), ({"volume_m3": ""}, "volume_m3")])
def test_a_tin_without_a_name_or_a_volume_is_refused(client, boxes, box):
    answer = client.send("/coating/stock/new", **{"product": "Primer", "volume_m3": "1 l"} | boxes)

    assert answer.status_code == 422
    assert f'id="{box}-said"' in answer.text


def picture():
    file = io.BytesIO()
    Image.new("RGB", (40, 30), (120, 90, 40)).save(file, "JPEG")
    return io.BytesIO(file.getvalue()), "blade.jpg"


def test_a_photo_stands_in_the_log_and_on_the_propellers_page(client, fetch, system, propeller, clock):
    with transaction() as session:
        make_job(session, tag=propeller, system_id=1)
    fetch("/coating/jobs/1/photo", queries=4)

    answer = client.send("/coating/jobs/1/photo", photo=picture(), unit="1.2", caption="before")

    assert answer.status_code == 303
    assert "/photos/" in fetch("/coating/jobs/1/log", queries=4)
    assert "before" in fetch(f"/propellers/{propeller}", queries=5)
    assert client.send("/coating/jobs/1/photo", unit="1.2").status_code == 422


def test_a_rest_in_the_pot_covers_what_it_can_by_volume_and_in_its_time(system, clock):
    with transaction() as session:
        job = make_job(session, system_id=system)
        read_weather(session, job.id)
        mix(session, job.id, volume_m3=100e-6)
        tap(session, job.id, "started", "1", COAT_1)
        clock.later(minutes=5)
        tap(session, job.id, "done", "1", COAT_1)
    with snapshot() as session:
        (left,) = coating.product_left(session, make_who(session), job.id)

    # 0.1 m2 of 50 um at half solids with a fifth lost took 12.5 ml of 100.
    assert left.covers.volume_m3 == pytest.approx(87.5e-6)
    # 87.5 ml less a fifth, at 100 um wet.
    assert left.covers.by_volume_m2 == pytest.approx(0.7)


def test_each_window_is_told_in_the_order_of_work(system, clock):
    with transaction() as session:
        job = make_job(session, system_id=system)
        read_weather(session, job.id)
        mix(session, job.id)
        tap(session, job.id, "started", "1", COAT_1)
        clock.later(minutes=5)
        tap(session, job.id, "done", "1", COAT_1)
    with snapshot() as session:
        (window,) = coating.windows(session, make_who(session), job.id)

    assert (window.label, window.name, window.phase) == ("Bracket 1", "Primer, coat 2", "waiting")
    # At 20 degrees the sheet gives 60 minutes from the first stroke.
    assert window.shuts.timestamp() == NOON.timestamp() + 3600


def test_a_launch_is_told_what_is_cured_and_what_is_not(system, propeller, clock):
    with transaction() as session:
        drive = make_drive(session)
        gear.move_item(session, make_who(session), propeller, "went on", drive_id=drive.id)
        job = make_job(session, system_id=system, tag=propeller)
        coat_whole(session, job, clock, ("1.1", "1.2", "1.3"))
        soon, late = clock.later(hours=1), clock.later(days=2)
    with snapshot() as session:
        (before,) = coating.before_launch(session, make_who(session), drive.id, soon)
        (after,) = coating.before_launch(session, make_who(session), drive.id, late)

    assert (before.is_cured, before.windows_met, before.missed) == (False, True, ())
    assert after.is_cured


def test_a_launch_hears_of_the_blade_whose_window_was_missed_in_two_queries(system, propeller, clock, count_queries):
    with transaction() as session:
        who = make_who(session)
        drive = make_drive(session)
        job = make_job(session, system_id=system, tag=propeller, drive_id=drive.id)
        read_weather(session, job.id)
        mix(session, job.id)
        tap(session, job.id, "started", "1.2", COAT_1)
        clock.later(minutes=5)
        tap(session, job.id, "done", "1.2", COAT_1)
    late = clock.later(hours=3)
    with snapshot() as session, count_queries() as asked:
        (line,) = coating.before_launch(session, who, drive.id, late)

    assert (line.is_cured, line.is_open, line.finished) == (False, True, None)
    assert len(line.missed) == 1
    assert line.missed[0].startswith("Blade 2: The window for Primer, coat 2 shut")
    assert line.missed[0].endswith("Abrade that blade and give it the coat again.")
    assert len(asked) == 2


def test_a_plan_on_a_system_that_was_changed_runs_on_the_newest(system, clock):
    with transaction() as session:
        who = make_who(session)
        coating.change_system(session, who, system, 1, dataclasses.replace(make_sheet(), notes="newer"))
        job = make_job(session, system_id=system)

        assert coating.story_of(session, who, job.id).system.notes == "newer"


def test_a_system_that_finds_nothing_to_coat_with_is_refused(register):
    with transaction() as session, pytest.raises(Refused):
        coating.add_system(session, make_who(session), dataclasses.replace(make_sheet(), steps=()))


def test_nobody_coats_at_three_in_the_morning(client, fetch, system, clock):
    # 5 May 2026 is a Tuesday.
    text = look(client, starts="2026-05-05T03:00")

    assert "08:00 on 5 May 2026" in text
    assert "Within working hours: 08:00 to 17:00, break 12:00 to 12:30, no weekends." in text

    client.send("/coating/plan", **PLAN | {"starts": "2026-05-05T03:00", "day_ends": "16:00", "title": "Early"})
    assert "08:00 to 16:00" in fetch("/coating/jobs/1/log", queries=5)


def test_without_working_hours_the_plan_says_that_somebody_coats_day_and_night(client, system, clock):
    empty = dict.fromkeys(("day_begins", "day_ends", "break_begins", "break_ends"), "")

    text = look(client, starts="2026-05-05T03:00", **empty)

    assert "somebody coats day and night" in text
    assert "03:00 on 5 May 2026" in text


def test_a_break_outside_the_day_is_told_beside_its_box(client, system, clock):
    answer = client.send("/coating/plan", **PLAN | {"break_begins": "18:00", "break_ends": "18:30"})

    assert answer.status_code == 422
    assert 'id="break_ends-said"' in answer.text
