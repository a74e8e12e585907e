"""Copies of the register that outlive the machine: made while people work, opened and counted, kept by a rule."""

from yardapp.backups.copies import Copy, copies_in, make_copy, newest_good
from yardapp.backups.files import into_file, out_of_file
from yardapp.backups.keeping import is_due, keep_copies, nightly, thin_out
from yardapp.backups.restoring import restore

__all__ = [
    "Copy",
    "copies_in",
    "into_file",
    "is_due",
    "keep_copies",
    "make_copy",
    "newest_good",
    "nightly",
    "out_of_file",
    "restore",
    "thin_out",
]
