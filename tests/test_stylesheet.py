"""All the parts' stylesheets in one answer, and none lost on the way."""

import re
from pathlib import Path

from yardapp.paths import ROOT
from yardapp.stylesheet import one_sheet

CSS = ROOT / "static" / "css"


def without_addresses(text):
    return re.sub(r'url\("[^"]+"\)', "", text)


def test_the_one_sheet_holds_every_sheet_and_imports_nothing():
    whole = one_sheet(CSS)

    assert "@import" not in whole
    for path in CSS.rglob("*.css"):
        if path.name != "main.css":
            assert re.sub(r'url\("[^"]+"\)', "", path.read_text()).strip() in re.sub(r'url\("[^"]+"\)', "", whole), (
                path.name
            )


def test_every_file_that_the_one_sheet_points_at_is_there():
    for name in re.findall(r'url\("(?!data:)([^"]+)"\)', one_sheet(CSS)):
        assert (CSS / name).resolve().exists(), name


def test_a_page_asks_for_the_one_sheet_and_may_keep_it(client):
    address = re.search(r'<link rel="stylesheet" href="([^"]+)"', client.get("/rack").text)[1]

    answer = client.get(address)

    assert Path(address).name == "all.css"
    assert answer.mimetype == "text/css"
    assert "immutable" in answer.headers["Cache-Control"]
    assert "@layer settings" in answer.text
