from math import radians

import pytest
from sqlalchemy import select

from tests.factories.gear import make_propeller
from tests.factories.people import make_who
from yardapp.bench import services as bench
from yardapp.bench.forms import RadiusForm
from yardapp.bench.models import Sheet
from yardapp.bench.tools import TOOLS, offered
from yardapp.db import snapshot, transaction
from yardapp.errors import NotAllowed, NotFound, Refused, Superseded
from yardapp.people.models import Audit


@pytest.mark.parametrize(
    ("name", "plus_minus"),
    # The issue's own list: tape 1 mm, steel rule 0.5 mm, caliper 0.05 mm, protractor 1 degree.
    [("tape", 0.001), ("steel rule", 0.0005), ("caliper", 0.00005), ("protractor", radians(1))],
)
def test_a_new_register_has_the_usual_tools_with_their_usual_plus_minus(register, name, plus_minus):
    with snapshot() as session:
        found = bench.tools(session)

    assert found[name].plus_minus == pytest.approx(plus_minus)
    assert found[name].u == pytest.approx(plus_minus / 2)


def test_the_yard_says_anew_how_well_a_tool_reads(register):
    with transaction() as session:
        was = bench.tool_by_name(session, "tape")
        bench.change_tool(
            session,
            make_who(session),
            "tape",
            was.version,
            plus_minus=0.002,
            is_common=True,
            source="against the long rule, 3 March",
            is_used=True,
        )

    with snapshot() as session:
        tape = bench.tools(session)["tape"]
        trail = session.scalars(select(Audit).where(Audit.subject == "tool")).one()
    assert (tape.plus_minus, tape.is_common, tape.source) == (0.002, True, "against the long rule, 3 March")
    assert (trail.said["before"], trail.said["plus_minus"]) == (0.001, 0.002)


def test_two_who_change_one_tool_get_a_merge_and_no_silent_overwrite(register):
    said = {"is_common": False, "source": "", "is_used": True}
    with transaction() as session:
        version = bench.tool_by_name(session, "caliper").version
        bench.change_tool(session, make_who(session), "caliper", version, plus_minus=0.0001, **said)

    with transaction() as session, pytest.raises(Superseded) as refused:
        bench.change_tool(session, make_who(session), "caliper", version, plus_minus=0.00002, **said)

    assert refused.value.theirs["plus_minus"] == "0.1 mm"


def test_a_tool_out_of_use_is_no_longer_offered(register):
    with transaction() as session:
        version = bench.tool_by_name(session, "tape").version
        bench.change_tool(
            session,
            make_who(session),
            "tape",
            version,
            plus_minus=0.001,
            is_common=False,
            source="",
            is_used=False,
        )

    with snapshot() as session:
        found = bench.tools(session)
    assert "tape" not in offered(found, "length", ("tape", "steel rule"))
    assert offered(found, "length", ("tape", "steel rule"))[0] == "steel rule"


def test_a_tool_of_the_yards_own_joins_the_list_once(register):
    with transaction() as session:
        who = make_who(session)
        bench.add_tool(session, who, name="Caliper  2", kind="length", plus_minus=0.00003)
        with pytest.raises(Refused) as twice:
            bench.add_tool(session, who, name="caliper 2", kind="length", plus_minus=0.00003)
        assert bench.tools(session)["caliper 2"].plus_minus == 0.00003

    assert twice.value.argument == "name"


@pytest.mark.parametrize(
    ("said", "box"),
    [
        ({"name": " ", "kind": "length", "plus_minus": 0.001}, "name"),
        ({"name": "eye", "kind": "length", "plus_minus": 0.0}, "plus_minus"),
        ({"name": "eye", "kind": "length", "plus_minus": 3.0}, "plus_minus"),
        ({"name": "scale", "kind": "mass", "plus_minus": 0.1}, "kind"),
    ],
)
def test_a_tool_that_makes_no_sense_is_told_at_its_box(register, said, box):
    with transaction() as session, pytest.raises(Refused) as refused:
        bench.add_tool(session, make_who(session), **said)

    assert refused.value.argument == box


def test_an_owner_changes_no_tools_and_a_tool_unheard_of_is_not_found(register):
    with transaction() as session:
        owner = make_who(session, name="R. Thorne", role="owner")
        with pytest.raises(NotAllowed):
            bench.add_tool(session, owner, name="eye", kind="length", plus_minus=0.01)
        with pytest.raises(NotFound):
            bench.tool_by_name(session, "sextant")


def test_the_list_and_each_tool_have_pages(fetch):
    said = fetch("/bench/tools")

    assert "Swing template" in said
    assert "the same at every reading" in said
    assert "1 mm" in said
    fetch("/bench/tools/steel rule")
    fetch("/bench/tools/add/angle")
    fetch("/bench/tools/sextant", status=404)


def test_a_tool_is_changed_and_added_on_its_page(client):
    with snapshot() as session:
        version = bench.tool_by_name(session, "tape").version

    changed = client.send(
        "/bench/tools/tape", version=version, plus_minus="2", is_common="", source="a new one", is_used="yes"
    )
    added = client.send("/bench/tools/add/angle", name="Level 2", plus_minus="0.1", is_common="", source="")

    assert (changed.status_code, added.status_code) == (303, 303)
    with snapshot() as session:
        found = bench.tools(session)
    assert found["tape"].plus_minus == pytest.approx(0.002)
    assert found["level 2"].plus_minus == pytest.approx(radians(0.1))


def test_a_sheet_keeps_the_plus_minus_of_its_day_and_its_correction_reads_with_it(client):
    with transaction() as session:
        tag = make_propeller(session, diameter_m=None).tag
    client.send(f"/bench/{tag}/diameter", way="radius", tip_radius_m="279", tip_tool="tape")
    with transaction() as session:
        version = bench.tool_by_name(session, "tape").version
        bench.change_tool(
            session,
            make_who(session),
            "tape",
            version,
            plus_minus=0.003,
            is_common=False,
            source="",
            is_used=False,
        )

    client.send(
        "/bench/sheets/1/correct", way="radius", tip_radius_m="280", tip_tool="tape", why="Misread by a millimetre"
    )

    with snapshot() as session:
        first, second = session.scalars(select(Sheet).order_by(Sheet.id))
    # The tape was good to 1 mm (k = 2) on that day.
    assert (first.readings["tip_radius_m_tool"], first.readings["tip_radius_m_tool_plus_minus"]) == ("tape", 0.001)
    assert second.readings["u_tip_radius_m"] == pytest.approx(0.0005)


def test_a_sheet_reads_with_the_plus_minus_that_the_yard_gave_its_tool(client):
    with transaction() as session:
        tag = make_propeller(session, diameter_m=None).tag
        bench.add_tool(session, make_who(session), name="long tape", kind="length", plus_minus=0.004)

    client.send(f"/bench/{tag}/diameter", way="radius", tip_radius_m="279", tip_tool="long tape")

    with snapshot() as session:
        sheet = session.scalars(select(Sheet)).one()
    # ± 4 mm is 2 mm at k = 1, and a diameter is twice a radius.
    assert sheet.results["u_diameter_m"] == pytest.approx(0.004)


def test_a_form_offers_the_tools_of_its_kind_the_usual_ones_first(app):
    with app.test_request_context():
        form = RadiusForm(meta={"csrf": False})
        form.take(TOOLS)

    names = [choice.value for choice in form.tip_tool.choices]
    assert names[:2] == ["tape", "steel rule"]
    assert "protractor" not in names
