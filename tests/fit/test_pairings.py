"""Every pairing that was worked by hand comes out as it was worked."""

import pytest

from tests.fit.pairings import PAIRINGS, Pairing
from tests.fit.power_pairings import POWER_PAIRINGS
from yardapp.fit.verdict import judge


@pytest.mark.parametrize("pairing", [*PAIRINGS, *POWER_PAIRINGS], ids=lambda pairing: pairing.given)
def test_the_pairing_comes_out_as_worked_by_hand(pairing: Pairing):
    verdict = judge(pairing.propeller, pairing.drive, rule=pairing.rule, ask=pairing.ask)

    found = {check.name: check.verdict for check in verdict.checks}
    assert {name: found.get(name) for name in pairing.checks} == pairing.checks, pairing.why
    assert verdict.verdict == pairing.verdict, pairing.why
    assert pairing.work is None or pairing.work in verdict.works, verdict.works
