from tests.conftest import YardClient
from yardapp.db import snapshot, transaction
from yardapp.people import services as people

WORDS = "three plain words"


def claim(app):
    with transaction() as session:
        return people.make_claim_code(session)


def test_a_new_yard_asks_for_the_code_before_anything_else(app):
    client = app.test_client()

    answer = client.get("/rack", follow_redirects=True)

    assert "The code" in answer.text or "Code in the terminal" in answer.text
    assert answer.request.path == "/people/claim"


def test_a_stranger_without_the_code_can_not_claim_the_yard(app):
    claim(app)
    client = app.test_client()

    answer = client.send("/people/claim", code="AAAA-AAAA", name="A Stranger", password=WORDS)

    assert answer.status_code == 422
    assert "not the code in the terminal" in answer.text
    assert 'value="A Stranger"' in answer.text
    with snapshot() as session:
        assert not people.is_claimed(session)


def test_the_code_opens_the_yard_once_however_it_is_typed(app):
    code = claim(app)
    client = app.test_client()

    first = client.send("/people/claim", code=f" {code.lower()} ", name="Ada Brook", password=WORDS)
    second = app.test_client().send("/people/claim", code=code, name="A Stranger", password=WORDS)

    assert first.status_code == 303
    assert client.get("/people/me").status_code == 200
    assert second.status_code == 422
    assert "claimed already" in second.text


def test_a_wrong_password_and_a_wrong_name_sound_the_same(client, app):
    with transaction() as session:
        people.add_person(session, people.TERMINAL, name="Finn Marsh", role="hand", password=WORDS)
    stranger = app.test_client()

    wrong = stranger.send("/people/enter", name="Finn Marsh", password="not the words")
    nobody = stranger.send("/people/enter", name="No Such", password="not the words")

    assert wrong.status_code == nobody.status_code == 422
    said = "Name and password do not go together."
    assert said in wrong.text
    assert said in nobody.text


def test_guessing_is_stopped_after_eight_tries_even_with_the_right_password(client, app):
    with transaction() as session:
        people.add_person(session, people.TERMINAL, name="Finn Marsh", role="hand", password=WORDS)
    stranger = app.test_client()
    for _ in range(8):
        stranger.send("/people/enter", name="Finn Marsh", password="a guess at it")

    answer = stranger.send("/people/enter", name="Finn Marsh", password=WORDS)

    assert answer.status_code == 422
    assert "Too many tries" in answer.text


def test_two_taps_and_a_pin_change_the_person_on_a_shared_tablet(app, client: YardClient):
    with transaction() as session:
        finn = people.add_person(session, people.TERMINAL, name="Finn Marsh", role="hand", password=WORDS)
    client.send("/people/me/pin", pin="2580")
    client.send("/people/enter", name="Finn Marsh", password=WORDS)
    client.send("/people/me/pin", pin="4931")

    names = client.get("/people/enter").text
    wrong = client.send("/people/enter", person_id=str(finn - 1), pin="0000")
    right = client.send("/people/enter", person_id=str(finn - 1), pin="2580")

    assert "Ada Brook" in names
    assert "Finn Marsh" in names
    assert wrong.status_code == 422
    assert right.status_code == 303
    assert "<h1>Ada Brook</h1>" in client.get("/people/me").text


def test_a_pin_opens_nothing_on_a_screen_that_its_owner_never_signed_in_on(app, client):
    client.send("/people/me/pin", pin="2580")
    with snapshot() as session:
        ada = people.person_named(session, "Ada Brook").id
    stranger = app.test_client()

    answer = stranger.send("/people/enter", person_id=str(ada), pin="2580")

    assert answer.status_code == 422
    assert "has not signed in on this device" in answer.text


def test_a_form_posted_from_another_site_is_refused(client):
    answer = client.post("/people/leave", headers={"Origin": "http://elsewhere.example"})

    assert answer.status_code == 403


def test_a_form_without_its_token_saves_nothing_and_keeps_what_was_typed(client):
    answer = client.post("/log", data={"place": "Rack Z"})

    assert answer.status_code == 422
    assert 'value="Rack Z"' in answer.text
    assert "open for long" in answer.text


def test_the_last_one_in_the_office_stays(client):
    with snapshot() as session:
        ada = people.person_named(session, "Ada Brook").id

    answer = client.send(f"/people/yard/{ada}", role="hand")

    assert answer.status_code == 422
    assert "Somebody must stay in the office" in answer.text


def test_somebody_who_left_is_shown_out_everywhere(app, client, client_as):
    finn = client_as("Finn Marsh", "hand")
    with snapshot() as session:
        number = people.person_named(session, "Finn Marsh").id
    assert finn.get("/people/me").status_code == 200

    client.send(f"/people/yard/{number}", role="gone")

    assert finn.get("/people/me").status_code == 303


def test_every_page_of_people_holds_together(fetch, client):
    client.send("/people/me/pin", pin="2580")
    for address in ("/people/me", "/people/yard", "/people/yard/1", "/people/enter", "/people/enter/1"):
        fetch(address)


def test_a_hand_does_not_see_the_office_pages(client_as):
    finn = client_as("Finn Marsh", "hand")

    assert finn.get("/people/yard/1").status_code == 403
    assert "Somebody new" not in finn.get("/people/yard").text


def test_a_sign_in_never_leads_to_another_site(app, client):
    with transaction() as session:
        people.add_person(session, people.TERMINAL, name="Finn Marsh", role="hand", password=WORDS)

    answer = app.test_client().send("/people/enter", name="Finn Marsh", password=WORDS, next="//elsewhere.example/")

    assert answer.headers["Location"] == "/"


def test_the_office_gives_a_new_password_to_somebody_who_forgot_theirs(app, client, client_as):
    finn = client_as("Finn Marsh", "hand")
    with snapshot() as session:
        number = people.person_named(session, "Finn Marsh").id

    short = client.send(f"/people/yard/{number}/password", password="short")
    done = client.send(f"/people/yard/{number}/password", password="another three words")

    assert short.status_code == 422
    assert done.status_code == 303
    assert finn.get("/people/me").status_code == 303
    entered = app.test_client().send("/people/enter", name="Finn Marsh", password="another three words")
    assert entered.headers["Location"] == "/"


def test_a_hand_gives_nobody_a_new_password(client, client_as):
    with snapshot() as session:
        ada = people.person_named(session, "Ada Brook").id

    answer = client_as("Finn Marsh", "hand").send(f"/people/yard/{ada}/password", password="another three words")

    assert answer.status_code == 403
