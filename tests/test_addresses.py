"""Addresses that were ever printed on a tag, a label or a sheet must answer for ever. Lines are only added here."""

import pytest

from tests.factories.gear import make_propeller
from tests.factories.people import make_who
from yardapp.db import transaction
from yardapp.gear import services as gear

PRINTED = {
    "/t/P-0001": "/propellers/P-0001",
    "/t/p-0001": "/propellers/P-0001",
    "/t/S-0001": "/shafts/S-0001",
    "/t/N-0001": "/nuts/N-0001",
    "/b/1": "/rack/bins/1",
}


@pytest.mark.parametrize(("printed", "leads_to"), PRINTED.items())
def test_a_printed_address_still_leads_to_its_page(client, printed, leads_to):
    with transaction() as session:
        make_propeller(session)
        gear.log_item(session, make_who(session), kind="shaft", place="Shaft rack")
        gear.log_part(session, make_who(session), kind="nut", place="Rack A")
        gear.add_bins(session, make_who(session), rack="C", bins=1)

    answer = client.get(printed, follow_redirects=True)

    assert answer.status_code == 200
    assert answer.request.path == leads_to
