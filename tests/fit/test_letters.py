"""Letters: to the shop, what is to be done; to the owner, whether it goes on, and what that rests on."""

from dataclasses import replace

import pytest

from tests.factories.vessels import make_drive
from tests.fit.pairings import GOOD_DRIVE, GOOD_PROPELLER, PAIRINGS
from tests.fit.power_pairings import BOAT, SUITED
from tests.fit.test_stock import SHAFT, good_propeller
from tests.pdf.reading import pages_of
from yardapp.db import transaction
from yardapp.fit import letters
from yardapp.fit.figures import Figure
from yardapp.fit.verdict import EVERYTHING, judge

NARROW = {"keyway_width_m": (0.0085, 0.00003)}  # a millimetre under the shaft's: the keyway is opened


def pair(**said):
    with transaction() as session:
        return good_propeller(session, **said).tag, make_drive(session, **SHAFT).id


def test_a_shop_is_asked_for_the_work_of_each_check_cheapest_first():
    # tests/fit/pairings.py: a pilot bore in a stout hub is bored and keyed; the tips at 12 % are cut down for 15 %.
    pilot = next(one for one in PAIRINGS if one.verdict == "goes on after work" and one.work == "bore and key")
    drive = replace(pilot.drive, hull_clearance_m=Figure(value=0.346, u=0.0005, basis="measured"))

    asked = letters.tasks(judge(pilot.propeller, drive))

    assert [task.work for task in asked] == ["bore and key", "cut down"]
    assert "Bore it to 1:16" in asked[0].says


def test_what_is_fitted_at_the_yard_is_not_asked_of_the_shop():
    short = replace(GOOD_PROPELLER, hub_length_m=Figure(value=0.1050, u=0.0002, basis="measured"))

    verdict = judge(short, GOOD_DRIVE)

    assert verdict.works == ("fit a spacer",)
    assert letters.tasks(verdict) == []
    assert len(letters.at_the_yard(verdict)) == 1
    assert "done at the yard" in letters.why_no_letter(verdict)


@pytest.mark.parametrize(
    ("change", "said"),
    [
        ({}, "goes on as it is"),
        ({"hand": "left", "hand_stamped": None}, "does not go on"),
        ({"hub_length_m": None}, "can't be told"),
    ],
)
def test_nothing_is_asked_where_nothing_may_be_cut(change, said):
    verdict = judge(replace(GOOD_PROPELLER, **change), GOOD_DRIVE)

    assert letters.tasks(verdict) == []
    assert said in letters.why_no_letter(verdict)


def test_the_pitch_wanted_is_the_judge_s_own():
    over = replace(SUITED, pitch_m=Figure(value=0.330, u=0.0015, basis="measured"))

    verdict = judge(over, BOAT, ask=EVERYTHING)

    assert "re-pitch" in verdict.works
    assert letters.pitch_wanted(over, verdict).value == verdict.loading.right_pitch_m
    assert letters.pitch_wanted(SUITED, judge(SUITED, BOAT, ask=EVERYTHING)) is None


def test_the_letter_to_the_shop_names_tag_work_shaft_class_and_contact(fetch):
    tag, drive = pair(**NARROW)

    html = fetch(f"/fit/{tag}/on/{drive}/letter/shop?class=I&to=The+wheelwright&contact=Finn+Marsh,+shed+2")

    letter = html.split('class="letter"')[1]
    for said in (tag, "The wheelwright", "Finn Marsh, shed 2", "Open the keyway", "class I of ISO 484-2", "1:16"):
        assert said in letter
    # The shaft's keyway of 9.51 mm is what it is opened to.
    assert "9.51 mm" in letter
    assert "<svg" in letter


def test_a_pitch_typed_is_told_in_both_systems(fetch):
    tag, drive = pair()

    html = fetch(f"/fit/{tag}/on/{drive}/letter/shop?pitch=15+in")

    assert "Pitch wanted: 381 mm (15 in)" in html
    assert "nothing for a shop to do" not in html


def test_a_pitch_that_can_not_be_read_is_said(fetch):
    tag, drive = pair()

    assert "`15..` is not" in fetch(f"/fit/{tag}/on/{drive}/letter/shop?pitch=15..")


def test_without_work_the_letter_says_why_there_is_none(fetch):
    tag, drive = pair()

    assert "there is nothing for a shop to do" in fetch(f"/fit/{tag}/on/{drive}/letter/shop?class=odd")


def test_words_typed_into_a_letter_stay_words(fetch):
    tag, drive = pair()

    html = fetch(f"/fit/{tag}/on/{drive}/letter/shop?note=%3Cb%3Ebold%3C/b%3E")

    assert "&lt;b&gt;bold&lt;/b&gt;" in html


def test_the_owner_reads_the_verdict_in_plain_words_and_what_it_rests_on(fetch):
    tag, drive = pair(**NARROW)

    html = fetch(f"/fit/{tag}/on/{drive}/letter/owner?rule=10+%25")

    letter = html.split('class="letter"')[1]
    assert "It goes on, after work." in letter
    assert "Keyway width: goes on after work." in letter
    assert "Bore at its large end" in letter
    assert "measured" in letter
    assert "New readings, another engine" in letter
    assert "Not judged, because nothing was known of it: nut, cutter and bearing" in letter


def test_an_owner_who_may_not_know_of_it_gets_no_letter(client_as):
    tag, drive = pair()
    owner = client_as("R. Thorne", "owner")

    assert owner.get(f"/fit/{tag}/on/{drive}/letter/owner").status_code == 404


def test_the_verdict_s_page_leads_to_both_letters(fetch):
    tag, drive = pair()

    html = fetch(f"/fit/{tag}/on/{drive}")

    assert f"/fit/{tag}/on/{drive}/letter/shop" in html
    assert f"/fit/{tag}/on/{drive}/letter/owner" in html


def lines_of(answer):
    assert answer.status_code == 200
    assert answer.mimetype == "application/pdf"
    return " ".join(line for page in pages_of(answer.data) for line in page.split("\n"))


def test_the_letter_to_the_shop_is_a_file_too_with_its_drawing(client):
    tag, drive = pair(**NARROW)

    said = lines_of(client.get(f"/fit/{tag}/on/{drive}/letter/shop.pdf?class=I&to=Łukasz&contact=Finn+Marsh,+shed+2"))

    for words in (tag, "Łukasz", "Finn Marsh, shed 2", "1. Open the keyway", "class I of ISO 484-2", "9.51 mm"):
        assert words in said
    assert "shaft 1:16" in said  # as the drawing labels it
    # 38.000 less 30.856 over 114.30 mm is 1 in 16.0: the drawing shows the hub by its ends.
    assert "hub 1:16" in said
    assert "Hub bore not known" not in said
    assert "Page 1 of" in said


def test_the_letter_to_the_owner_is_a_file_too(client, fetch):
    tag, drive = pair(**NARROW)

    said = lines_of(client.get(f"/fit/{tag}/on/{drive}/letter/owner.pdf?rule=10+%25"))

    assert "It goes on, after work." in said
    assert "Keyway width: goes on after work." in said
    assert "nineteen times in twenty" in said
    page = fetch(f"/fit/{tag}/on/{drive}/letter/owner?rule=10+%25&tag=other&_scheme=odd")
    assert "odd" not in page
    assert f"/fit/{tag}/on/{drive}/letter/owner.pdf?rule=10" in page


def test_a_file_is_no_way_round_who_may_see_what(client_as):
    tag, drive = pair()
    owner = client_as("R. Thorne", "owner")

    assert owner.get(f"/fit/{tag}/on/{drive}/letter/shop.pdf").status_code == 404
