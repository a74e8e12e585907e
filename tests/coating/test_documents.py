import io

import pytest
from PIL import Image

from tests.factories.coating import make_system
from yardapp.db import transaction

PDF = b"%PDF-1.4 an invented sheet"


@pytest.fixture
def system(register):
    with transaction() as session:
        return make_system(session)


def attach(client, system, content, name):
    return client.send(f"/coating/systems/{system}/document", document=(io.BytesIO(content), name))


def test_a_data_sheet_is_attached_as_it_came_and_opened_again(client, fetch, system):
    fetch(f"/coating/systems/{system}/document")

    assert attach(client, system, PDF, "primer sheet.pdf").status_code == 303

    text = fetch(f"/coating/systems/{system}", queries=4)
    assert "primer sheet.pdf" in text
    assert "with version 1" in text
    address = text[text.index("/coating/documents/") :].partition('"')[0]
    opened = client.get(address)
    assert (opened.data, opened.mimetype) == (PDF, "application/pdf")
    assert opened.headers["Content-Disposition"].startswith("attachment")


def test_a_photo_of_the_page_will_do(client, fetch, system):
    picture = io.BytesIO()
    Image.new("RGB", (40, 30), "white").save(picture, "PNG")

    assert attach(client, system, picture.getvalue(), "page.png").status_code == 303

    text = fetch(f"/coating/systems/{system}", queries=4)
    address = text[text.index("/coating/documents/") :].partition('"')[0]
    assert client.get(address).location.startswith("/photos/")


@pytest.mark.parametrize(("content", "name"), [(b"no sheet", "notes.txt"), (b"", "")])
def test_what_is_neither_pdf_nor_photo_is_refused_beside_its_box(client, system, content, name):
    answer = attach(client, system, content, name)

    assert answer.status_code == 422
    assert 'id="document-said">' in answer.text


def test_an_owner_attaches_no_data_sheet(client_as, system):
    assert attach(client_as("R. Thorne", "owner"), system, PDF, "a.pdf").status_code == 403


def test_a_data_sheet_that_is_not_there_is_not_found(client, system):
    assert client.get(f"/coating/documents/{'0' * 64}").status_code == 404
