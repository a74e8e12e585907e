"""Maker tables: how a maker's mark is built, and every reading that the tables of a yard allow. No register here."""

from yardapp.stamps.tables.changes import Change, changes
from yardapp.stamps.tables.check import check
from yardapp.stamps.tables.compile import CompiledTable, compile_table
from yardapp.stamps.tables.exchange import as_plain, from_json, from_plain, to_json
from yardapp.stamps.tables.learn import Observation, Proposal, learn
from yardapp.stamps.tables.learn_runs import RunFit
from yardapp.stamps.tables.lists import COLUMNS, entries_from_csv, entries_to_csv
from yardapp.stamps.tables.meanings import (
    Also,
    Entry,
    FreeText,
    Lookup,
    Meaning,
    Nothing,
    Number,
    Run,
    Special,
    Words,
)
from yardapp.stamps.tables.places import WRITTEN, Place
from yardapp.stamps.tables.rank import Measured
from yardapp.stamps.tables.read import read, reread
from yardapp.stamps.tables.reading import MOST_READINGS, Reading, Readings
from yardapp.stamps.tables.refusals import ExchangeRefused, Fault, MarkRefused, Problem, TableRefused
from yardapp.stamps.tables.reverse import WouldSay, reverse
from yardapp.stamps.tables.schema import SCHEMA, SCHEMA_VERSION
from yardapp.stamps.tables.shelf import Shelf, shelf_of
from yardapp.stamps.tables.shipped import shipped
from yardapp.stamps.tables.sources import Holds, Source
from yardapp.stamps.tables.table import STRUCK, Table
from yardapp.stamps.tables.things import THINGS, Thing
from yardapp.stamps.tables.together import Conflict, OnHub, Together, combine
from yardapp.stamps.tables.told import Told

__all__ = [
    "COLUMNS",
    "MOST_READINGS",
    "SCHEMA",
    "SCHEMA_VERSION",
    "STRUCK",
    "THINGS",
    "WRITTEN",
    "Also",
    "Change",
    "CompiledTable",
    "Conflict",
    "Entry",
    "ExchangeRefused",
    "Fault",
    "FreeText",
    "Holds",
    "Lookup",
    "MarkRefused",
    "Meaning",
    "Measured",
    "Nothing",
    "Number",
    "Observation",
    "OnHub",
    "Place",
    "Problem",
    "Proposal",
    "Reading",
    "Readings",
    "Run",
    "RunFit",
    "Shelf",
    "Source",
    "Special",
    "Table",
    "TableRefused",
    "Thing",
    "Together",
    "Told",
    "Words",
    "WouldSay",
    "as_plain",
    "changes",
    "check",
    "combine",
    "compile_table",
    "entries_from_csv",
    "entries_to_csv",
    "from_json",
    "from_plain",
    "learn",
    "read",
    "reread",
    "reverse",
    "shelf_of",
    "shipped",
    "to_json",
]
