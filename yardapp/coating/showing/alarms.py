"""The moments to come at which a phone sounds, and what it says then."""

from collections.abc import Iterator

from yardapp.coating.standing import Standing, UnitStanding

SOON_S = 600


def alarms(standing: Standing) -> Iterator[tuple[float, str]]:
    """Every moment to come at which a phone sounds, and what it says then."""
    told = [one for unit in standing.units for one in _alarms_of(unit)]
    for pot in standing.pots:
        if pot.good_until_s is not None:
            told.append((pot.good_until_s - SOON_S, f"{pot.product}: 10 minutes of its pot life left"))
            told.append((pot.good_until_s, f"{pot.product} is past its pot life"))
    if standing.gate.due_s is not None and any(unit.phase not in ("curing", "cured") for unit in standing.units):
        told.append((standing.gate.due_s, "Read the weather again"))
    yield from ((at_s, words) for at_s, words in told if at_s > standing.now_s)


def _alarms_of(unit: UnitStanding) -> Iterator[tuple[float, str]]:
    if unit.phase in ("curing", "cured", "running", "missed"):
        return
    if unit.test_s is not None:
        yield unit.test_s, f"{unit.label}: touch it"
    if unit.opens_s is not None:
        yield unit.opens_s, f"{unit.label}: {unit.name} may go on"
    if unit.shuts_s is not None:
        yield unit.shuts_s - SOON_S, f"{unit.label}: 10 minutes left for {unit.name}"
        yield unit.shuts_s - SOON_S / 5, f"{unit.label}: 2 minutes left for {unit.name}"
        yield unit.shuts_s, f"{unit.label}: its window has shut"
