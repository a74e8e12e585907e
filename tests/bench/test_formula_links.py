"""Every number that a sheet shows opens to its formula."""

import re

from tests.bench.surveys import cells_of, reading_of
from tests.factories.bench import make_diameter_sheet, make_pitch_sheet
from tests.factories.gear import make_propeller
from tests.factories.people import make_who
from yardapp.bench import services as bench
from yardapp.db import transaction


def test_each_sum_of_a_sheet_leads_to_its_formulas_page(client):
    with transaction() as session:
        tag = make_propeller(session).tag
        sheets = [make_pitch_sheet(session, tag).id, make_diameter_sheet(session, tag).id]

        survey = reading_of(cells_of(0.450), diameter_m=0.6, u_diameter_m=0.0005)
        sheets.append(bench.measure_survey(session, make_who(session), tag, survey).id)

    for sheet in sheets:
        links = set(
            re.findall(r'href="(/how/[\w.]+)"', client.get(f"/bench/sheets/{sheet}", follow_redirects=True).text)
        )
        assert links
        assert {link: client.get(link).status_code for link in links} == dict.fromkeys(links, 200)
