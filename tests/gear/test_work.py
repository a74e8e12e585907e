"""Work: as found and as left, by whom, what it cost, its papers, and what was declined."""

import io

import pytest
from PIL import Image
from sqlalchemy import select

from tests.factories.gear import make_propeller
from tests.factories.people import make_who
from yardapp.db import snapshot, transaction
from yardapp.errors import Refused
from yardapp.gear import services as gear
from yardapp.gear.figures import WORK
from yardapp.gear.models import Event, Item, Paper, Photo

PDF = b"%PDF-1.4\n%%EOF\n"


def test_propeller_back_from_the_shop_with_a_new_pitch(client, fetch):
    client.send("/log", place="Rack C", stamp="22 x 18 RH")
    client.send("/items/P-0001/move", kind="to shop", place="the shop at the bridge")
    client.send("/items/P-0001/move", kind="back from shop", place="Bench 1")

    client.send(
        "/items/P-0001/work",
        kind="re-pitched",
        by_whom="the shop at the bridge",
        cost="240.00",
        found_pitch_m="17 3/4 in",
        pitch_m="17 in",
        basis="paper",
    )

    # 17 times 25.4 mm.
    with snapshot() as session:
        item = session.scalars(select(Item)).one()
        assert (item.pitch_m, item.known["pitch_m"], item.odds) == (pytest.approx(0.4318), "paper", [])
    html = fetch("/items/P-0001/works")
    for said in ("Re-pitched by the shop at the bridge", "240.00", "As found", "450.8", "431.8"):
        assert said in html
    assert "as found, re-pitched" in fetch("/items/P-0001/figures/pitch_m")


@pytest.mark.parametrize("kind", WORK)
def test_every_kind_of_work_is_written_down(register, kind):
    with transaction() as session:
        item = make_propeller(session)
        gear.record_work(session, make_who(session), item.tag, kind)

        assert session.scalars(select(Event.kind).order_by(Event.id.desc())).first() == kind


@pytest.mark.parametrize(
    ("kind", "silent"),
    [("cut down", "diameter_m"), ("bored", "bore_large_m"), ("welded", "pitch_m"), ("re-pitched", "pitch_m")],
)
def test_what_a_work_changes_no_longer_speaks(register, kind, silent):
    with transaction() as session:
        item = make_propeller(session)
        gear.record_work(session, make_who(session), item.tag, kind)

        assert getattr(item, silent) is None


@pytest.mark.parametrize("kind", ["inspected", "polished", "re-stamped"])
def test_what_a_work_does_not_change_goes_on_speaking(register, kind):
    with transaction() as session:
        item = make_propeller(session)
        gear.record_work(session, make_who(session), item.tag, kind)

        assert (item.diameter_m, item.pitch_m) == (0.559, 0.457)


def test_papers_and_photos_lie_with_their_work(client, fetch, app):
    with transaction() as session:
        tag = make_propeller(session).tag
    buffer = io.BytesIO()
    Image.new("RGB", (40, 30)).save(buffer, "JPEG")
    buffer.seek(0)

    answer = client.send(
        f"/items/{tag}/work", kind="welded", papers=[(io.BytesIO(PDF), "bill 12.pdf"), (buffer, "after.jpg")]
    )

    html = fetch(answer.headers["Location"])
    assert "bill 12.pdf" in html
    assert "after.jpg" in html
    with snapshot() as session:
        sha256 = session.scalars(select(Paper.sha256).where(Paper.kind == "pdf")).one()
        assert session.scalars(select(Photo.caption)).all() == ["welded"]
    with client.get(f"/papers/{sha256}") as document:
        assert (document.mimetype, document.data) == ("application/pdf", PDF)
    assert client.get(f"/papers/{'0' * 64}").status_code == 404


def test_a_paper_that_is_neither_is_refused_and_nothing_is_saved(client):
    with transaction() as session:
        tag = make_propeller(session).tag

    answer = client.send(f"/items/{tag}/work", kind="welded", papers=(io.BytesIO(b"MZ"), "virus.exe"))

    assert answer.status_code == 422
    with snapshot() as session:
        assert session.scalars(select(Event.kind)).all() == ["logged"]


def test_an_owner_sees_no_paper_of_another_s(client, client_as):
    with transaction() as session:
        tag = make_propeller(session).tag
    client.send(f"/items/{tag}/work", kind="welded", papers=(io.BytesIO(PDF), "bill.pdf"))
    with snapshot() as session:
        sha256 = session.scalars(select(Paper.sha256)).one()

    assert client_as("R. Thorne", "owner").get(f"/papers/{sha256}").status_code == 404


def test_a_new_stamp_is_read_when_it_is_stamped_again(client, fetch):
    client.send("/log", place="Rack C", stamp="22 x 18 RH")

    client.send("/items/P-0001/work", kind="re-stamped", stamp="22 x 17 RH")

    assert "22 x 17 RH" in fetch("/propellers/P-0001")


def test_what_the_owner_declined_is_kept_with_name_and_date(client, fetch):
    with transaction() as session:
        tag = make_propeller(session).tag
    fetch(f"/items/{tag}/declined")
    nameless = client.send(f"/items/{tag}/declined", offered="Balance it", declined_by="")

    client.send(
        f"/items/{tag}/declined",
        offered="Weld the crack at blade 2",
        declined_by="R. Thorne",
        declined_on="2026-03-02",
        why="sells her in spring",
    )

    assert nameless.status_code == 422
    for html in (fetch(f"/propellers/{tag}"), fetch(f"/items/{tag}/works")):
        for said in ("Declined by R. Thorne", "2 Mar 2026", "Weld the crack at blade 2", "sells her in spring"):
            assert said in html


def test_work_that_has_not_been_done_yet_is_refused(register):
    with transaction() as session:
        who, tag = make_who(session), make_propeller(session).tag

        with pytest.raises(Refused, match="is none of"):
            gear.record_work(session, who, tag, "gilded")
        with pytest.raises(Refused, match="What was offered"):
            gear.decline_work(session, who, tag, offered=" ", declined_by="R. Thorne")


@pytest.mark.parametrize("kind", ["shaft", "anode", "gland"])
def test_the_work_page_asks_only_for_figures_that_the_thing_has(fetch, kind):
    with transaction() as session:
        tag = gear.log_item(session, make_who(session), kind=kind, place="Rack S").tag

    html = fetch(f"/items/{tag}/work")

    assert 'name="pitch_m"' not in html
    assert ('name="mass_kg"' in html) == (kind == "anode")
