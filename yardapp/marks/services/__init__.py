"""What can be done with marks and the tables that read them: one door."""

from yardapp.marks.models import Taken
from yardapp.marks.services.bench import Tried, samples_for, try_samples
from yardapp.marks.services.learning import Learned, learned, with_proposal
from yardapp.marks.services.marks import (
    PlainReading,
    decode,
    marks_of,
    marks_of_tag,
    record_mark,
    record_mark_of,
    statements,
)
from yardapp.marks.services.reading import (
    Asked,
    MarkRow,
    MarksPage,
    becomes_evidence,
    marks_page,
    measured_of,
    read_kindly,
    read_mark,
    which,
)
from yardapp.marks.services.rereading import FoundRow, RereadPage, ask_reread, reread_page
from yardapp.marks.services.reversing import Stamped, would_be_stamped
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
    take_table,
    use_table,
)
from yardapp.marks.services.taking import take_reading
from yardapp.marks.services.working_through import keep_working, work_on

__all__ = [
    "Asked",
    "FoundRow",
    "Learned",
    "MarkRow",
    "MarksPage",
    "PlainReading",
    "RereadPage",
    "Stamped",
    "TablePage",
    "Taken",
    "Tried",
    "VersionRow",
    "add_table",
    "ask_reread",
    "becomes_evidence",
    "bring_back",
    "change_table",
    "decode",
    "examples",
    "keep_working",
    "learned",
    "marks_of",
    "marks_of_tag",
    "marks_page",
    "measured_of",
    "read_kindly",
    "read_mark",
    "record_mark",
    "record_mark_of",
    "reread_page",
    "samples_for",
    "seed_tables",
    "shelf_now",
    "statements",
    "table_page",
    "tables",
    "take_reading",
    "take_table",
    "try_samples",
    "use_table",
    "which",
    "with_proposal",
    "work_on",
    "would_be_stamped",
]
