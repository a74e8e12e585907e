from tests.drawings.reading import SVG, Drawn
from yardapp.drawings.pitch_map import PitchCell, pitch_map

FOUR = [[PitchCell(label=f"{blade}{ring}", side="") for ring in "57"] for blade in "1234"]


def test_every_blade_has_a_cell_at_every_radius():
    drawn = Drawn(pitch_map(FOUR, ("0.5 R", "0.7 R")))

    assert all(drawn.named(f"{blade}/{ring}") for blade in (1, 2, 3, 4) for ring in (1, 2))
    assert all(cell.label in drawn.text for blade in FOUR for cell in blade)


def test_blades_follow_each_other_clockwise_from_the_top():
    drawn = Drawn(pitch_map(FOUR, ("0.5 R", "0.7 R")))

    numbers = {mark.text: mark for mark in drawn.root.iter(f"{SVG}text") if mark.text in ("1", "2", "3", "4")}
    x = {name: float(mark.get("x")) for name, mark in numbers.items()}
    y = {name: float(mark.get("y")) for name, mark in numbers.items()}
    assert y["1"] < y["2"] < y["3"]
    assert x["2"] > x["1"] > x["4"]


def test_high_and_low_are_said_in_words_beside_the_figure():
    cells = [[PitchCell(label="424", side="high")], [PitchCell(label="398", side="low")]]
    drawn = Drawn(pitch_map(cells, ("0.7 R",), asked_label="411 ± 8 mm"))

    assert "high 424" in drawn.text
    assert "low 398" in drawn.text
    assert "against 411 ± 8 mm" in drawn.text


def test_a_cell_that_was_not_read_stays_empty_and_is_said():
    drawn = Drawn(pitch_map([[PitchCell(label="411"), None]], ("0.5 R", "0.7 R")))

    assert "none" in drawn.named("1/2")[0].get("class")
    assert "not read" in drawn.text


def test_a_survey_without_a_blade_says_so():
    assert "No blade was read" in Drawn(pitch_map([], ())).text
