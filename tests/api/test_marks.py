def test_a_stamp_is_read_and_nothing_is_kept(ada):
    answer = ada.post("/marks/read", {"text": "22 x 18 RH"})
    read = answer.get_json()

    assert answer.status_code == 200
    # 22 and 18 times 25.4 mm.
    assert (read["diameter_m"], read["pitch_m"], read["hand"]) == (0.5588, 0.4572, "right")
    assert (read["unit"], read["unit_assumed"]) == ("in", True)
    assert read["blades"] is None
    assert ada.get("/propellers").get_json()["items"] == []


def test_what_can_not_be_read_is_said_and_never_guessed(ada):
    read = ada.post("/marks/read", {"text": "22 x 1?"}).get_json()

    assert read["pitch_m"] is None
    assert "10 to 19 in" in read["possible_pitches"]
