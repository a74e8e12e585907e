"""Blade area, weight and kind of blades: figures like the others, each in a box of its own kind."""

import pytest
from sqlalchemy import select

from tests.factories.gear import make_propeller
from yardapp.db import transaction
from yardapp.fit.services import propeller_figures
from yardapp.gear.models import Item


@pytest.fixture
def tag(register):
    with transaction() as session:
        return make_propeller(session).tag


@pytest.mark.parametrize(
    ("what", "typed", "kept"),
    [
        ("area_ratio", {"number": "0.55"}, 0.55),
        ("mass_kg", {"mass": "20 lb"}, pytest.approx(20 * 0.45359237)),
        ("blade_kind", {"word": "folding"}, "folding"),
    ],
)
def test_a_figure_of_the_blades_is_typed_in_its_own_box_and_kept(client, fetch, tag, what, typed, kept):
    answer = client.send(f"/items/{tag}/figures/{what}", basis="measured", **typed)

    assert answer.status_code == 303, answer.text
    with transaction() as session:
        assert getattr(session.scalars(select(Item).where(Item.tag == tag)).one(), what) == kept
    assert fetch(f"/items/{tag}/figures/{what}")


@pytest.mark.parametrize(("what", "typed"), [("area_ratio", {"number": "7"}), ("blade_kind", {"word": "wings"})])
def test_what_no_propeller_can_have_is_refused(client, tag, what, typed):
    assert client.send(f"/items/{tag}/figures/{what}", basis="measured", **typed).status_code == 422


def test_the_judge_hears_of_them(client, tag):
    client.send(f"/items/{tag}/figures/area_ratio", basis="measured", number="0.55")
    client.send(f"/items/{tag}/figures/blade_kind", basis="measured", word="folding")

    with transaction() as session:
        figures = propeller_figures(session.scalars(select(Item).where(Item.tag == tag)).one())

    assert figures.area_ratio.value == 0.55
    assert figures.kind == "folding"
