from itertools import pairwise

import pytest

from tests.factories.gear import make_propeller
from tests.factories.people import make_who
from yardapp.db import snapshot, transaction
from yardapp.errors import Refused
from yardapp.gear import services as gear
from yardapp.gear.codes import squares_of
from yardapp.gear.label_stocks import STOCKS
from yardapp.gear.services.blank_tags import bind_tag, tags_in
from yardapp.pdf.label import Label, labelled


@pytest.mark.parametrize("stock", STOCKS.values(), ids=STOCKS)
def test_every_label_lies_on_its_page_and_none_on_another(stock):
    places = [stock.place(number) for number in range(stock.count)]

    for place in places:
        assert place.page == 0
        assert -1e-9 <= place.left_m <= stock.page_m[0] - stock.width_m + 1e-9
        assert -1e-9 <= place.top_m <= stock.page_m[1] - stock.height_m + 1e-9
    for one, other in pairwise(places):
        assert other.left_m >= one.left_m + stock.width_m - 1e-9 or other.top_m >= one.top_m + stock.height_m - 1e-9


@pytest.mark.parametrize("stock", STOCKS.values(), ids=STOCKS)
def test_margins_labels_and_gaps_add_up_to_the_sheets_own_width_and_height(stock):
    places = [stock.place(number) for number in range(stock.count)]
    lefts, tops = sorted({one.left_m for one in places}), sorted({one.top_m for one in places})

    for starts, count, size, sheet in (
        (lefts, stock.columns, stock.width_m, stock.page_m[0]),
        (tops, stock.rows, stock.height_m, stock.page_m[1]),
    ):
        gaps = [other - one - size for one, other in pairwise(starts)]
        margins = [starts[0], sheet - starts[-1] - size]
        assert len(starts) == count
        assert min([0.0, *gaps, *margins]) >= -1e-9
        assert margins[0] == pytest.approx(margins[1])
        assert sum(margins) + count * size + sum(gaps) == pytest.approx(sheet)


@pytest.mark.parametrize(
    ("key", "side_mm", "top_mm"),
    [
        # By hand from A4, 210 × 297 mm: (210 - 3 × 63.5 - 2 × 2.5) / 2 and (297 - 7 × 38.1) / 2, and so on.
        ("21", 7.25, 15.15),
        ("24", 7.25, 12.9),
        ("24-edge", 0.0, 0.5),
        ("40", 0.0, 0.0),
        ("65", 4.75, 10.7),
        ("14", 4.65, 15.15),
        ("8", 4.65, 13.1),
        # From Letter, 8 1/2 × 11 in: 3/16 and 1/2 in; 5/32 and 1/2 in.
        ("letter-30", 4.7625, 12.7),
        ("letter-20", 3.96875, 12.7),
        ("letter-10", 3.96875, 12.7),
    ],
)
def test_the_first_label_lies_as_far_in_as_the_sheet_leaves(key, side_mm, top_mm):
    first = STOCKS[key].place(0)

    assert (1000 * first.left_m, 1000 * first.top_m) == pytest.approx((side_mm, top_mm), abs=1e-6)


def test_a_paper_is_named_by_its_sheet_and_the_size_of_a_label():
    assert STOCKS["24"].label == "24 an A4 sheet: 3 × 8 of 63.5 × 33.9 mm"
    assert STOCKS["letter-30"].label == "30 a Letter sheet: 3 × 10 of 2.625 × 1 in"
    assert STOCKS["roll-62"].label == "Roll, 62 × 29 mm"


def test_a_letter_sheet_is_printed_on_letter_paper():
    label = Label("P-0412", ("22 x 18 RH", "Yard"), squares_of("http://yard.test/t/P-0412"), 0, 0.01, 0.02)
    stock = STOCKS["letter-30"]

    written = labelled("Labels", stock.page_m, (stock.width_m, stock.height_m), [label], is_packed=False)

    # 8 1/2 × 11 in at 72 points an inch.
    assert b"/MediaBox [ 0 0 612 792 ]" in written


def test_the_common_sheets_hold_24_40_and_65():
    assert [STOCKS[key].count for key in ("24", "40", "65")] == [24, 40, 65]


def test_a_part_used_sheet_goes_on_at_its_first_free_position_and_then_on_a_new_one():
    stock = STOCKS["24"]

    first, second = stock.place(0, start=24), stock.place(1, start=24)

    assert (first.page, second.page) == (0, 1)
    # Column 3 of 3, row 8 of 8: the last label of an A4 sheet of 3 × 8, 63.5 × 33.9 mm, 66.0 mm apart.
    assert first.left_m == pytest.approx((0.210 - 2 * 0.066 - 0.0635) / 2 + 2 * 0.066)
    assert (second.left_m, second.top_m) == (stock.place(0).left_m, stock.place(0).top_m)


def test_a_roll_gives_each_label_a_page_of_its_own_whatever_the_position():
    assert [STOCKS["roll-62"].place(number, start=9).page for number in range(3)] == [0, 1, 2]


def test_spans_of_tags_are_read_as_people_write_them():
    assert tags_in("p-0412, S-0001 P-0413 to P-0415; P-0413") == ["P-0412", "S-0001", "P-0413", "P-0414", "P-0415"]


@pytest.mark.parametrize("typed", ["", "412", "P-0415 to P-0412", "P-0001 to S-0004", "P-0001 to P-9999", "P-1 <b>"])
def test_what_is_no_row_of_tags_is_refused_in_words(typed):
    with pytest.raises(Refused):
        tags_in(typed)


def test_the_same_labels_give_the_same_file_with_the_tag_in_it():
    label = Label("P-0412", ("22 x 18 RH", "Yard"), squares_of("http://yard.test/t/P-0412"), 0, 0.01, 0.01)
    stock = STOCKS["65"]
    size = (stock.width_m, stock.height_m)

    written = labelled("Labels", stock.page_m, size, [label], is_packed=False)

    assert written == labelled("Labels", stock.page_m, size, [label], is_packed=False)
    assert written.startswith(b"%PDF")
    assert b"/MediaBox [ 0 0 595.2756 841.8898 ]" in written


def test_forty_tags_are_taken_from_the_counter_and_no_thing_gets_one_of_them_by_itself(register):
    with transaction() as session:
        who = make_who(session)
        tags = gear.reserve_tags(session, who, kind="propeller", count=40)
        logged = make_propeller(session)

    assert (tags[0], tags[-1], logged.tag) == ("P-0001", "P-0040", "P-0041")


def test_a_blank_tag_is_bound_once(register):
    with transaction() as session:
        who = make_who(session)
        gear.reserve_tags(session, who, kind="propeller", count=2)
        item = gear.log_propeller(session, who, place="Rack C", tag="p-0002")

    assert item.tag == "P-0002"
    with transaction() as session, pytest.raises(Refused, match="hangs on something already"):
        gear.log_propeller(session, make_who(session), place="Rack C", tag="P-0002")
    with snapshot() as session:
        assert [one.tag for one in gear.free_tags(session, make_who(session))] == ["P-0001"]


@pytest.mark.parametrize(
    ("kind", "tag", "said"), [("propeller", "P-0900", "no blank tag"), ("shaft", "P-0001", "begins with S")]
)
def test_what_is_no_blank_tag_of_that_kind_is_refused(register, kind, tag, said):
    with transaction() as session:
        who = make_who(session)
        gear.reserve_tags(session, who, kind="propeller", count=1)
        with pytest.raises(Refused, match=said):
            bind_tag(session, who, kind, tag)


def test_scanning_a_blank_tag_opens_the_log_page_and_a_bound_one_its_thing(client, fetch):
    client.send("/labels", kind="propeller", count="1")

    scanned = client.get("/t/P-0001")
    page = fetch(scanned.headers["Location"])
    logged = client.send("/log", place="Rack C", tag="P-0001")

    assert 'name="tag"' in page
    assert 'value="P-0001"' in page
    assert logged.headers["Location"] == "/propellers/P-0001"
    assert client.get("/t/P-0001").headers["Location"] == "/propellers/P-0001"
    assert client.get("/t/P-0002").status_code == 404


@pytest.mark.parametrize(("kind", "address"), [("shaft", "/log/shaft?tag=S-0001"), ("nut", "/log/nut?tag=N-0001")])
def test_each_kinds_blank_tag_opens_that_kinds_log_page(client, fetch, kind, address):
    client.send("/labels", kind=kind, count="1")

    scanned = client.get(f"/t/{kind[0].upper()}-0001")

    assert scanned.headers["Location"] == address
    assert f'value="{kind[0].upper()}-0001"' in fetch(address)


def test_a_tag_that_is_taken_is_told_beside_its_box(client):
    client.send("/log", place="Rack C")

    answer = client.send("/log", place="Rack C", tag="P-0001")

    assert answer.status_code == 422
    assert "P-0001 hangs on something already" in answer.text


def test_taking_tags_leads_to_the_page_that_prints_them(client, fetch):
    answer = client.send("/labels", kind="propeller", count="40")
    html = fetch(answer.headers["Location"])
    written = client.get("/labels.pdf?tags=P-0001+to+P-0040&stock=24&start=5")

    assert 'value="P-0001 to P-0040"' in html
    assert "Blank, 40" in html
    assert html.count("P-0001 to P-0040</b>") == 1
    assert (written.status_code, written.mimetype) == (200, "application/pdf")
    # Positions 5 to 24 of the first sheet hold twenty labels, a second one the other twenty.
    assert written.data.count(b"/Type /Page\n") == 2 or written.data.count(b"/Count 2") == 1


def test_blank_tags_stand_in_rows_of_numbers_and_a_hung_one_parts_them(client, fetch):
    client.send("/labels", kind="propeller", count="5")
    client.send("/labels", kind="shaft", count="2")
    client.send("/log", place="Rack C", tag="P-0003")

    html = fetch("/labels")

    assert "Blank, 6" in html
    assert html.split('items-tag">')[1:][0].startswith("P-0001 to P-0002</b>")
    assert ["P-0004 to P-0005</b>" in html, "S-0001 to S-0002</b>" in html] == [True, True]
    assert "/labels?tags=P-0004+to+P-0005" in html or "/labels?tags=P-0004%20to%20P-0005" in html


@pytest.mark.parametrize(
    ("asked", "said"),
    [
        ("tags=P-0001&stock=24", "neither hangs on anything here"),
        ("tags=nonsense", "is no tag"),
        ("tags=P-0001&start=99", "Positions are counted from 1"),
        ("tags=P-0001&start=x", "Not a valid integer value"),
        ("", "Which tags?"),
    ],
)
def test_a_sheet_that_cannot_be_made_says_why(client, asked, said):
    answer = client.get(f"/labels.pdf?{asked}")

    assert answer.status_code == 422
    assert said in answer.text


def test_the_rack_leads_to_labels_also_while_it_is_empty_and_an_owners_does_not(client, client_as, fetch):
    assert 'href="/labels"' in fetch("/rack")
    assert 'href="/labels"' not in client_as("R. Thorne", "owner").get("/rack").text


def test_owners_print_no_labels(client_as):
    owner = client_as("R. Thorne", "owner")

    assert owner.get("/labels").status_code == 403
    assert owner.get("/labels.pdf?tags=P-0001").status_code == 403
    assert owner.send("/labels", kind="propeller", count="3").status_code == 403


def test_the_label_of_one_thing_takes_one_look(client, fetch):
    with transaction() as session:
        make_propeller(session)

    assert "/labels?tags=P-0001" in fetch("/items/P-0001/label", queries=2)
