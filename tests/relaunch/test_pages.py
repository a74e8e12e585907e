"""The room's pages: each is fetched and checked, each act is done through its form."""

import re
from datetime import timedelta

import pytest

from tests.factories import relaunch as launches
from tests.factories.people import make_who
from tests.factories.vessels import make_drive, make_vessel
from tests.pdf.reading import pages_of
from yardapp.db import now, transaction
from yardapp.gear import services as gear
from yardapp.relaunch import services as relaunch
from yardapp.vessels import services as vessels

WHOLE_SHEET = 14  # one look into each of six rooms


@pytest.fixture
def there(client):
    """A boat with a propeller and a launch in three days: the launch, the drive, the tag."""
    with transaction() as session:
        drive, tag = launches.make_boat(session)
        launch = launches.make_launch(session, drive.vessel_id)
        return launch.id, drive.id, tag


def in_words(moment):
    return moment.astimezone().strftime("%Y-%m-%dT%H:%M")


def sheet_of(launch_id):
    with transaction() as session:
        return relaunch.launch_sheet(session, make_who(session), launch_id)


def test_an_empty_board_teaches(fetch):
    assert "A boat with a launch date stands here" in fetch("/relaunch")


def test_the_board_says_what_is_open_who_has_it_and_how_long_is_left_in_three_queries(fetch, there):
    for number in range(5):
        with transaction() as session:
            drive, _ = launches.make_boat(session, name=f"Boat {number}")
            launches.make_launch(session, drive.vessel_id)

    board = fetch("/relaunch", queries=3)

    assert "in 3 days" in board
    assert "fitter has it" in board
    assert board.count("boats-name") == 6
    assert 'href="/relaunch/1"' in board


def test_a_launch_is_planned_from_its_form_and_a_second_one_is_refused(client, fetch):
    with transaction() as session:
        boat = make_vessel(session).id
    planned = now() + timedelta(days=2)
    fetch(f"/relaunch/plan?boat={boat}", queries=4)

    first = client.send("/relaunch/plan", vessel_id=str(boat), planned=in_words(planned), list_name="")
    second = client.send("/relaunch/plan", vessel_id=str(boat), planned=in_words(planned), list_name="")
    nameless = client.send("/relaunch/plan", vessel_id="", planned=in_words(planned), list_name="")
    hourless = client.send("/relaunch/plan", vessel_id=str(boat), planned="", list_name="")

    assert (first.status_code, first.headers["Location"]) == (303, "/relaunch/1")
    assert "She has a launch planned already." in second.text
    assert (nameless.status_code, hourless.status_code) == (422, 422)
    assert "A day and an hour." in hourless.text


def test_the_sheet_and_all_that_hangs_on_it_can_be_opened(fetch, there):
    launch_id, drive_id, tag = there
    sheet = fetch(f"/relaunch/{launch_id}", queries=WHOLE_SHEET)
    for link in sorted(set(re.findall(r'href="(/relaunch/[^"#]+)"', sheet.replace("&amp;", "&")))):
        if not link.endswith(".pdf"):
            fetch(link, queries=WHOLE_SHEET + 1)

    assert tag in sheet
    assert "Centre: Lock fitted, looked at after tightening" in sheet
    assert f"/relaunch/{launch_id}/lines/lock?drive_id={drive_id}" in sheet


def test_a_line_is_signed_with_a_note_and_only_in_order_settles_it(client, there):
    launch_id, drive_id, _tag = there
    line = f"/relaunch/{launch_id}/lines/turns?drive_id={drive_id}"

    unsaid = client.send(line)
    cannot = client.send(line, answer="ask", note="no light under there")
    ask = sheet_of(launch_id).line("turns", drive_id).verdict
    signed = client.send(line, answer="yes")

    assert unsaid.status_code == 422
    assert "In order, not in order, or cannot tell?" in unsaid.text
    assert (cannot.status_code, ask, signed.status_code) == (303, "ask", 303)
    assert sheet_of(launch_id).line("turns", drive_id).by == ("Ada Brook",)


def test_a_figure_beyond_its_limit_is_not_in_order(client, fetch, there):
    launch_id, drive_id, _tag = there
    line = f"/relaunch/{launch_id}/lines/coupling?drive_id={drive_id}"

    client.send(line, figure="0.09 mm")
    beyond = sheet_of(launch_id).line("coupling", drive_id)
    client.send(line, figure="0.05")
    within = sheet_of(launch_id).line("coupling", drive_id)

    # reference/clearances: faces within about 0.07 mm.
    assert (beyond.verdict, within.verdict) == ("no", "yes")
    assert within.said == "0.05 mm"
    assert "at most 0.07 mm" in fetch(line, queries=WHOLE_SHEET)


@pytest.mark.parametrize(
    ("key", "typed", "verdict"),
    [("contact", "65 %", "no"), ("contact", "80", "yes"), ("bonding", "0.4", "yes"), ("torque", "180", "yes")],
)
def test_figures_are_read_in_the_lines_own_unit(client, there, key, typed, verdict):
    launch_id, drive_id, _tag = there

    client.send(f"/relaunch/{launch_id}/lines/{key}?drive_id={drive_id}", figure=typed)

    assert sheet_of(launch_id).line(key, drive_id).verdict == verdict


def test_a_scan_is_kept_from_its_form_also_as_the_address_off_a_label(client, there, client_as):
    launch_id, drive_id, tag = there
    line = f"/relaunch/{launch_id}/lines/propeller"

    unknown = client.send(f"{line}/scan?drive_id={drive_id}", tag="P-9999", hand="right")
    unseen = client.send(f"{line}/scan?drive_id={drive_id}", tag=tag)
    kept = client.send(f"{line}/scan?drive_id={drive_id}", tag=f"http://yard.local/t/{tag.lower()}", hand="right")
    client_as("Finn Marsh", "hand").send(f"{line}?drive_id={drive_id}", answer="yes")

    assert "No propeller here carries the tag P-9999." in unknown.text
    assert (unseen.status_code, kept.status_code) == (422, 303)
    assert sheet_of(launch_id).line("propeller", drive_id).by == ("Ada Brook", "Finn Marsh")


def test_an_answer_is_taken_back_and_stays_readable(client, fetch, there):
    launch_id, drive_id, _tag = there
    line = f"/relaunch/{launch_id}/lines/turns?drive_id={drive_id}"
    client.send(line, answer="yes")
    act = sheet_of(launch_id).acts[-1].id
    page = f"/relaunch/{launch_id}/acts/{act}/take-back"
    assert page in fetch(line, queries=WHOLE_SHEET)
    fetch(page, queries=WHOLE_SHEET)

    reasonless, taken = client.send(page), client.send(page, why="wrong boat")

    assert (reasonless.status_code, taken.status_code) == (422, 303)
    assert sheet_of(launch_id).line("turns", drive_id).verdict == "open"
    assert "taken back by Ada Brook: wrong boat" in fetch(line, queries=WHOLE_SHEET)


def test_a_line_is_given_to_somebody_and_the_board_says_so(client, fetch, there):
    launch_id, drive_id, _tag = there

    client.send(f"/relaunch/{launch_id}/lines/turns/give?drive_id={drive_id}", name="Ivy Lund")

    assert "Ivy Lund 1" in fetch("/relaunch")


def test_a_release_is_refused_then_overridden_with_its_reason_on_the_kept_sheet(client, fetch, there):
    launch_id, _drive_id, _tag = there
    page = f"/relaunch/{launch_id}/release/launch"
    assert "in the way" in fetch(page, queries=WHOLE_SHEET)

    refused = client.send(page)
    reasonless = client.send(f"/relaunch/{launch_id}/override/launch", reason="")
    overridden = client.send(f"/relaunch/{launch_id}/override/launch", reason="crane leaves at noon, <lock> tonight")

    assert (refused.status_code, reasonless.status_code, overridden.status_code) == (422, 422, 303)
    assert "Not released," in refused.text
    kept = fetch(overridden.headers["Location"], queries=WHOLE_SHEET)
    assert "on the word of Ada Brook: crane leaves at noon, &lt;lock&gt; tonight" in kept
    lift = fetch(f"/relaunch/{launch_id}/lift", queries=WHOLE_SHEET)
    assert "On the word of Ada Brook" in lift


def test_the_lift_crew_get_no_then_yes_then_no_again_each_with_its_reason(client, fetch, there):
    launch_id, _drive_id, tag = there
    page = f"/relaunch/{launch_id}/lift"
    before = fetch(page, queries=WHOLE_SHEET)
    with transaction() as session:
        launches.settle(session, launch_id)
    client.send(f"/relaunch/{launch_id}/release/launch")
    released = fetch(page, queries=WHOLE_SHEET)
    client.send("/relaunch/faults/new", tag=tag, what="Crack at the root", severity="stop", how_found="looking")
    after = fetch(page, queries=WHOLE_SHEET)

    words = [re.search(r'lift-word">(\w+)<', one)[1] for one in (before, released, after)]
    assert words == ["No", "Yes", "No"]
    assert "Not released." in before
    assert "Released by Ada Brook." in released
    assert f"{tag}: Crack at the root" in after


def test_a_kept_sheet_shows_later_changes_beside_what_it_said(client, fetch, there):
    launch_id, drive_id, _tag = there
    with transaction() as session:
        launches.settle(session, launch_id)
    kept = client.send(f"/relaunch/{launch_id}/release/launch").headers["Location"]
    untouched = fetch(kept, queries=WHOLE_SHEET)

    client.send(f"/relaunch/{launch_id}/lines/turns?drive_id={drive_id}", answer="no", note="binds")

    changed = fetch(kept, queries=WHOLE_SHEET)
    assert "Nothing: every line stands as it did." in untouched
    assert "Now: Not in order; not in order; binds; Ada Brook" in changed
    assert "would keep her back now" in changed
    fetch(f"{kept}/take-back", queries=WHOLE_SHEET)
    client.send(f"{kept}/take-back", why="it binds")
    assert "Taken back by Ada Brook" in fetch(kept, queries=WHOLE_SHEET)


@pytest.mark.parametrize("name", ["sheet.pdf", "owner.pdf"])
def test_sheet_and_owners_copy_are_files_too(client, there, name):
    answer = client.get(f"/relaunch/{there[0]}/{name}")

    assert (answer.status_code, answer.mimetype) == (200, "application/pdf")
    assert answer.data.startswith(b"%PDF")


def test_a_kept_sheet_is_a_file_too(client, there):
    kept = client.send(f"/relaunch/{there[0]}/override/launch", reason="crane leaves at noon").headers["Location"]

    assert client.get(f"{kept}/sheet.pdf").data.startswith(b"%PDF")


def test_an_owner_sees_their_own_boat_in_plain_words_and_no_other(client_as, fetch):
    owner = client_as("R. Thorne", "owner")
    with transaction() as session:
        person = make_who(session, name="R. Thorne", role="owner").person_id
        drive, _ = launches.make_boat(session, name="Sea Otter")
        other, _ = launches.make_boat(session, name="Kittiwake")
        relaunch_of = launches.make_launch(session, drive.vessel_id).id
        of_other = launches.make_launch(session, other.vessel_id).id
        boat = vessels.vessel_by_id(session, make_who(session), drive.vessel_id or 0, for_change=True)
        boat.owner_id = person

    board = fetch("/relaunch", by=owner)
    copy = fetch(f"/relaunch/{relaunch_of}/owner", by=owner, queries=WHOLE_SHEET)

    assert "Sea Otter" in board
    assert "Kittiwake" not in board
    assert "Its nut is locked, and two people looked" in copy
    assert owner.get(f"/relaunch/{relaunch_of}").headers["Location"] == f"/relaunch/{relaunch_of}/owner"
    assert owner.get(f"/relaunch/{of_other}/owner").status_code == 404
    assert owner.get(f"/relaunch/{of_other}/lift").status_code == 404
    assert owner.get(f"/relaunch/{relaunch_of}/release/launch").status_code == 403
    assert owner.send(f"/relaunch/{relaunch_of}/lines/lock", answer="yes").status_code == 403


def test_a_hand_signs_lines_and_releases_nothing(client_as, there):
    hand = client_as("Finn Marsh", "hand")
    launch_id, drive_id, _tag = there

    assert hand.send(f"/relaunch/{launch_id}/lines/turns?drive_id={drive_id}", answer="yes").status_code == 303
    assert hand.send(f"/relaunch/{launch_id}/release/launch").status_code == 403
    assert hand.send(f"/relaunch/{launch_id}/override/launch", reason="crane leaves at noon").status_code == 403


def test_hour_and_calling_off_have_their_forms(client, fetch, there):
    launch_id = there[0]
    later = now() + timedelta(days=9)
    for page in ("hour", "call-off"):
        fetch(f"/relaunch/{launch_id}/{page}", queries=WHOLE_SHEET)

    client.send(f"/relaunch/{launch_id}/hour", planned=in_words(later), why="no crane")
    moved = fetch("/relaunch")
    client.send(f"/relaunch/{launch_id}/call-off", why="sold ashore")

    assert "in 9 days" in moved
    assert "Kittiwake" in fetch("/relaunch/past")
    assert "This launch was called off." in fetch(f"/relaunch/{launch_id}", queries=WHOLE_SHEET)
    assert client.send(f"/relaunch/{launch_id}/hour", planned=in_words(later)).status_code == 422


def test_a_fault_goes_its_whole_way_through_its_pages(client, fetch, there):
    _launch_id, _drive_id, tag = there
    fetch("/relaunch/faults/new", queries=4)
    nothing = client.send("/relaunch/faults/new", what="Crack", severity="stop", how_found="looking")
    raised = client.send(
        "/relaunch/faults/new", tag=tag, what="Crack", severity="stop", how_found="haul-out", decides="The surveyor"
    )
    page = raised.headers["Location"]
    until = (relaunch.today() + timedelta(days=5)).isoformat()

    seen = fetch(page)
    accepted = client.send(f"{page}/accept", name="The surveyor", why="hairline", until=until)
    standing = fetch("/relaunch/faults")
    ended = client.send(f"{page}/accept-no-longer", why="it grew")
    decided = client.send(f"{page}/decides", decider="R. Thorne")
    closed = client.send(f"{page}/close", how="welded")

    assert nothing.status_code == 422
    assert "The surveyor" in seen
    assert [one.status_code for one in (accepted, ended, decided, closed)] == [303] * 4
    assert "accepted by The surveyor until" in standing
    assert "closed" in fetch("/relaunch/faults?show=all")
    assert "Crack" not in fetch("/relaunch/faults")
    assert client.send(f"{page}/close", how="again").status_code == 422


def test_lists_are_changed_line_by_line(client, fetch):
    fetch("/relaunch/lists")
    page = "/relaunch/lists/shaft line"
    fetch(page)
    form = fetch(f"{page}/lines/gap")
    boxes = {
        "version": "0", "words": "Gap, as the class says", "part": "to launch", "by": "figure", "unit": "mm",
        "at_least": "2", "at_most": "38", "signer": "fitter", "signs": "1", "is_stop": "yes", "is_each": "yes",
        "bench_sheet": "", "after": "",
    }  # fmt: skip

    changed = client.send(f"{page}/lines/gap", **boxes)
    again = client.send(f"{page}/lines/gap", **{**boxes, "words": "Gap, otherwise"})
    added = client.send(f"{page}/new", **{**boxes, "words": "Transducer blank out"})
    moved = client.send(f"{page}/lines/verdict/up")
    dropped = client.send(f"{page}/lines/cutter/drop")
    lock = client.send(f"{page}/lines/lock/drop")

    assert 'value="1"' in form
    assert (changed.status_code, again.status_code) == (303, 409)
    assert [one.status_code for one in (added, moved, dropped, lock)] == [303, 303, 303, 422]
    assert "The nut&#39;s lock is always asked" in lock.text
    now_ = fetch(page)
    assert "Gap, as the class says" in now_
    assert "Transducer blank out" in now_
    assert "<b>Line cutter" not in now_
    assert "Version 4" in now_


def test_a_list_of_the_yards_own_is_begun(client, fetch):
    made = client.send("/relaunch/lists", name="canal boats", like="shaft line")

    assert "Lines for a canal boats" in fetch(made.headers["Location"])
    assert client.send("/relaunch/lists", name="", like="shaft line").status_code == 422


def test_a_policy_is_settled_with_its_rivals_in_sight(client, client_as, fetch):
    rivals = fetch("/relaunch/policies")
    fetch("/relaunch/policies/bearing wear")

    settled = client.send("/relaunch/policies/bearing wear", choice="6 % limit", why="as the class has it")
    wrong = client.send("/relaunch/policies/bearing wear", choice="7 %")
    by_hand = client_as("Finn Marsh", "hand").send("/relaunch/policies/bearing wear", choice="3 % due")

    for rival in ("3 % due", "6 % limit", "1/32 in", "1/16 in", "thin nut first", "thick nut first"):
        assert rival in rivals
    assert (settled.status_code, wrong.status_code, by_hand.status_code) == (303, 422, 403)
    assert "6 % limit, Ada Brook" in fetch("/relaunch/policies")
    assert client.get("/relaunch/policies/weather").status_code == 404


def test_looking_over_brings_the_board_up_to_what_was_done_elsewhere(client, fetch, there):
    answer = client.send("/relaunch/look-over")

    assert answer.status_code == 303
    assert "just now" in fetch("/relaunch")


@pytest.mark.parametrize(
    "address",
    ["/relaunch/99", "/relaunch/99999999999", "/relaunch/1/lines/nothing", "/relaunch/1/kept/1", "/relaunch/faults/y9"],
)
def test_what_is_not_there_is_not_found(client, there, address):
    assert client.get(address).status_code == 404


def test_a_boats_page_leads_to_her_launch_or_to_the_page_that_begins_one(client, fetch, there):
    with transaction() as session:
        other = make_vessel(session, name="Sea Otter").id

    assert 'href="/relaunch/boat/1"' in fetch("/boats/1")
    assert client.get("/relaunch/boat/1").headers["Location"] == "/relaunch/1"
    assert client.get(f"/relaunch/boat/{other}").headers["Location"] == f"/relaunch/plan?boat={other}"


def test_the_faults_of_one_thing_stand_by_themselves(client, fetch, there):
    client.send("/relaunch/faults/new", tag=there[2], what="Nick", severity="note", how_found="looking")
    client.send("/relaunch/faults/new", vessel_id="1", what="Weeps", severity="watch", how_found="looking")

    assert "Weeps" not in fetch(f"/relaunch/faults?tag={there[2]}")
    assert "Nick" in fetch(f"/relaunch/faults?tag={there[2].lower()}")


def test_an_owner_signs_what_asks_for_the_owners_person_and_nothing_else(client_as, fetch):
    owner = client_as("R. Thorne", "owner")
    with transaction() as session:
        person = make_who(session, name="R. Thorne", role="owner").person_id
        drive = make_drive(session, make_vessel(session, name="Sea Otter", owner_id=person))
        launch_id = launches.make_launch(session, drive.vessel_id).id
        launches.answer(session, launch_id, "bilge")
    page = f"/relaunch/{launch_id}/owner"
    assert f"{page}/bilge" in fetch(page, by=owner, queries=WHOLE_SHEET)
    fetch(f"{page}/bilge", by=owner, queries=WHOLE_SHEET)

    unsaid = owner.send(f"{page}/bilge")
    signed = owner.send(f"{page}/bilge", answer="yes")
    yards = owner.send(f"{page}/turns?drive_id={drive.id}", answer="yes")

    assert (unsaid.status_code, signed.status_code, yards.status_code) == (422, 303, 403)
    bilge = sheet_of(launch_id).line("bilge", None)
    assert (bilge.verdict, bilge.by) == ("yes", ("Finn Marsh", "R. Thorne"))
    assert client_as("B. Other", "owner").send(f"{page}/bilge", answer="yes").status_code == 404


def test_the_owner_reads_what_was_found_and_on_whose_word_she_goes(client, fetch, there):
    client.send("/relaunch/faults/new", vessel_id="1", what="Weeps at the stock", severity="watch", how_found="looking")
    client.send(f"/relaunch/{there[0]}/override/launch", reason="crane leaves at noon")

    copy = fetch(f"/relaunch/{there[0]}/owner", queries=WHOLE_SHEET)

    assert "Weeps at the stock: we are watching it." in copy
    assert "on the word of Ada Brook: crane leaves at noon" in copy
    pages = "".join(pages_of(client.get(f"/relaunch/{there[0]}/sheet.pdf").data))
    assert "on the word of Ada Brook: crane leaves at noon" in " ".join(pages.split())


def test_a_sheet_and_a_things_page_lead_to_faults(client, fetch, there):
    assert f'href="/relaunch/faults?tag={there[2]}"' in client.get(f"/propellers/{there[2]}").text
    assert 'value="Bench sheet 7"' in fetch(f"/relaunch/faults/new?tag={there[2]}&sheet=7", queries=4)


def test_an_owner_reads_a_fault_of_their_own_boat_and_decides_nothing(client_as, fetch):
    owner = client_as("R. Thorne", "owner")
    with transaction() as session:
        boat = make_vessel(session, owner_id=make_who(session, name="R. Thorne", role="owner").person_id)
        said = relaunch.FaultSaid(severity="watch", what="Weeps", vessel_id=boat.id)
        relaunch.raise_fault(session, make_who(session), said)

    assert "Close the fault" not in fetch("/relaunch/faults/y1", by=owner)
    assert "Weeps" in fetch("/relaunch/faults", by=owner)
    assert owner.send("/relaunch/faults/y1/close", how="gone").status_code == 403


def test_a_line_names_the_tagged_part_that_it_speaks_of(fetch, there):
    launch_id, drive_id, _tag = there
    with transaction() as session:
        who = make_who(session)
        key = gear.log_part(session, who, kind="key", place="Bench 1").tag
        gear.move_item(session, who, key, "went on", drive_id=drive_id)

    assert f"key {key}" in fetch(f"/relaunch/{launch_id}", queries=WHOLE_SHEET)
    assert f'"/t/{key}"' in fetch(f"/relaunch/{launch_id}/lines/key?drive_id={drive_id}", queries=WHOLE_SHEET)


def test_a_sheet_on_a_list_as_it_came_says_so_in_words_and_its_kept_sheet_too(client, fetch, there):
    launch_id, _, _ = there
    with transaction() as session:
        launches.settle(session, launch_id)
        act = relaunch.release(session, make_who(session), launch_id, "to launch")
        kept = act.frozen["list"]

    sheet = fetch(f"/relaunch/{launch_id}", queries=WHOLE_SHEET)

    assert ", as shipped" in sheet
    assert "version 0" not in sheet
    assert kept.endswith(", as shipped")


def test_a_boats_timeline_tells_releases_that_were_taken_back_and_calling_off(client, fetch, there):
    launch_id, _, _ = there
    with transaction() as session:
        launches.settle(session, launch_id)
        who = make_who(session)
        act = relaunch.release(session, who, launch_id, "to launch")
        relaunch.take_release_back(session, who, launch_id, act.id, "wind over the limit")
        launches.answer(session, launch_id, "first_trial", answer="no", note="no trial yet")
        relaunch.call_off(session, who, launch_id, "sold as she lies")
        vessel_id = relaunch.launch_sheet(session, who, launch_id).vessel.id

    told = client.get(f"/boats/{vessel_id}/timeline?group=launch").text.lower()

    for words in ("launch planned", "released to launch", "release taken back", "follow-up answered: ", "called off"):
        assert words in told
    assert "lock fitted" not in told
