"""Blank tags and photo marks through the second door."""

import pytest

from tests.gear.test_photo_marks import photographed

ARROW = {"kind": "arrow", "from_x_ratio": 0.1, "from_y_ratio": 0.2, "to_x_ratio": 0.5, "to_y_ratio": 0.6}


def test_a_batch_of_blank_tags_is_taken_and_bound_when_things_are_logged(ada):
    taken = ada.post("/blank-tags", {"kind": "propeller", "count": 3}).get_json()["tags"]
    nut = ada.post("/blank-tags", {"kind": "nut", "count": 1}).get_json()["tags"][0]

    logged = ada.post("/propellers", {"place": "Rack A", "tag": "P-0002"}).get_json()
    part = ada.post("/parts", {"kind": "nut", "place": "Rack A", "tag": nut["tag"]}).get_json()

    assert [one["tag"] for one in taken] == ["P-0001", "P-0002", "P-0003"]
    assert (taken[0]["kind"], taken[0]["address"]) == ("propeller", "/t/P-0001")
    assert (logged["tag"], part["tag"]) == ("P-0002", "N-0001")
    assert [one["tag"] for one in ada.get("/blank-tags").get_json()["tags"]] == ["P-0001", "P-0003"]
    # The next one without a tag comes after those that were taken.
    assert ada.post("/propellers", {"place": "Rack A"}).get_json()["tag"] == "P-0004"


def test_a_retry_gets_the_same_batch_again(ada):
    key = {"Idempotency-Key": '"0b4cd2f0-batch"'}
    first, second = (ada.post("/blank-tags", {"kind": "shaft", "count": 2}, key).get_json() for _ in range(2))

    assert first == second
    assert len(ada.get("/blank-tags").get_json()["tags"]) == 2


@pytest.mark.parametrize("where", ["propellers", "shafts", "parts"])
def test_a_tag_that_is_not_blank_or_another_kinds_is_a_wrong_field(ada, must_refuse, where):
    ada.post("/blank-tags", {"kind": "anode", "count": 1})
    kind = {"kind": "nut"} if where == "parts" else {}

    for tag in ("A-0001", "P-0999"):
        said = must_refuse(ada.post(f"/{where}", {"place": "Rack A", "tag": tag, **kind}), 422)
        assert tag in said["tag"]


def test_only_the_yard_takes_and_sees_blank_tags(caller_as, must_refuse):
    owner = caller_as("R. Thorne", "owner")

    must_refuse(owner.post("/blank-tags", {"kind": "shaft", "count": 1}), 403)
    must_refuse(owner.get("/blank-tags"), 403)


def test_arrows_are_drawn_read_and_taken_away(ada, client):
    photographed(client)

    drawn = ada.post("/photos/1/marks", {**ARROW, "words": "Crack"})
    (mark,) = drawn.get_json()["marks"]
    listed = ada.get("/items/P-0001/photos").get_json()["photos"]
    gone = ada.post("/photos/1/marks-away", {"mark_id": mark["id"]}).get_json()

    assert (drawn.status_code, drawn.headers["Location"]) == (201, "/api/v1/photos/1")
    assert {name: mark[name] for name in ARROW} == ARROW
    assert (mark["words"], mark["said_by"]) == ("Crack", "Ada Brook")
    assert [(one["id"], one["tag"], one["caption"], len(one["marks"])) for one in listed] == [
        (1, "P-0001", "look 1", 1)
    ]
    assert gone["marks"] == ada.get("/photos/1").get_json()["marks"] == []


def test_what_can_not_be_drawn_is_told_beside_its_name(ada, client, must_refuse):
    photographed(client)
    short = {**ARROW, "to_x_ratio": 0.1, "to_y_ratio": 0.2}

    assert set(must_refuse(ada.post("/photos/1/marks", short), 422)) == {"to_x_ratio"}
    assert set(must_refuse(ada.post("/photos/1/marks", {**ARROW, "to_y_ratio": 1.2}), 422)) == {"to_y_ratio"}
    assert set(must_refuse(ada.post("/photos/1/marks-away", {"mark_id": 7}), 422)) == {"mark_id"}
    must_refuse(ada.post("/photos/9/marks", ARROW), 404)
    must_refuse(ada.get("/photos/9"), 404)


def test_a_caption_is_put_right_and_the_former_one_stays(ada, client, must_refuse):
    photographed(client)

    said = ada.post("/photos/1/captions", {"caption": "blade 2"}).get_json()

    assert said["caption"] == "blade 2"
    assert [(one["caption"], one["said_by"]) for one in said["former_captions"]] == [("look 1", "Ada Brook")]
    assert ada.get("/items/P-0001/photos").get_json()["photos"][0]["caption"] == "blade 2"
    assert set(must_refuse(ada.post("/photos/1/captions", {"caption": "blade 2"}), 422)) == {"caption"}
    assert set(must_refuse(ada.post("/photos/1/captions", {"caption": " "}), 422)) == {"caption"}
    must_refuse(ada.post("/photos/9/captions", {"caption": "x"}), 404)
