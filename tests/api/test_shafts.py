import pytest

from yardapp.gear.figures import figures_of


def test_a_shaft_gets_a_tag_of_its_own(ada):
    answer = ada.post("/shafts", {"place": "shed", "diameter": "1 1/2 in", "length": "2 m", "taper": "1:16"})
    said = answer.get_json()

    assert answer.headers["Location"] == "/api/v1/shafts/S-0001"
    assert said["figures"]["diameter_m"]["value"] == pytest.approx(0.0381)
    assert said["figures"]["length_m"]["value"] == 2.0
    assert ada.get("/shafts/S-0001").get_json() == said
    assert [one["tag"] for one in ada.get("/shafts").get_json()["items"]] == ["S-0001"]
    assert ada.get("/propellers").get_json()["items"] == []


def test_every_figure_of_a_shaft_may_be_said(ada):
    numbers = {figure.name: 0.09 for figure in figures_of("shaft") if not figure.is_word}

    said = ada.post("/shafts", {"place": "shed", "material": "stainless steel", **numbers}).get_json()

    shown = {name: figure["value"] for name, figure in said["figures"].items()}
    assert shown == {**numbers, "material": "stainless steel"}


def test_a_shaft_has_no_pitch(ada, must_refuse):
    assert set(must_refuse(ada.post("/shafts", {"place": "shed", "pitch": "18 in"}), 422)) == {"pitch"}


def test_the_record_of_a_shaft_changes(ada, must_refuse):
    ada.post("/shafts", {"place": "shed"})

    said = ada.patch("/shafts/S-0001", {"version": 1, "note": "bent"}).get_json()

    assert (said["note"], said["place"]) == ("bent", "shed")
    must_refuse(ada.patch("/propellers/S-0001", {"version": 2, "note": "straight"}), 404)
    must_refuse(ada.patch("/shafts/S-0001", {"version": 1, "note": "straight"}), 409)
