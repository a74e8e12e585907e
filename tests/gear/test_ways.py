"""A figure that a sheet worked out leads to its formula's page."""

import re

import pytest

from tests.factories.bench import make_pitch_sheet
from tests.factories.gear import make_propeller
from yardapp import handbook
from yardapp.db import transaction
from yardapp.gear.showing.ways import WAYS


@pytest.mark.parametrize("name", [name for names in WAYS.values() for name in names])
def test_every_way_that_is_named_is_a_formula_with_a_page(name):
    assert handbook.entry(name).name == name


def test_a_figure_that_a_sheet_worked_out_leads_to_its_formulas(client, fetch):
    with transaction() as session:
        tag = make_propeller(session, pitch_m=None, diameter_m=None).tag
        make_pitch_sheet(session, tag)

    html = fetch(f"/propellers/{tag}")

    assert "Pitch is worked out from readings" in html
    assert "Diameter is worked out from readings" not in html
    links = set(re.findall(r'href="(/how/[\w.]+)"', html + fetch(f"/items/{tag}/figures/pitch_m")))
    assert {client.get(link).status_code for link in links} == {200}
