import re
from datetime import date

import pytest

from tests.factories.coating import COAT_1, coat_whole, make_job, make_system, mix, read_weather, tap
from tests.factories.gear import make_propeller
from tests.factories.people import make_who
from yardapp.coating import services as coating
from yardapp.db import snapshot, transaction
from yardapp.gear import services as gear

ML = 1e-6


@pytest.fixture
def job(register, clock):
    """A job of 0.3 m2 in three brackets, on stock of base, hardener and clear coat."""
    with transaction() as session:
        who = make_who(session)
        for part, batch, volume in (("Base", "B7", 400), ("Hardener", "H2", 60)):
            said = {"product": "Primer", "part": part, "batch": batch, "volume_m3": volume * ML}
            coating.add_tin(session, who, said | {"expires_on": date(2027, 1, 1)})
        coating.add_tin(session, who, {"product": "Clear", "batch": "C1", "volume_m3": 250 * ML})
        made = make_job(session, system_id=make_system(session), blades=3)
        read_weather(session, made.id)
        return made.id


def send(client, job, tap_, **boxes):
    return client.send(f"/coating/jobs/{job}/acts", tap=tap_, **boxes)


def test_the_stock_says_what_it_would_make_and_cover(job, fetch):
    text = fetch("/coating/stock")

    # Four to one: 60 ml of hardener make 300 ml; 100 um wet and a fifth lost, that is 2.4 m2.
    assert "300 ml; more Hardener would make more" in text
    assert "2.4 m²" in text
    assert "1 Jan 2027" in text


def test_mixing_on_the_page_beside_the_boat_takes_from_stock_and_the_tin_says_for_which_job(job, client, fetch):
    send(client, job, "mixed", product="Primer", volume_m3="100 ml")

    with snapshot() as session:
        base = next(tin for tin in coating.tins(session, make_who(session)) if tin.batch == "B7")
    text = fetch(f"/coating/stock/{base.id}")
    assert "80 ml taken: Kittiwake" in text
    assert "Put in stock with 400 ml" in text


def test_a_rest_says_what_became_of_it_and_what_it_would_cover(job, client, fetch):
    with transaction() as session:
        make_job(session, system_id=1, title="Small things")
    send(client, job, "mixed", product="Primer", volume_m3="100 ml")

    text = fetch(f"/coating/jobs/{job}/product", queries=5)

    assert "80 ml from Base, batch B7" in text
    # 100 ml at 100 um wet, a fifth lost.
    assert "0.8 m² by volume" in text
    assert "Bracket 1 (Small things)" in text

    send(client, job, "left over", product="Primer", volume_m3="20 ml", fate="thrown out", note="set in the cup")
    text = fetch(f"/coating/jobs/{job}/product", queries=5)
    assert "Primer left over: 20 ml, thrown out" in text
    assert "Nothing stands mixed" in text


def test_a_mixed_rest_that_should_go_back_is_refused_beside_its_box(job, client):
    send(client, job, "mixed", product="Primer", volume_m3="100 ml")

    answer = send(client, job, "left over", product="Primer", volume_m3="20 ml", fate="back in its tin")

    assert answer.status_code == 422
    assert "in its tin it would set" in answer.text


def test_one_tap_mixes_what_the_coats_to_come_need(job, client, fetch, clock):
    send(client, job, "stirring", product="Primer")

    text = fetch(f"/coating/jobs/{job}", queries=5)

    # Three brackets of 0.1 m2, two coats of 100 um wet, a fifth lost: 75 ml, all within its pot life.
    assert "Mixed 75 ml" in text
    value = re.search(r'value="(mixed[^"]*\|75)"', text)[1]
    assert send(client, job, value).status_code == 303
    with snapshot() as session:
        tins = {tin.batch: tin.volume_m3 for tin in coating.tins(session, make_who(session))}
    assert (round(tins["B7"] / ML), round(tins["H2"] / ML)) == (340, 45)


def test_a_plan_names_the_pieces_onto_which_a_rest_would_go(job, client):
    boxes = {
        "system_id": "1", "people": "1", "way": "brush", "blade_s": "5", "metal_c": "20",
        "pieces-0-kind": "bracket", "pieces-0-name": "Port bracket", "pieces-0-area_m2": "0.1",
    }  # fmt: skip
    with transaction() as session:
        make_job(session, system_id=1, title="Small things")

    text = client.send("/coating/plan/look", **boxes).text

    # A kit of 250 ml less 25 ml: 1.8 m2, and two hours at 0.1 m2 in 5 minutes.
    assert "The rest of Primer would do" in text
    assert "Bracket 1 (Small things)" in text


def test_a_thing_that_is_coated_already_waits_for_no_rest_of_its_own(job):
    with transaction() as session:
        tag = make_propeller(session).tag
        make_job(session, system_id=1, tag=tag, title="Twice planned")
        item = gear.item_by_tag(session, make_who(session), tag)
        labels = [piece.label for piece in coating.waiting_pieces(session, 1, but=[item.id])]

    assert not any(label.startswith(tag) for label in labels)
    assert len(labels) == 3


def test_what_is_begun_or_finished_takes_no_rest(job, client, clock):
    with transaction() as session:
        begun = make_job(session, system_id=1, title="Begun")
        tap(session, begun.id, "started", "1", COAT_1)
        over = make_job(session, system_id=1, title="Over")
        coat_whole(session, over, clock)

    with snapshot() as session:
        labels = [piece.label for piece in coating.waiting_pieces(session, 1)]

    assert labels == ["Bracket 1 (Kittiwake)", "Bracket 2 (Kittiwake)", "Bracket 3 (Kittiwake)"]


def test_mixing_without_an_amount_leaves_the_stock_and_says_so(job, client, fetch):
    with transaction() as session:
        mix(session, job)

    text = fetch(f"/coating/jobs/{job}/product", queries=5)

    assert "Primer mixed: amount not said" in text
