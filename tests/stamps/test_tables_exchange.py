"""Tables as JSON files and lists as CSV: what goes out comes in, and what can't be taken is refused by line."""

import json

import pytest

from tests.stamps.small_tables import hand, millimetres, prefix, table
from yardapp.stamps.tables import (
    SCHEMA,
    Also,
    Entry,
    ExchangeRefused,
    Holds,
    Number,
    Place,
    Source,
    as_plain,
    entries_from_csv,
    entries_to_csv,
    from_json,
    from_plain,
    shipped,
    to_json,
)

SOUND = """{
  "schema": 1,
  "maker": "Ombry",
  "places": [
    {"tells": "nothing", "written": "literal", "literal": "HP", "meaning": {"kind": "nothing"}},
    {
      "tells": "diameter",
      "written": "digits",
      "shortest": 3,
      "longest": 3,
      "meaning": {"kind": "number", "unit": "mm"}
    }
  ]
}
"""


def faults(text):
    with pytest.raises(ExchangeRefused) as refused:
        from_json(text)
    return [(fault.line, fault.path, fault.said) for fault in refused.value.problems]


@pytest.mark.parametrize("one", shipped(), ids=lambda one: one.name)
def test_what_goes_out_comes_in_the_same(one):
    assert from_json(to_json(one)) == one
    assert from_plain(json.loads(json.dumps(as_plain(one)))) == one


def test_a_file_is_read_with_what_is_usual_left_out():
    assert from_json(SOUND) == table(prefix("HP"), millimetres(), certainty=None)
    assert from_json("\ufeff" + SOUND) == from_json(SOUND.encode())


def test_the_published_schema_says_what_every_object_may_hold():
    def objects(schema):
        if isinstance(schema, dict):
            if schema.get("type") == "object":
                yield schema
            for below in schema.values():
                yield from objects(below)
        elif isinstance(schema, list):
            for below in schema:
                yield from objects(below)

    assert SCHEMA["$schema"] == "https://json-schema.org/draft/2020-12/schema"
    assert all(one["additionalProperties"] is False for one in objects(SCHEMA))
    assert all(set(one["required"]) <= one["properties"].keys() for one in objects(SCHEMA))


def test_broken_json_is_refused_with_its_line():
    assert faults(SOUND.replace('"longest": 3,', '"longest": ,')) == [(10, "", "it is no JSON: Expecting value")]


@pytest.mark.parametrize(
    ("was", "is_now", "line", "path", "said"),
    [
        ('"schema": 1', '"schema": 2', 2, "schema",
         "the file is of schema 2, newer than the 1 that this yardapp knows"),
        ('"maker": "Ombry",', "", 1, "", "`maker` is missing"),
        ('"Ombry"', "7", 3, "maker", "must be a text"),
        ('"longest": 3', '"longest": 3.5', 10, "places[1].longest", "must be a whole number"),
        ('"longest": 3', '"longest": 99', 10, "places[1].longest", "must be at most 24"),
        ('"longest": 3', '"longest": 2', 10, "places[1].longest",
         "Place 2: its longest, 2, is shorter than its shortest, 3."),
        ('"longest": 3', '"longst": 3', 10, "places[1].longst", "`longst` is not known here"),
        ('"kind": "number"', '"kind": "guess"', 11, "places[1].meaning",
         "must have a kind: one of number, list, run, special, text, nothing"),
        ('"unit": "mm"', '"unit": "furlong"', 11, "places[1].meaning.unit",
         "must be one of nothing, mm, cm, m, in, count, ratio, percent, year"),
        ('"unit": "mm"', '"unit": "year"', 11, "places[1].meaning.unit",
         "Place 2: a diameter is told in mm or cm or m or in, not in `year`."),
        ('"shortest": 3,', '"shortest": 3, "shortest": 4,', 9, "places[1].shortest", "stands twice"),
    ],
)  # fmt: skip
def test_a_file_that_is_no_table_is_refused_with_line_and_path(was, is_now, line, path, said):
    assert (line, path, said) in faults(SOUND.replace(was, is_now))


def test_a_refusal_names_line_and_path_in_its_words():
    with pytest.raises(ExchangeRefused, match=r"^line 3, maker: must be a text$"):
        from_json(SOUND.replace('"Ombry"', "7"))


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ('{"notes": "' + "x" * (1 << 20) + '"}', "a table has at most 1048576"),
        ("[" * 100_000, "it is nested too deep to be a table"),
        ('{"schema": NaN}', "NaN is no number"),
        ("9" * 5000, "it is no JSON"),
        (b"\xff\xfe", "it is no UTF-8 text"),
        ("", "it is no JSON"),
        ("[]", "must be an object"),
    ],
)
def test_a_file_that_is_huge_or_no_file_at_all_is_refused(text, said):
    with pytest.raises(ExchangeRefused, match=said):
        from_json(text)


def test_a_table_that_contradicts_itself_is_refused_when_it_comes_in():
    both = table(
        Place("diameter", "digits", Number("mm"), longest=3), Place("pitch", "digits", Number("mm"), longest=3)
    )

    assert "can take the same characters" in faults(to_json(both))[0][2]


@pytest.mark.parametrize(
    "pasted",
    [
        "A\t455\nB\t18.5\nX\t\task",
        "A,455\nB,18.5\nX,,ask\n",
        "A;455\nB;18,5\nX;;ask",
        "code\tvalue\twords\nA\t455\t\nB\t18 1/2\t\nX\t\task",
        "words;code;value\n;A;455\n;B;18½\nask;X;\n\n",
        '\ufeff"A","455"\r\n"B","18.5"\r\n"X","","ask"',
    ],
)
def test_a_list_is_taken_as_a_spreadsheet_gives_it(pasted):
    assert entries_from_csv(pasted) == (Entry("A", 455.0), Entry("B", 18.5), Entry("X", None, "ask"))


def test_words_are_taken_where_a_list_has_no_numbers():
    assert entries_from_csv("R,right\nL,left") == (Entry("R", "right"), Entry("L", "left"))


def test_a_list_that_goes_out_comes_in_the_same():
    entries = (
        Entry("A", 455.0),
        Entry("B", "left", 'says "port", always'),
        Entry("C", 18.125, "", (), Source("Foreman", "1968-11-20", "letter 3", 0.5), Holds(1960, 1973)),
        Entry(
            "D",
            18.5,
            "",
            (Also("bore", 1.5, "in"), Also("material", "manganese bronze", "")),
            Source(),
            Holds(None, None, 4100, 5200),
        ),
    )

    assert entries_from_csv(entries_to_csv(entries)) == entries
    assert entries_from_csv(entries_to_csv(entries, is_brief=True)) == entries


def test_a_brief_list_has_only_the_columns_that_say_something():
    entries = (Entry("A", 455.0), Entry("B", 460.0, "", (Also("bore", 40.0, "mm"),)))

    assert entries_to_csv(entries, is_brief=True) == "code,value,words,also\nA,455,,\nB,460,,bore 40 mm\n"


@pytest.mark.parametrize(
    ("pasted", "line", "said"),
    [
        ("A,455\n,460", 2, "there is no code"),
        ("A,455\nB,4..5", 2, "`4..5` is no value"),
        ("A;455\nB;1,200", 2, "`1,200` may be 1.200 or 1200. Type it without the comma."),
        ("code,value,certainty\nA,455,sure", 2, "`sure` is no certainty"),
        ("code,value,from\nA,455,74", 2, "`74` is no year"),
        ("code,serial from\nA,4x", 2, "`4x` is no serial number"),
        ("code,also\nA,40", 2, "`40` tells nothing; write it as bore 40 mm"),
        ("code,price\nA,1", 1, "column `price` is not known"),
        ("A,455,good,more", 1, "there are 4 cells, and 3 columns: code, value, words"),
        ('A,"455', 1, "a quote is opened and not closed"),
    ],
)
def test_a_line_that_can_not_be_read_is_named_and_nothing_is_taken(pasted, line, said):
    with pytest.raises(ExchangeRefused) as refused:
        entries_from_csv(pasted)

    assert refused.value.problems[0].line == line
    assert refused.value.problems[0].said.startswith(said)


def test_only_the_hand_list_of_a_small_table_has_no_unit_in_its_file():
    plain = as_plain(table(millimetres(), hand()))

    assert plain["places"][0]["meaning"] == {"kind": "number", "unit": "mm"}
    assert "unit" not in plain["places"][1]["meaning"]
