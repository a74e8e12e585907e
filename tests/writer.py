"""Logs propellers and moves them until it is killed, and says each tag once its save is kept.

Run as `python -m tests.writer URL`: the test that kills it reads what it said.
"""

import sys
from itertools import count

from tests.factories.people import make_who
from tests.factories.vessels import make_drive, make_vessel
from yardapp import db
from yardapp.db import transaction
from yardapp.gear import services as gear


def main(url: str) -> None:
    """Write for ever."""
    db.open_register(url)
    with transaction() as session:
        who = make_who(session)
        drive = make_drive(session, make_vessel(session, name="Kittiwake")).id
    for number in count():
        with transaction() as session:
            tag = gear.log_propeller(session, who, place="Rack C", stamp="22 x 18 RH", hand="right", blades=3).tag
        print(f"logged {tag}", flush=True)
        if number % 3 == 0:
            with transaction() as session:
                gear.move_item(session, who, tag, "went on", drive_id=drive)
                gear.move_item(session, who, tag, "came off", place="Rack D")
            print(f"moved {tag}", flush=True)


if __name__ == "__main__":
    main(sys.argv[1])
