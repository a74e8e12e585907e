import pytest


def test_a_size_is_read_as_people_write_it(ada):
    answer = ada.post("/sizes/read", {"text": '23 1/2"', "kind": "length"})

    assert answer.status_code == 200
    # 23.5 x 25.4 mm, the inch by international agreement of 1959.
    assert answer.get_json() == {"value": 0.5969, "si_unit": "m", "unit": "in", "assumed": False, "why": ""}


def test_a_unit_that_nobody_wrote_is_said_to_be_assumed(ada):
    bare = ada.post("/sizes/read", {"text": "597"}).get_json()
    told = ada.post("/sizes/read", {"text": "23.5", "assume": "inches"}).get_json()

    assert (bare["value"], bare["unit"], bare["assumed"]) == (0.597, "mm", True)
    assert "above 60 is read as mm" in bare["why"]
    assert (told["value"], told["unit"], told["assumed"]) == (0.5969, "in", True)


def test_every_kind_comes_in_si(ada, subtests):
    cases = [
        ("1:16", "taper", 0.0625, "1"),
        ("28 kW", "power", 28000.0, "W"),
        ("3000 rpm", "rotation", 50.0, "rev/s"),
        ("3", "count", 3.0, "1"),
    ]
    for text, kind, value, si_unit in cases:
        with subtests.test(str((text, kind, value, si_unit))):
            answer = ada.post("/sizes/read", {"text": text, "kind": kind}).get_json()

            assert (answer["value"], answer["si_unit"]) == (pytest.approx(value, rel=1e-12), si_unit)


def test_a_text_that_is_no_size_is_told_beside_its_name(ada, must_refuse):
    said = must_refuse(ada.post("/sizes/read", {"text": "23..5"}), 422)

    assert said == {"text": "`23..5` is not a size. Try 23.5, 23 1/2 or 597 mm."}


def test_a_unit_of_another_kind_can_not_be_assumed(ada, must_refuse):
    said = must_refuse(ada.post("/sizes/read", {"text": "38", "kind": "length", "assume": "hp"}), 422)

    assert said == {"assume": "`hp` is no unit that a length is written in here."}
