import pytest


def test_the_first_page_is_the_rack(client):
    assert client.get("/").headers["Location"] == "/rack"


def test_a_sign_of_life_asks_nothing_of_the_register(app, count_queries):
    with count_queries() as asked:
        answer = app.test_client().get("/alive")

    assert (answer.status_code, asked) == (204, [])


def test_a_size_box_says_what_it_understood_and_offers_the_other_unit(client):
    text = client.get("/sizes/understood", query_string={"text": "22", "kind": "length", "assume": "in"}).text

    assert "558.8 mm" in text or "22 in" in text
    assert 'data-flip="22 mm"' in text


def test_a_typed_unit_leaves_nothing_to_flip(client):
    text = client.get("/sizes/understood", query_string={"text": "22 in", "kind": "length", "assume": "mm"}).text

    assert "data-flip" not in text


@pytest.mark.parametrize("text", ["23..5", "1,234", "-4", "nan", "9**9**8 mm", "x" * 4000])
def test_an_unreadable_size_is_told_and_never_breaks_the_page(client, text):
    answer = client.get("/sizes/understood", query_string={"text": text, "kind": "length"})

    assert answer.status_code == 200
    assert "understood-no" in answer.text


def test_an_unknown_kind_of_size_is_met_with_silence(client):
    assert client.get("/sizes/understood", query_string={"text": "22", "kind": "colour"}).text == ""


def test_every_part_and_every_formula_has_its_page(fetch):
    fetch("/yard/parts")
    contents = fetch("/how")
    assert "pitch_from_rise" in contents
    assert "Held to" in fetch("/how/pitch.pitch_from_rise")
    assert "contact_gap" in fetch("/how/taper.contact_gap")


@pytest.mark.parametrize("name", ["nothing.here", "ranges.hold", "pitch", "pitch.np", "os.system", "pitch._x"])
def test_what_is_no_formula_has_no_page(client, name):
    assert client.get(f"/how/{name}").status_code == 404


def test_a_page_that_is_not_there_offers_the_search(client):
    answer = client.get("/no/such/page")

    assert answer.status_code == 404
    assert "Search for it above" in answer.text


def test_pages_carry_the_headers_that_keep_strangers_code_out(client):
    headers = client.get("/people/me").headers

    assert "default-src 'self'" in headers["Content-Security-Policy"]
    assert headers["X-Content-Type-Options"] == "nosniff"


@pytest.mark.parametrize("address", ["/search?q=abc%00d", "/propellers/%00x", "/items/a%00/move", "/rack?before=%00"])
def test_an_address_with_a_character_that_can_not_be_kept_is_not_found(client, address):
    assert client.get(address).status_code == 404


def test_a_unit_that_nobody_knows_is_met_with_silence(client):
    assert client.get("/sizes/understood?text=5&kind=length&assume=foo").text == ""
