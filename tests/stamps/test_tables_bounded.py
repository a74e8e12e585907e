"""Nothing that is typed, pasted or imported hangs or raises anything but the package's own refusals.

Work is counted in steps of the walk, not in seconds, so that a slow machine can't fail these.
"""

import json
import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.stamps.small_tables import hand, millimetres, prefix, run, serial, table
from yardapp.stamps.tables import (
    MOST_READINGS,
    SCHEMA,
    Also,
    Entry,
    ExchangeRefused,
    FreeText,
    Holds,
    Lookup,
    MarkRefused,
    Measured,
    Nothing,
    Number,
    Place,
    Run,
    Source,
    Special,
    Table,
    TableRefused,
    Words,
    check,
    compile_table,
    entries_from_csv,
    from_json,
    from_plain,
    learn,
    read,
    reverse,
    shelf_of,
    shipped,
)
from yardapp.stamps.tables.learn import Observation
from yardapp.stamps.tables.walk import MOST_STEPS, Budget

# Makers with nothing to hold on to: every place may be almost anything.
OPEN = [
    table(
        Place("series", "any", FreeText(), shortest=1, longest=24),
        serial(6, 6, separators=("=",)),
        *(Place("nothing", "letters", Nothing(), longest=24, separators=("=",)) for _ in range(5)),
    ),
    table(*(Place("nothing", "digits", Nothing(), shortest=1, longest=9, separators=("-",)[:at]) for at in range(2))),
    table(Place("pitch", "list", Lookup(tuple(Entry(f"{at:04d}", 300.0 + at) for at in range(1000)), "mm"))),
]
SHELF = shelf_of([*shipped(), *OPEN, *(table(prefix(f"H{at}"), millimetres(), run(), hand()) for at in range(30))])

typed = st.text(alphabet="?*[]B8O05S1IKMRLHPXT -/.=\"'", max_size=85) | st.text(max_size=30)
figures = st.floats() | st.sampled_from([0.0, -1.0, 0.56, math.nan, math.inf, 1e300])
measured = st.dictionaries(
    st.sampled_from(["diameter_m", "pitch_m", "bore_m", "area_ratio", "colour"]), st.builds(Measured, figures, figures)
) | st.dictionaries(st.sampled_from(["hand", "blades", "year"]), st.text(max_size=3) | st.integers())


def taken(refusal, take, *given):
    """What it gives, or None where it refuses; any other error is one."""
    try:
        return take(*given)
    except refusal:
        return None


@pytest.fixture
def steps(monkeypatch):
    """Each step that a walk takes is counted."""
    counted = []
    spend = Budget.spend

    def count(self, many=1):
        counted.append(many)
        spend(self, many)

    monkeypatch.setattr(Budget, "spend", count)
    return counted


@pytest.mark.parametrize(
    "seen",
    ["*", "?" * 80, "********", "*?" * 40, "*1" * 40, "*A" * 40, "[0O]" * 80, "[" + "A1" * 30 + "]" * 1 + "*", "?" * 8],
)
def test_a_mark_of_wildcards_costs_a_bounded_number_of_steps(seen, steps):
    readings = read(seen, SHELF)

    assert sum(steps) <= MOST_STEPS + len(SHELF)
    assert len(readings.found) <= MOST_READINGS
    assert readings.count >= len(readings.found)


@settings(deadline=None, max_examples=200)
@given(typed, measured)
def test_whatever_is_typed_is_read_or_refused(seen, known):
    readings = taken(MarkRefused, read, seen, SHELF, known)

    if readings is None:
        return
    assert len(readings.found) <= MOST_READINGS
    assert readings.said
    scores = [reading.score for reading in readings.found]
    assert scores == sorted(scores, reverse=True)
    assert all(reading.why is not None and math.isfinite(reading.score) for reading in readings.found)


@settings(deadline=None)
@given(st.dictionaries(st.sampled_from(["diameter_m", "pitch_m", "bore_m", "hand", "blades"]), figures, min_size=1))
def test_whatever_is_wanted_the_marks_are_few(wanted):
    found = [one for compiled in SHELF for one in reverse(compiled, wanted)]

    assert len(found) <= 10 * len(SHELF)


@settings(deadline=None)
@given(st.lists(st.builds(Observation, typed, measured), max_size=8))
def test_whatever_is_observed_only_proposals_come_of_it(observations):
    for compiled in SHELF.compiled[:4]:
        assert all(proposal.said for proposal in learn(observations, compiled))


words = st.text(alphabet="AB1?* -", max_size=3)
small = st.integers(-2, 30)
numbers = st.floats(width=16) | st.integers(-5, 500)
sources = st.builds(Source, certainty=st.none() | st.floats(-1, 2))
holds = st.builds(Holds, st.none() | st.integers(1900, 2000), st.none() | st.integers(1900, 2000))
units = st.sampled_from(["mm", "in", "count", "year", "", "furlong"])
things = st.sampled_from(["diameter", "pitch", "hand", "blades", "serial", "series", "nothing", "year", "colour"])
values = st.none() | numbers | words
alsos = st.lists(st.builds(Also, things, numbers, units), max_size=1).map(tuple)
entries = st.builds(Entry, words, values, words, alsos, sources, holds)
meanings = st.one_of(
    st.builds(Number, units, numbers, numbers, st.none() | numbers),
    st.builds(Lookup, st.lists(entries, max_size=3).map(tuple), units, st.none() | numbers),
    st.builds(Run, words, numbers, numbers, words, words, units),
    st.sampled_from([Words(), FreeText(), Nothing()]),
)
places = st.builds(
    Place,
    things,
    st.sampled_from(["digits", "letters", "list", "literal", "size", "any", "runes"]),
    meanings,
    words,
    small,
    small,
    st.lists(words, max_size=2).map(tuple),
    st.booleans(),
    st.lists(st.builds(Special, words, words), max_size=2).map(tuple),
    words,
    sources,
    holds,
)
tables = st.builds(Table, words, words, st.lists(places, max_size=4).map(tuple), sources, holds, small, words)


@settings(deadline=None, max_examples=300)
@given(tables)
def test_whatever_table_is_written_is_sound_or_refused_in_words(written):
    problems = check(written)

    assert all(problem.said.endswith((".", "?")) for problem in problems)
    if problems:
        with pytest.raises(TableRefused):
            compile_table(written)
    else:
        assert compile_table(written).grammar.shortest >= 1


json_values = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=5) | st.sampled_from(["mm", "pitch"]),
    lambda below: (
        st.lists(below, max_size=3)
        | st.dictionaries(
            st.sampled_from([*SCHEMA["properties"], "kind", "tells", "written", "meaning"]), below, max_size=5
        )
    ),
    max_leaves=12,
)


@settings(deadline=None, max_examples=200)
@given(json_values)
def test_whatever_json_is_imported_is_a_table_or_refused(value):
    found = taken(ExchangeRefused, from_plain, value), taken(ExchangeRefused, from_json, json.dumps(value))

    assert all(one is None or check(one) == () for one in found)


@settings(deadline=None, max_examples=200)
@given(st.text(max_size=60) | st.binary(max_size=60))
def test_whatever_file_is_imported_is_a_table_or_refused(text):
    with pytest.raises(ExchangeRefused):
        from_json(text)


@settings(deadline=None, max_examples=200)
@given(st.text(alphabet='A1½,.;\t\n"/ -code', max_size=60) | st.text(max_size=40))
def test_whatever_list_is_pasted_is_taken_or_refused_by_line(text):
    found = taken(ExchangeRefused, entries_from_csv, text)

    assert found is None or all(entry.code for entry in found)
