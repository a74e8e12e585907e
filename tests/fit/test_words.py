"""Figures in plain words."""

import pytest

from yardapp.fit.checks.words import listed, plain


@pytest.mark.parametrize(
    ("kind", "value", "u", "said"),
    [
        ("length", 0.0381, 0.00002, "38.100 ± 0.040 mm"),
        ("length", 0.0381, None, "38.1 mm"),
        ("length", -0.0016, 0.00045, "-1.60 ± 0.90 mm"),
        ("taper", 1 / 16, 0.2 / 256, "1:16.00 ± 0.40"),
        ("taper", 1 / 12, None, "1:12"),
        ("ratio", 0.12, 0.005, "12.0 ± 1.0 %"),
        ("power", 40e3, 1e3, "40.0 ± 2.0 kW"),
        ("length", 0.56, 0.05, "560 ± 100 mm"),
    ],
)
def test_a_figure_is_written_with_twice_its_uncertainty_to_two_figures(kind, value, u, said):
    assert plain(kind, value, u) == said


def test_words_are_joined_as_one_says_them():
    assert listed([]) == ""
    assert listed(["a"]) == "a"
    assert listed(["a", "b", "c"]) == "a, b and c"
