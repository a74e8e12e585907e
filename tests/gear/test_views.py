import io
import sys

import pytest
from PIL import Image
from sqlalchemy import func, select

from tests.factories.gear import make_propeller
from tests.factories.people import make_who
from tests.factories.vessels import make_drive
from yardapp.db import snapshot, transaction
from yardapp.gear import services as gear
from yardapp.gear.models import Evidence, Item, Photo


def picture(kind="JPEG", size=(64, 48), name="hub.jpg"):
    buffer = io.BytesIO()
    Image.new("RGB", size, (120, 90, 40)).save(buffer, kind)
    buffer.seek(0)
    return buffer, name


def count(table):
    with snapshot() as session:
        return session.scalar(select(func.count(table.id)))


def logged(session=None, **said):
    with transaction() as session:
        return make_propeller(session, **said).tag


def test_six_boxes_and_only_the_place_is_needed(client, fetch):
    html = fetch("/log")
    first_screen = html.split("<details")[0]

    assert first_screen.count("field-must") + html.split("</details>")[1].count("field-must") == 1
    assert client.send("/log", place="Rack C").status_code == 303


def test_everything_seen_in_the_first_minute_is_kept(client, fetch):
    answer = client.send(
        "/log",
        photo=picture(),
        hand="right",
        stamp="22 x 18 RH",
        diameter_m='22"',
        blades="3",
        place="Rack C, bin 7",
        note="dinged at one tip",
    )

    assert answer.headers["Location"] == "/propellers/P-0001"
    html = fetch("/propellers/P-0001")
    for said in ("P-0001", "22 x 18 RH", "Rack C, bin 7", "dinged at one tip", "Right", "558.8 ± 5.0"):
        assert said in html
    assert count(Photo) == 1


def test_a_retry_with_the_same_token_saves_once_and_gets_the_same_answer(client):
    first = client.send("/log", once="the-same", place="Rack C")
    again = client.send("/log", once="the-same", place="Rack C")

    assert first.headers["Location"] == again.headers["Location"]
    assert count(Item) == 1


def test_an_unreadable_size_is_told_beside_its_box_with_everything_typed_still_there(client):
    answer = client.send("/log", diameter_m="23..5", stamp="22 x ?8", place="Rack C", note="from the <pier>")

    assert answer.status_code == 422
    assert "`23..5` is not" in answer.text
    for typed in ('value="23..5"', 'value="22 x ?8"', 'value="Rack C"', "from the &lt;pier&gt;"):
        assert typed in answer.text
    assert count(Item) == 0


def test_22_in_a_metric_box_is_too_small_for_a_propeller_and_says_so(client):
    answer = client.send("/log", diameter_m="22", place="Rack C")

    assert answer.status_code == 422
    assert "22" in answer.text
    assert count(Item) == 0


@pytest.mark.parametrize(
    ("file", "said"),
    [
        ((io.BytesIO(b"%PDF-1.7 not a photo"), "paper.pdf"), "no photo that can be read"),
        ((io.BytesIO(b""), "empty.jpg"), "no photo that can be read"),
        ((io.BytesIO(b"\xff\xd8\xff" + b"0" * (41 * 1024 * 1024)), "huge.jpg"), "over 40 MB"),
    ],
)
def test_a_photo_that_is_none_is_refused_and_the_rest_of_the_form_is_kept(client, file, said):
    content, name = file

    answer = client.send("/log", photo=(io.BytesIO(content.getvalue()), name), place="Rack C", stamp="22 x 18")

    assert answer.status_code == 422
    assert said in answer.text
    assert 'value="22 x 18"' in answer.text
    assert count(Item) == 0


def test_a_photo_that_is_none_is_refused_without_the_library_for_heic_too(client, monkeypatch):
    monkeypatch.setitem(sys.modules, "pillow_heif", None)

    answer = client.send("/log", photo=(io.BytesIO(b"no photo"), "x.heic"), place="Rack C")

    assert answer.status_code == 422
    assert "JPEG, PNG or WebP will do" in answer.text


def test_a_picture_that_claims_400_million_points_is_not_opened(client):
    buffer = io.BytesIO()
    Image.new("1", (20000, 20000)).save(buffer, "PNG")
    buffer.seek(0)

    answer = client.send("/log", photo=(buffer, "bomb.png"), place="Rack C")

    assert answer.status_code == 422
    assert "60 million" in answer.text


def test_60_megabytes_are_refused_with_the_reason(client):
    answer = client.send("/log", photo=(io.BytesIO(b"0" * (60 * 1024 * 1024)), "huge.jpg"), place="Rack C")

    assert answer.status_code == 413
    assert "50 MB" in answer.text


def test_a_good_photo_survives_a_bad_size_in_the_same_form(client):
    refused = client.send("/log", photo=picture(), diameter_m="23..5", place="Rack C")
    kept = refused.text.split('name="photo_kept" value="')[1][:64]

    client.send("/log", photo_kept=kept, diameter_m="23.5 in", place="Rack C")

    assert count(Photo) == 1
    with client.get(f"/photos/{kept}/small") as answer:
        assert answer.mimetype == "image/jpeg"


def test_a_photo_loses_position_and_camera_and_stands_upright(client, app):
    exif = Image.Exif()
    exif[0x0112], exif[0x010F] = 6, "A camera"
    exif.get_ifd(0x8825)[1] = "N"
    buffer = io.BytesIO()
    Image.new("RGB", (80, 40)).save(buffer, "JPEG", exif=exif)
    buffer.seek(0)

    client.send("/log", photo=(buffer, "turned.jpg"), place="Rack C")

    with snapshot() as session:
        photo = session.scalars(select(Photo)).one()
    with Image.open(gear.path_of(app.config["PHOTOS"], photo.sha256)) as kept:
        assert kept.size == (40, 80)
        assert dict(kept.getexif()) == {}


def test_the_page_of_a_propeller_teaches_what_is_missing(client, fetch):
    client.send("/log", place="Rack C")

    html = fetch("/propellers/P-0001")

    assert "Measure rise and angle" in html
    assert "Look how the near blade leans" in html


def test_a_stamp_that_the_tape_contradicts_is_told_on_the_page(client, fetch):
    client.send("/log", place="Rack C", stamp="22 x 18 RH", diameter_m="500 mm", hand="left")

    html = fetch("/propellers/P-0001")

    assert "stamp disagrees" in html
    assert "58.8 mm more than measured" in html
    assert "Right stamped on" in html or "Right stamped" in html


def test_every_figure_opens_to_everything_said_of_it(client, fetch):
    client.send("/log", place="Rack C", stamp="22 x 18 RH", diameter_m="558")

    html = fetch("/items/P-0001/figures/diameter_m")

    assert "typed “558”" in html
    assert "typed “22 x 18 RH”" in html


def test_a_statement_typed_by_hand_counts_by_its_basis(client, fetch):
    tag = logged(pitch_m=None)

    client.send(f"/items/{tag}/figures/pitch_m", length="18 in", basis="paper", note="bill of 2019")
    client.send(f"/items/{tag}/figures/pitch_m", length="455 mm", plus_minus="9 mm", basis="measured")

    with snapshot() as session:
        item = gear.item_by_tag(session, make_who(session), tag)
        assert (item.pitch_m, item.u_pitch_m, item.known["pitch_m"]) == (0.455, 0.0045, "measured")


def test_a_correction_strikes_the_old_one_through_and_keeps_it(client, fetch):
    tag = logged()
    with snapshot() as session:
        wrong = session.scalars(select(Evidence.id).where(Evidence.what == "pitch_m")).one()

    empty = client.send(f"/items/{tag}/statements/{wrong}", length="400", basis="measured", is_withdrawn="", why="")
    client.send(
        f"/items/{tag}/statements/{wrong}",
        length="400 mm",
        basis="measured",
        is_withdrawn="",
        why="off the wrong blade",
    )

    assert empty.status_code == 422
    html = fetch(f"/items/{tag}/figures/pitch_m")
    assert "<s" in html
    assert "off the wrong blade" in html


def test_two_people_saving_the_same_propeller_see_both_versions(client, client_as):
    tag, finn = logged(), client_as("Finn Marsh", "hand")
    client.send(f"/items/{tag}/change", version="1", place="Rack A", note="theirs")

    answer = finn.send(f"/items/{tag}/change", version="1", place="Rack B", note="mine")

    assert answer.status_code == 409
    assert "Ada Brook saved this record while you were writing" in answer.text
    for version in ("Rack A", "Rack B", "theirs", "mine"):
        assert version in answer.text
    chosen = finn.send(f"/items/{tag}/change", version="2", place="Rack A", note="mine")
    assert chosen.status_code == 303
    with snapshot() as session:
        item = gear.item_by_tag(session, make_who(session), tag)
        assert (item.place, item.note) == ("Rack A", "mine")


def test_moves_are_made_from_the_page(client, fetch):
    tag = logged()
    with transaction() as session:
        drive = make_drive(session).id

    client.send(f"/items/{tag}/move", kind="went on", drive_id=str(drive))

    assert "Kittiwake, centre" in fetch(f"/propellers/{tag}")
    assert "It is on Kittiwake, centre." in fetch(f"/items/{tag}/move")
    client.send(f"/items/{tag}/move", kind="came off", place="Rack D")
    assert "Came off Kittiwake, centre" in fetch(f"/propellers/{tag}")


def test_a_refused_move_offers_what_may_follow_and_what_was_chosen(client):
    tag = logged()

    answer = client.send(f"/items/{tag}/move", kind="came off", place="Rack D")

    assert answer.status_code == 422
    assert ["Came off a boat" in answer.text, "Came back from the loan" in answer.text] == [True, False]


def test_work_silences_the_figures_from_before_it(client, fetch):
    client.send("/log", place="Rack C", stamp="22 x 18 RH")

    client.send("/items/P-0001/work", kind="re-pitched", pitch_m="17 in", note="the shop at the bridge")

    html = fetch("/propellers/P-0001")
    assert "Re-pitched" in html
    assert "431.8" in html
    assert "stamp disagrees" not in html


def test_the_label_opens_the_page_by_its_short_address(client, fetch):
    tag = logged()

    html = fetch(f"/items/{tag}/label")

    assert f"http://localhost/t/{tag}" in html
    assert client.get(f"/t/{tag.lower()}").headers["Location"] == f"/propellers/{tag}"


def test_an_unknown_tag_offers_the_search(client):
    answer = client.get("/t/P-9999")

    assert answer.status_code == 404
    assert "Search for it above" in answer.text


def test_results_come_as_people_type(client, fetch):
    logged()

    part = client.get("/search?q=22+x+18", headers={"HX-Request": "true"}).text
    whole = fetch("/search?q=22+x+18")

    assert "P-0001" in part
    assert "<html" not in part
    assert "P-0001" in whole
    assert "Nothing found" in fetch("/search?q=zzz")


def test_the_rack_is_turned_page_by_page_and_shafts_have_their_own(client, fetch):
    with transaction() as session:
        for _ in range(55):
            make_propeller(session)

    first = fetch("/rack")
    older = fetch("/rack?before=6")

    assert "P-0055" in first
    assert "P-0005" not in first
    assert "P-0005" in older
    client.send("/log/shaft", place="Shaft rack", diameter_m="38.1", taper="1:16")
    assert "S-0001" in fetch("/rack?kind=shaft")
    assert "38.10" in fetch("/shafts/S-0001")


def test_every_page_of_the_gear_holds_together(client, fetch):
    tag = logged()
    for address in (
        "/rack", "/log", "/log/shaft", f"/items/{tag}/change", f"/items/{tag}/move", f"/items/{tag}/work",
        f"/items/{tag}/figures/hand", f"/items/{tag}/figures/taper", f"/items/{tag}/figures/blades",
    ):  # fmt: skip
        fetch(address)


@pytest.mark.parametrize(
    "address", ["/items/P-0001/figures/colour", "/items/P-0001/statements/99", "/propellers/S-0001", "/photos/abc"]
)
def test_what_is_not_there_is_not_found(client, address):
    logged()

    assert client.get(address).status_code == 404


def test_an_owner_meets_no_button_that_they_may_not_press(client_as, fetch):
    owner = client_as("R. Thorne", "owner")
    owner.send("/log", place="My shed", stamp="16 x 12")

    html = fetch("/propellers/P-0001", by=owner)

    assert "Proposed" in html
    assert "/items/P-0001/move" not in html
    assert owner.get("/items/P-0001/work").status_code == 200
    assert owner.send("/items/P-0001/work", kind="re-pitched").status_code == 403
