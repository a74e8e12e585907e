"""Every number that a sheet shows opens to its formula."""

import re

from tests.factories.bench import make_diameter_sheet, make_pitch_sheet
from tests.factories.gear import make_propeller
from yardapp.db import transaction


def test_each_sum_of_a_sheet_leads_to_its_formulas_page(client, fetch):
    with transaction() as session:
        tag = make_propeller(session).tag
        sheets = [make_pitch_sheet(session, tag).id, make_diameter_sheet(session, tag).id]

    for sheet in sheets:
        links = set(re.findall(r'href="(/how/[\w.]+)"', fetch(f"/bench/sheets/{sheet}")))
        assert links
        assert {link: client.get(link).status_code for link in links} == dict.fromkeys(links, 200)
