"""A document as a file: what was put in can be read in it, whole, on numbered pages."""

import hashlib
import math
import subprocess
import sys
from pathlib import Path

import pytest

from tests.pdf.reading import pages_of
from yardapp.drawings.examples import every_drawing
from yardapp.pdf import Figures, Heading, Picture, Table, Tick, Words, written
from yardapp.pdf.course import arrow_heads, course_of
from yardapp.pdf.fonts import VENDOR, face_of


def read(*parts, title="To the shop", foot=""):
    return pages_of(written(title, parts, foot=foot, is_packed=False))


def test_every_part_says_what_it_was_given():
    (page,) = read(
        Heading("Please do"),
        Words("Bore to 38.1 mm."),
        Figures((("Diameter", "559 ± 2 mm"),)),
        Table(("Blade", "Pitch"), (("1", "410 mm"),)),
        Tick("Cotter pin in", "Ada Brook", "seen twice"),
    )

    said = page.split("\n")
    for words in ("To the shop", "Please do", "Bore to 38.1 mm.", "Diameter", "559 ± 2 mm", "Blade", "410 mm"):
        assert words in said
    assert {"Cotter pin in", "Ada Brook", "seen twice"} <= set(said)


@pytest.mark.parametrize(
    "name", ["Ægir Þórsdóttir", "Łukasz Źdźbło", "Ελένη", "Дмитрий", "Nguyễn Thị Ánh", "⌀ ± × – ′ 1⁄16"]
)
def test_a_name_stands_as_it_is_written(name):
    assert name in read(Words(name), foot=name)[0].split("\n")


@pytest.mark.parametrize("name", ["山田太郎", "김철수", "⛵🚢", "\x00\x07\ud800", ""])
def test_a_name_that_no_face_of_ours_holds_is_written_all_the_same(name):
    assert read(Words(name), title=name, foot=name)[0].count("Page 1 of 1") == 1


def test_a_letter_that_our_face_lacks_is_set_in_one_that_readers_bring():
    assert [face_of(letter) for letter in "aひ한山"] == [
        "DejaVuSans",
        "HeiseiKakuGo-W5",
        "HYGothic-Medium",
        "STSong-Light",
    ]


def test_nothing_in_the_words_is_taken_for_markup():
    assert "<b>5 < 6</b> & so on" in read(Words("<b>5 < 6</b> & so on"))[0]


def test_a_long_table_runs_on_with_its_head_and_numbers_its_pages():
    pages = read(Table(("Tag", "What"), tuple((f"P-{number:04}", "a propeller") for number in range(120))), foot="Yard")

    assert len(pages) > 2
    for number, page in enumerate(pages, 1):
        assert f"Page {number} of {len(pages)}" in page.split("\n")
        assert {"Tag", "What", "Yard"} <= set(page.split("\n"))
    assert [line for page in pages for line in page.split("\n") if line.startswith("P-")] == [
        f"P-{number:04}" for number in range(120)
    ]


def test_a_line_without_a_gap_and_a_cell_longer_than_a_page_lose_nothing():
    pages = read(Table(("Long",), (("x" * 3000,), ("word " * 3000,))))

    assert sum(page.count("x") for page in pages) == 3000
    assert sum(page.count("word") for page in pages) == 3000


def test_a_drawing_keeps_its_words():
    svg, _ = every_drawing()["propeller"]

    assert {"⌀ 559 ± 2 mm", "RH", "ahead"} <= set(read(Picture(str(svg), "As it leaves here"))[0].split("\n"))


@pytest.mark.parametrize("name", sorted(every_drawing()))
def test_every_drawing_of_ours_can_be_put_on_paper(name):
    svg, _ = every_drawing()[name]

    assert "Page 1 of 1" in read(Picture(str(svg), wide=1.0))[0]


def test_a_packed_file_holds_the_same_words_in_less_room():
    parts = [Words("Bore to 38.1 mm. " * 200), Figures((("Diameter", "559 ± 2 mm"),))]
    packed, plain = written("A", parts), written("A", parts, is_packed=False)

    assert pages_of(packed) == pages_of(plain)
    assert len(packed) < len(plain)


def test_the_same_parts_give_the_same_bytes():
    assert written("A", [Words("b")], foot="c") == written("A", [Words("b")], foot="c")


def test_an_arc_goes_round_the_way_it_is_told():
    # From (10, 0) to (0, 10) with radius 10 the centre is the origin or (10, 10), as drawn by hand.
    middles = [course_of(f"M10 0 A10 10 0 {way} 0 10")[0][0][16] for way in ("0 1", "0 0", "1 1", "1 0")]

    near = 10 * math.sqrt(0.5)
    assert middles == [
        pytest.approx((near, near)),
        pytest.approx((10 - near, 10 - near)),
        pytest.approx((10 + near, 10 + near)),
        pytest.approx((-near, -near)),
    ]


def test_an_arrow_has_its_tip_on_the_end_of_its_line():
    (head,) = arrow_heads(course_of("M0 0 L100 0"), at_start=False, at_end=True)

    assert head == [(100, 0), (92, -3.5), (92, 3.5)]


def test_the_faces_are_those_that_were_checked_in():
    for line in (VENDOR / "SHA256SUMS").read_text().splitlines():
        said, name = line.split()
        assert hashlib.sha256((VENDOR / name).read_bytes()).hexdigest() == said


def test_the_library_is_not_loaded_until_a_file_is_written():
    asked = "import sys, yardapp.rooms, yardapp.pdf; print('reportlab' in sys.modules)"
    home = Path(__file__).parents[2]

    assert subprocess.run([sys.executable, "-c", asked], capture_output=True, text=True, cwd=home).stdout == "False\n"
