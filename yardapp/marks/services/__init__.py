"""What can be done with marks and the tables that read them: one door."""

from yardapp.marks.services.marks import (
    PlainReading,
    decode,
    marks_of,
    marks_of_tag,
    record_mark,
    record_mark_of,
    statements,
)
from yardapp.marks.services.reading import Asked, MarkRow, MarksPage, marks_page, measured_of, read_mark, which
from yardapp.marks.services.shelf import shelf_now
from yardapp.marks.services.tables import (
    TablePage,
    VersionRow,
    add_table,
    bring_back,
    change_table,
    examples,
    seed_tables,
    table_page,
    tables,
    use_table,
)
from yardapp.marks.services.taking import take_reading

__all__ = [
    "Asked",
    "MarkRow",
    "MarksPage",
    "PlainReading",
    "TablePage",
    "VersionRow",
    "add_table",
    "bring_back",
    "change_table",
    "decode",
    "examples",
    "marks_of",
    "marks_of_tag",
    "marks_page",
    "measured_of",
    "read_mark",
    "record_mark",
    "record_mark_of",
    "seed_tables",
    "shelf_now",
    "statements",
    "table_page",
    "tables",
    "take_reading",
    "use_table",
    "which",
]
