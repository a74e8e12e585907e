import pytest
from sqlalchemy import select

from tests.factories.gear import make_propeller
from yardapp.bench.models import Sheet
from yardapp.bench.services import DiameterReading, diameter_of
from yardapp.db import snapshot, transaction
from yardapp.errors import Refused


def test_a_string_round_three_tips_gives_the_diameter():
    # Geometry: the triangle in a circle is 1.5 times the root of 3 of its diameter round; 600 mm: 1,558.85 mm.
    outcome = diameter_of(DiameterReading(string_m=1.55885, u_string_m=0.001, blades=3))

    assert outcome.value == pytest.approx(0.600, abs=5e-6)
    assert outcome.u == pytest.approx(0.001 / 2.598, rel=1e-3)
    assert outcome.sums[0].formula == "yardapp.formulas.diameter.diameter_from_string"
    assert any("evenly spaced" in said for said in outcome.remarks)


@pytest.mark.parametrize(("blades", "argument"), [(2, "string_m"), (None, "blades"), (9, "blades")])
def test_a_string_needs_three_to_seven_blades(blades, argument):
    with pytest.raises(Refused) as refusal:
        diameter_of(DiameterReading(string_m=1.5, u_string_m=0.001, blades=blades))

    assert refusal.value.argument == argument


def test_the_shortest_tip_is_kept_beside_the_longest_and_the_longest_counts():
    outcome = diameter_of(
        DiameterReading(tip_radius_m=0.2795, u_tip_radius_m=0.0003, shortest_m=0.2765, u_shortest_m=0.0004)
    )
    wear = outcome.sum_of("wear_m")

    assert outcome.value == pytest.approx(0.559)
    assert wear.value == pytest.approx(0.003)
    assert wear.u == pytest.approx(0.0005)


def test_a_shortest_tip_beyond_the_longest_is_refused_beside_its_box():
    with pytest.raises(Refused) as refusal:
        diameter_of(DiameterReading(tip_radius_m=0.2765, shortest_m=0.2795))

    assert refusal.value.argument == "shortest_m"


def test_a_string_and_a_worn_tip_are_kept_as_they_were_typed(client, fetch):
    with transaction() as session:
        tag = make_propeller(session, blades=3).tag
    string = {"way": "string", "string_m": "1,2 m", "blades": "3", "tip_tool": "string"}
    client.send(f"/bench/{tag}/diameter", **string)
    client.send(f"/bench/{tag}/diameter", way="radius", tip_radius_m="231", shortest_m="229.5", tip_tool="tape")

    with snapshot() as session:
        first, second = session.scalars(select(Sheet).order_by(Sheet.id))
    assert first.readings["string_m_typed"] == "1,2 m"
    # 1,200 / 2.598 = 461.9; the string's usual ± is 2 mm.
    assert first.results["diameter_m"] == pytest.approx(0.4619, abs=5e-5)
    assert first.results["u_diameter_m"] == pytest.approx(0.001 / 2.598, rel=1e-3)
    assert second.results["wear_m"] == pytest.approx(0.0015)
    assert "Shortest tip behind the longest" in fetch(f"/bench/sheets/{second.id}")
    assert "Length once round" in fetch(f"/bench/{tag}/diameter/blank?way=string")
    assert "229.5" in client.get(f"/bench/sheets/{second.id}/correct").text
