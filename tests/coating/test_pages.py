import dataclasses
import re

import pytest
from sqlalchemy import select

from tests.factories.coating import COAT_1, coat_whole, make_job, make_system, mix, read_weather, tap
from tests.factories.gear import make_propeller
from tests.factories.people import make_who
from yardapp.coating import services as coating
from yardapp.coating.models import CoatingAct, Job
from yardapp.db import snapshot, transaction
from yardapp.gear import services as gear


def a_job(**said):
    with transaction() as session:
        return make_job(session, **said).id


def acts():
    with snapshot() as session:
        return session.scalars(select(CoatingAct).order_by(CoatingAct.id)).all()


def test_the_rooms_first_page_teaches_then_lists_what_runs(fetch):
    assert "Nothing runs." in fetch("/coating")
    a_job(title="Sea Otter, both blades")

    assert "Sea Otter, both blades" in fetch("/coating")
    assert "Sea Otter" not in fetch("/coating?show=over")


def test_a_job_says_what_to_do_now_on_which_piece(fetch, clock):
    text = fetch(f"/coating/jobs/{a_job()}", queries=5)

    assert "Read the weather" in text
    assert "Bracket 1" in text


def test_a_tap_as_a_plain_form_is_saved_once(client, clock):
    job_id = a_job()

    for _ in range(2):
        answer = client.send(f"/coating/jobs/{job_id}/acts", once="one tap", tap=f"started|1|{COAT_1}")
        assert answer.status_code == 303

    assert [(act.kind, act.unit, act.step) for act in acts()] == [("started", "1", COAT_1)]


def test_a_tap_of_the_script_is_answered_in_few_words(client, clock):
    job_id = a_job()
    boxes = {"csrf_token": csrf(client), "once": "a", "tap": f"started|1|{COAT_1}"}

    good = client.post(f"/coating/jobs/{job_id}/acts", data=boxes, headers={"Yard-Tap": "1"})
    again = client.post(f"/coating/jobs/{job_id}/acts", data=boxes | {"once": "b"}, headers={"Yard-Tap": "1"})
    stale = client.post(f"/coating/jobs/{job_id}/acts", data=boxes | {"csrf_token": "x"}, headers={"Yard-Tap": "1"})

    assert (good.status_code, good.text) == (204, "")
    assert again.status_code == 422
    assert "already begun" in again.text
    assert stale.status_code == 409


def csrf(client):
    html = client.get("/people/me").text
    return re.search(r'name="csrf_token" value="([^"]+)"', html)[1]


def test_a_refused_tap_is_told_on_the_page_and_saves_nothing(client, clock):
    job_id = a_job()
    client.send(f"/coating/jobs/{job_id}/acts", tap=f"started|1|{COAT_1}")

    answer = client.send(f"/coating/jobs/{job_id}/acts", tap=f"started|1|{COAT_1}")

    assert answer.status_code == 422
    assert "already begun" in answer.text
    assert len(acts()) == 1


def test_a_late_tap_brings_its_own_time(client, clock):
    job_id = a_job()
    own = clock().timestamp()
    clock.later(minutes=12)

    client.send(f"/coating/jobs/{job_id}/acts", tap=f"started|1|{COAT_1}", at=f"{own:.3f}")

    (act,) = acts()
    assert act.is_late
    assert (act.noted - act.at).total_seconds() == pytest.approx(720)
    assert "sent late" in client.get(f"/coating/jobs/{job_id}/log").text


@pytest.mark.parametrize("at", ["never", "nan", "1e99", "-1"])
def test_a_time_that_is_none_breaks_nothing(client, clock, at):
    answer = client.send(f"/coating/jobs/{a_job()}/acts", tap=f"started|1|{COAT_1}", at=at)

    assert answer.status_code in (303, 422)


@pytest.mark.parametrize(
    "tap", ["", "|||||", "started", "started|1|x", "undo|", "undo|99999999999", "undo|99", "é|1|1"]
)
def test_a_tap_that_can_t_be_read_is_refused(client, clock, tap):
    assert client.send(f"/coating/jobs/{a_job()}/acts", tap=tap).status_code in (404, 422)


def test_weather_is_read_in_the_persons_words_and_kept_as_typed(client, clock):
    boxes = {"air_c": "68 F", "metal_c": "17.5", "relative_humidity": "60 %"}
    client.send(f"/coating/jobs/{a_job()}/acts", tap="weather", **boxes)

    (act,) = acts()
    # 68 F is 20 C by definition of the scale.
    assert act.figures["air_c"] == pytest.approx(20.0)
    assert act.figures["relative_humidity"] == pytest.approx(0.6)
    assert act.figures["air_c_typed"] == "68 F"


def test_a_humidity_of_a_hundred_and_one_is_told_beside_its_box(client, clock):
    answer = client.send(f"/coating/jobs/{a_job()}/acts", tap="weather", relative_humidity="101 %")

    assert answer.status_code == 422
    assert 'id="relative_humidity-said"' in answer.text
    assert acts() == []


def test_nothing_new_is_answered_with_one_row_read(client, clock, count_queries):
    job_id = a_job()
    first = client.get(f"/coating/jobs/{job_id}/now")
    seen = re.search(r'data-seen="([^"]+)"', first.text)[1]

    with count_queries() as asked:
        answer = client.get(f"/coating/jobs/{job_id}/now?seen={seen}")

    assert (answer.status_code, answer.text) == (204, "")
    # Who sits at the screen, and the job's number: both by key.
    assert len(asked) == 2
    assert float(answer.headers["Yard-Time"]) == pytest.approx(clock().timestamp(), abs=0.001)


def test_another_phones_tap_is_news(client, client_as, clock):
    job_id = a_job()
    seen = re.search(r'data-seen="([^"]+)"', client.get(f"/coating/jobs/{job_id}/now").text)[1]

    client_as("Finn Marsh", "hand").send(f"/coating/jobs/{job_id}/acts", tap=f"started|1|{COAT_1}")

    answer = client.get(f"/coating/jobs/{job_id}/now?seen={seen}")
    assert answer.status_code == 200
    assert "Finn Marsh" in answer.text


def test_a_window_that_opens_by_itself_is_news(client, clock):
    job_id = a_job()
    with transaction() as session:
        read_weather(session, job_id)
        mix(session, job_id)
        tap(session, job_id, "started", "1", COAT_1)
        clock.later(minutes=5)
        tap(session, job_id, "done", "1", COAT_1)
    seen = re.search(r'data-seen="([^"]+)"', client.get(f"/coating/jobs/{job_id}/now").text)[1]
    assert client.get(f"/coating/jobs/{job_id}/now?seen={seen}").status_code == 204

    clock.later(minutes=21)

    assert client.get(f"/coating/jobs/{job_id}/now?seen={seen}").status_code == 200


@pytest.mark.parametrize("seen", ["", ".", "x", "1", "1.x", "9.9", "\u0662."])
def test_what_no_phone_can_have_seen_is_answered_whole(client, clock, seen):
    answer = client.get(f"/coating/jobs/{a_job()}/now", query_string={"seen": seen})

    assert answer.status_code in (200, 204)


def test_owners_watch_no_job(client_as, clock):
    owner = client_as("R. Thorne", "owner")
    job_id = a_job()

    assert owner.get(f"/coating/jobs/{job_id}").status_code == 403
    assert owner.get(f"/coating/jobs/{job_id}/now").status_code == 403
    assert owner.get("/coating/systems").status_code == 403


def test_an_act_is_put_right_from_the_log(client, fetch, clock):
    job_id = a_job()
    client.send(f"/coating/jobs/{job_id}/acts", tap="weather", air_c="20", metal_c="12", relative_humidity="50")
    assert "Weather: air 20.0 °C, metal 12.0 °C" in fetch(f"/coating/jobs/{job_id}/log", queries=4)
    page = fetch("/coating/acts/1/correct", queries=5)
    assert 'value="12' in page

    at = clock().astimezone().strftime("%Y-%m-%dT%H:%M:%S")
    boxes = {"air_c": "20", "metal_c": "21", "relative_humidity": "50 %", "why": "misread"}
    answer = client.send("/coating/acts/1/correct", at=at, **boxes)

    assert answer.status_code == 303
    text = client.get(f"/coating/jobs/{job_id}/log").text
    assert "metal 21.0" in text
    assert "<s" in text
    assert "misread" in text


def test_a_job_is_closed_and_opened_again(client, clock):
    job_id = a_job()
    client.send(f"/coating/jobs/{job_id}/close", is_used="close")
    assert "This job is closed" in client.get(f"/coating/jobs/{job_id}").text

    client.send(f"/coating/jobs/{job_id}/close", is_used="open")

    with snapshot() as session:
        assert session.scalars(select(Job.is_open)).one()


def propeller():
    with transaction() as session:
        item = make_propeller(session)
        blades = gear.Said(what="blades", basis="measured", value=3, u_value=0.0)
        gear.note_evidence(session, make_who(session), item.tag, blades)
        return item.tag


def test_whoever_opens_the_history_of_a_foul_release_coat_is_told(fetch, client_as, clock):
    tag = propeller()
    assert "Nothing was coated" in fetch(f"/coating/items/{tag}", queries=5)
    with transaction() as session:
        job = make_job(session, tag=tag)
        coat_whole(session, job, clock, ("1.1", "1.2", "1.3"))

    text = fetch(f"/coating/items/{tag}", queries=5)

    assert "later paint will not hold" in text
    assert "every window met" in text
    assert f"/coating/items/{tag}" in fetch(f"/propellers/{tag}", queries=5)


def test_a_coat_is_rated_blade_by_blade_at_haul_out(client, fetch, clock):
    tag = propeller()
    with transaction() as session:
        job = make_job(session, tag=tag)
        coat_whole(session, job, clock, ("1.1", "1.2", "1.3"))
    fetch("/coating/pieces/1/rate", queries=5)
    clock.later(days=200)

    answer = client.send("/coating/pieces/1/rate", word_1="slime", word_3="shell few", note="port side")

    assert answer.status_code == 303
    text = fetch(f"/coating/items/{tag}", queries=5)
    assert re.search(r">blade 1 slime<.*>blade 3 shell few<", text)


def test_a_rating_that_says_nothing_is_refused(client, clock):
    tag = propeller()
    with transaction() as session:
        make_job(session, tag=tag)

    answer = client.send("/coating/pieces/1/rate")

    assert answer.status_code == 422
    assert "one blade at least" in answer.text


def test_lives_are_told_with_their_count(fetch, clock):
    assert "Every coat that is finished counts here" in fetch("/coating/lives")
    with transaction() as session:
        coat_whole(session, make_job(session), clock)

    assert "1 coat of this yard" in fetch("/coating/lives", queries=4)
    assert "None of them has been noted as in the water yet" in fetch("/coating/lives?by=windows", queries=4)


def test_a_coat_lives_from_the_water_until_it_is_found_gone(client, fetch, clock):
    with transaction() as session:
        job = make_job(session)
        coat_whole(session, job, clock)
        clock.later(days=2)
    client.send(f"/coating/jobs/{job.id}/acts", tap="launched")
    clock.later(days=300)

    client.send("/coating/pieces/1/rate", word_1="coating gone")

    assert "ended after 10 months" in fetch("/coating/pieces/1", queries=4)
    text = fetch("/coating/lives", queries=4)
    assert "Clear over primer, brush" in text
    assert "10 months to 10 months" in text
    assert "<svg" in text


def test_a_job_keeps_the_version_of_the_system_that_it_ran_on(client, clock):
    job_id = a_job()
    with transaction() as session:
        who = make_who(session)
        page = coating.system_page(session, who, 1)
        changed = coating.system_page(session, who, 1).newest.system
        coating.change_system(session, who, 1, page.number, dataclasses.replace(changed, notes="new tin"))
        story = coating.story_of(session, who, job_id)

    assert story.system.version == 1
    assert "new tin" not in story.system.notes
    assert make_system


def test_two_coat_at_once_and_each_card_has_its_own_tap(fetch, clock):
    job = a_job(blades=3, people=2)
    with transaction() as session:
        read_weather(session, job)
        mix(session, job)
        tap(session, job, "started", "1", COAT_1)

    text = fetch(f"/coating/jobs/{job}", queries=5)

    # The page asks for the second blade to be begun; the first is done with one tap all the same.
    assert f'value="started|2|{COAT_1}"' in text
    card = text[text.index('running-unit-label">Bracket 1') : text.index('running-unit-label">Bracket 2')]
    assert f'value="done|1|{COAT_1}"' in card


def test_weather_that_is_due_is_one_tap_away(fetch, clock):
    job = a_job()

    assert '<a class="act act-main" href="#weather-box">Type the reading</a>' in fetch(
        f"/coating/jobs/{job}", queries=5
    )


def test_the_log_draws_each_blade_against_time(fetch, clock):
    with transaction() as session:
        job = make_job(session)
        coat_whole(session, job, clock)

    text = fetch(f"/coating/jobs/{job.id}/log", queries=5)

    assert "<svg" in text
    assert "Each blade against time" in text


def test_what_is_on_says_when_the_next_is_due_and_by_what(client, fetch, clock):
    with transaction() as session:
        job = make_job(session, title="Kittiwake")
        coat_whole(session, job, clock)
        clock.later(days=2)
    client.send(f"/coating/jobs/{job.id}/acts", tap="launched")

    text = fetch("/coating/lives", queries=4)

    assert "Next due" in text
    assert "nobody looked" in text
    assert "Too few have ended to name a middle" in text


def test_a_system_says_what_film_and_solids_come_to(fetch, register):
    with transaction() as session:
        system = make_system(session)

    text = fetch(f"/coating/systems/{system}", queries=4)

    # 50 um dry at half solids: 100 um wet, and 10 m2 a litre (10 x 50 / 50).
    assert re.search(r"50 µm</td>.*?100 µm</td>.*?100 µm</td>.*?10 m²", text, re.DOTALL)
