"""The invented yard: it holds what people could have entered, it can be walked through, and nothing real is touched."""

import re
from collections import Counter, deque
from datetime import timedelta
from html import unescape

import pytest
from sqlalchemy import func, select

from tests.conftest import _empty, check_page
from tests.processes import Browser, run, serving
from yardapp import create_app, db, tables
from yardapp.coating import services as coating
from yardapp.config import Settings
from yardapp.example import EXAMPLE_PEOPLE, build
from yardapp.gear import services as gear
from yardapp.gear.figures import figures_of
from yardapp.people import services as people
from yardapp.relaunch import services as relaunch
from yardapp.vessels import services as vessels

Item, Sheet = tables.gear.Item, tables.bench.Sheet


@pytest.fixture(scope="module")
def made(tmp_path_factory):
    """The data folder in which `yardapp example` made its yard, and what it printed."""
    folder = tmp_path_factory.mktemp("example")
    done = run("example", "--data", folder)
    assert done.returncode == 0, done.stderr
    return folder, done.stdout


@pytest.fixture
def example(made):
    """A session on the invented yard, read only."""
    engine = db.open_register(f"sqlite:///{made[0] / 'example' / 'register.sqlite'}")
    with db.snapshot() as session:
        yield session
    engine.dispose()


def count(session, column, *where):
    return session.scalar(select(func.count(column)).where(*where))


def who(session, name):
    person = people.person_named(session, name)
    return people.Who(person_id=person.id, name=person.name, role=person.role)


def test_it_lies_beside_the_real_register_and_makes_none(made):
    folder, _said = made

    assert (folder / "example" / "register.sqlite").is_file()
    assert not (folder / "register.sqlite").exists()


def test_it_is_large_enough_to_lose_oneself_in(example):
    assert count(example, Item.id, Item.kind == "propeller") >= 120
    assert count(example, Item.id, Item.kind == "shaft") >= 15
    assert count(example, tables.vessels.Vessel.id) >= 30
    assert count(example, Sheet.id) >= 100
    assert count(example, tables.marks.Mark.id) >= 100


def test_it_has_what_a_yard_has(example):
    happened = set(example.scalars(select(tables.gear.Event.kind).distinct()))
    to_boats = set(example.scalars(select(tables.vessels.Happening.kind).distinct()))
    bores = set(example.scalars(select(Item.bore_kind).distinct()))

    moves = {"logged", "went on", "came off", "moved", "to shop", "lent", "sold", "scrapped", "lost", "found"}
    moves |= {"joined set", "chased", "declined"}
    assert happened >= moves | {"re-pitched", "cut down", "straightened", "re-bored", "keyed"}
    assert to_boats >= {"logged", "renamed", "changed hands", "re-engined", "changed"}
    assert bores >= {"taper", "parallel", "pilot", None}
    assert set(example.scalars(select(Sheet.method).distinct())) >= {"pitch", "diameter", "bore", "survey"}


def test_it_has_parts_a_set_a_map_and_something_late(example):
    ada = who(example, "Ada Brook")
    kinds = set(example.scalars(select(Item.kind).distinct()))

    assert kinds >= {"nut", "lock", "key", "cutter", "anode", "bearing", "bracket", "coupling", "gland", "other"}
    assert gear.count_late(example, ada, db.now().date()) == 1
    assert sum(one.count for one in gear.rack_map(example, ada)) >= 50
    assert count(example, Item.id, Item.set_id.is_not(None)) == 4


def test_it_has_blank_tags_of_which_some_hang_and_one_hangs_on_what_was_sold(example):
    ada = who(example, "Ada Brook")
    printed = example.scalars(select(tables.gear_tags.BlankTag.tag).order_by(tables.gear_tags.BlankTag.id)).all()
    bound = set(printed) & set(example.scalars(select(Item.tag)))
    (back,) = [tag for tag in bound if gear.seen_before(example, ada, tag).found]
    found = gear.seen_before(example, ada, back)

    assert (len(printed), len(bound)) == (68, 2)
    assert [(one.row.where, one.is_gone) for one in found.found][:1] == [("sold", True)]
    assert "stamp" in found.found[0].like.agreed
    assert found.photo
    assert found.found[0].photo


def test_it_has_a_blade_before_and_after_with_arrows_to_where_to_look(example):
    ada = who(example, "Ada Brook")
    (marked,) = set(example.scalars(select(tables.gear_photos.PhotoMark.photo_id)))
    before = gear.photo_page(example, ada, marked)
    _item, photos = gear.photos_of(example, ada, before.item.tag)

    assert [mark.kind for mark in before.marks] == ["arrow", "arrow", "circle"]
    assert [one.photo.caption for one in photos] == ["blade 2 before straightening", "blade 2 after straightening"]


def test_it_has_doubts_and_gaps(example):
    items = example.scalars(select(Item).where(Item.kind == "propeller")).all()
    doubted = {one["what"] for item in items for one in item.odds}
    unknown = {figure.name for figure in figures_of("propeller") for item in items if figure.name not in item.known}

    assert doubted >= {"hand", "diameter_m", "pitch_m", "bore_large_m", "blades"}
    assert unknown == {figure.name for figure in figures_of("propeller")}
    assert any(item.known == {} or set(item.known) <= {"stamp"} for item in items)


def test_a_boat_is_found_under_every_name_and_owner_she_had(example):
    ada = who(example, "Ada Brook")
    for word in ("Mild", "Great", "No Surprise"):
        assert [boat.name for boat in vessels.search_vessels(example, ada, word.split())] == ["No Surprise"]
    assert [boat.owner for boat in vessels.search_vessels(example, ada, ["Whistledown"])] == ["B. Quillfeather"]


def test_the_owner_sees_the_own_boat_and_what_was_on_her_alone(example):
    thorne = who(example, "R. Thorne")

    assert [boat.name for boat in vessels.search_vessels(example, thorne, ["Biscuit"])] == ["Old Biscuit"]
    assert vessels.search_vessels(example, thorne, ["Walrus"]) == []
    rows, _further = gear.rack(example, thorne)
    assert 3 <= len(rows) <= 6
    assert [row.is_proposed for row in rows].count(True) == 1


def test_the_spare_of_the_wrong_hand_says_so_in_three_ways(example):
    ada = who(example, "Ada Brook")
    (row,) = [row for row in gear.search(example, ada, "Upside Clover") if row.is_at_odds]
    item = gear.item_by_tag(example, ada, row.tag)

    assert (item.hand, item.stamp) == ("right", "23 x 21 LH 4")
    assert "never for that shaft" in item.note
    assert "hand" in {one["what"] for one in item.odds}


def test_it_is_sound(made):
    done = run("check", "--data", made[0] / "example")

    assert (done.returncode, done.stderr) == (0, "")
    assert "11 photos looked at." in done.stdout


def test_making_it_again_changes_nothing(made):
    again = run("example", "--data", made[0])

    assert again.returncode == 0
    assert "Making" in made[1]
    assert "Making" not in again.stdout
    assert EXAMPLE_PEOPLE[0].password in again.stdout


def figures(session):
    rows = session.scalars(select(Item).order_by(Item.id))
    return [
        (item.tag, item.place, item.words, item.known, [round(getattr(item, name) or 0, 9) for name in SIZES])
        for item in rows
    ]


SIZES = ("diameter_m", "u_diameter_m", "pitch_m", "bore_large_m", "bore_small_m", "taper", "keyway_width_m")


def test_nothing_in_it_is_left_to_chance(example, postgres_url, tmp_path):
    first = figures(example)
    _empty(postgres_url)
    engine = db.open_register(postgres_url)

    with db.transaction() as session:
        build(session, tmp_path / "photos")
        second = figures(session)

    engine.dispose()
    assert second == first


@pytest.fixture
def pages(made):
    """The web app over the invented yard."""
    folder = made[0] / "example"
    app = create_app(Settings(data=folder, database_url=f"sqlite:///{folder / 'register.sqlite'}", secret_key="a"))
    app.testing = True
    yield app
    if db.Register.engine is not None:
        db.Register.engine.dispose()


def signed_in(app, name):
    client = app.test_client()
    with db.transaction() as session:
        person = next(one for one in EXAMPLE_PEOPLE if one.name == name)
        entered = people.enter(session, name=name, password=person.password, address="", label="a test")
    with client.session_transaction() as kept:
        kept["device"] = entered.token
    return client


@pytest.mark.parametrize(
    ("name", "alike", "least"), [("Ada Brook", 8, 700), ("Finn Marsh", 2, 400), ("R. Thorne", 99, 200)]
)
def test_no_link_of_the_yard_leads_nowhere(pages, name, alike, least):
    """From the first page on, every link that is offered; of addresses that differ in numbers and tags only, some."""
    client, seen, met = signed_in(pages, name), {"/", "/rack"}, Counter()
    waiting = deque(seen)
    while waiting:
        address = waiting.popleft()
        answer = client.get(address)
        assert answer.status_code in (200, 302, 303), (answer.status_code, address)
        if answer.status_code != 200 or "html" not in (answer.content_type or ""):
            continue
        if not address.startswith("/api/"):
            check_page(answer.text)
        for found in re.findall(r'href="(/[^"#]*)', answer.text):
            onward = unescape(found)
            met[shape_of(onward)] += onward not in seen
            if onward not in seen and met[shape_of(onward)] <= alike and not onward.startswith("/static"):
                seen.add(onward)
                waiting.append(onward)

    assert len(seen) >= least


def shape_of(address):
    path, _, asked = address.partition("?")
    return re.sub(r"[A-Z]+-\d+|\d+", "1", path), bool(asked)


def test_a_photo_is_shown_on_its_page_and_served(pages):
    client = signed_in(pages, "Finn Marsh")
    with db.snapshot() as session:
        photo = session.scalars(select(tables.gear.Photo)).first()
        tag = session.get_one(Item, photo.item_id).tag

    shown = client.get(f"/propellers/{tag}")
    picture = client.get(f"/photos/{photo.sha256}")

    assert f"/photos/{photo.sha256}" in shown.text
    assert (picture.status_code, picture.data[:3]) == (200, b"\xff\xd8\xff")
    picture.close()


def test_serve_example_opens_it_to_all_three_with_what_it_printed(made):
    folder, _said = made
    with serving(folder, "--example") as server:
        printed = re.findall(
            r"^ {4}(\S.*?) +(office|hand|owner) +password: (.*?) +PIN afterwards: (\d+)$", server.said, re.M
        )
        assert [role for _name, role, _password, _pin in printed] == ["office", "hand", "owner"]
        for name, role, password, _pin in printed:
            browser = Browser(server)
            rack = browser.send("/people/enter", name=name, password=password)
            assert rack.address.startswith("/rack"), rack.text
            tags = tags_of(browser)
            assert 3 <= len(tags) < 10 if role == "owner" else len(tags) >= 120
    assert "Nobody runs this yard" not in server.said
    assert not (folder / "register.sqlite").exists()


def tags_of(browser):
    """Every propeller of the rack, page by page."""
    tags, address = set(), "/rack"
    while address:
        text = browser.get(address).text
        tags.update(re.findall(r"/propellers/(P-\d{4})", text))
        further = re.search(r'href="(/rack\?[^"]*before=\d+)"', text)
        address = unescape(further[1]) if further else None
    return tags


def test_serve_example_leaves_a_real_database_alone(made, tmp_path):
    real = f"sqlite:///{tmp_path / 'real.sqlite'}"

    with serving(made[0], "--example", env={"YARDAPP_DATABASE_URL": real}) as server:
        assert Browser(server).get("/").address == "/people/enter"

    assert not (tmp_path / "real.sqlite").exists()


def test_coating_has_years_behind_it_one_job_planned_and_one_on_the_clock(example):
    ada = who(example, "Ada Brook")
    coated = coating.coatings(example, ada)
    planned, running = (coating.story_of(example, ada, row.id) for row in _open_jobs(example, ada))

    assert sum(row.ended is not None for row in coated) >= 3
    assert any(row.crossed_out for row in coated)
    assert planned.acts == []
    assert {piece.kind for piece in planned.pieces} == {"propeller", "shaft", "bracket", "transducer"}
    assert running.run.faults == ()
    last = max(act.at for act in running.acts)
    assert timedelta(0) < db.now() - last < timedelta(minutes=45)
    assert all(unit.coats(running.system) and unit.next is not None for unit in running.run.units)
    assert {act.figures["batch"] for act in running.acts if act.kind == "mixed"} == {"PB-114 / PH-62"}


def _open_jobs(session, ada):
    return sorted(coating.jobs(session, ada, is_open=True), key=lambda row: row.id)


def test_one_boat_is_ready_to_go_in_one_is_held_back_and_one_is_afloat_with_more_to_look_at(example):
    afloat, ready, held = relaunch.board(example, who(example, "Ada Brook"))

    assert (afloat.next_release, len(afloat.follow_ups)) == (None, 4)
    assert (ready.next_release, ready.in_the_way, ready.stops) == ("to launch", [], ())
    assert [fault.what for fault in held.stops] == ["Crack at the root of blade 3"]
    assert held.who_has_it["Ivy Plank"] == 1
