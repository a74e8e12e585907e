"""The server's process killed at any moment: every acknowledged save is there, and no half one."""

import random
import shutil
import subprocess
import sys
import time
from collections import defaultdict

from sqlalchemy import select

from yardapp import db
from yardapp.db import snapshot
from yardapp.gear.models import Event, Evidence, Item
from yardapp.marks.models import Mark

KILLS = 30


def killed_after(url, seconds):
    """Let a writer write for so long, kill it, and give back what it had acknowledged."""
    writer = subprocess.Popen([sys.executable, "-m", "tests.writer", url], stdout=subprocess.PIPE, text=True)
    said = [writer.stdout.readline()]  # the first save: it is at work now
    time.sleep(seconds)
    writer.kill()
    said += writer.stdout.read().splitlines(keepends=True)
    writer.wait()
    writer.stdout.close()
    return [line.split() for line in said if line.endswith("\n")]


def standing(url):
    """Of each item: how many statements, which events, how many marks."""
    engine = db.open_register(url)
    with snapshot() as session:
        tags = dict(session.execute(select(Item.id, Item.tag)).all())
        found = {tag: {"statements": 0, "events": [], "marks": 0, "place": ""} for tag in tags.values()}
        for item_id in session.scalars(select(Evidence.item_id)):
            found[tags[item_id]]["statements"] += 1
        for item_id, kind in session.execute(select(Event.item_id, Event.kind).order_by(Event.id)):
            found[tags[item_id]]["events"].append(kind)
        for item_id in session.scalars(select(Mark.item_id)):
            found[tags[item_id]]["marks"] += 1
    engine.dispose()
    return found


def test_thirty_kills_lose_no_acknowledged_save_and_leave_no_half_one(sqlite_pattern, tmp_path):
    shutil.copy(sqlite_pattern, tmp_path / "register.sqlite")
    url, chance = f"sqlite:///{tmp_path / 'register.sqlite'}", random.Random(20261125)
    acknowledged = defaultdict(set)

    for _ in range(KILLS):
        for what, tag in killed_after(url, chance.uniform(0.0, 0.25)):
            acknowledged[what].add(tag)

    found = standing(url)
    assert acknowledged["logged"] <= set(found)
    assert len(acknowledged["logged"]) >= KILLS
    # Seen: hand, blades; stamped: the mark itself, diameter, pitch, hand. Six statements, or the save was halved.
    assert {one["statements"] for one in found.values()} == {6}
    assert {one["marks"] for one in found.values()} == {1}
    whole = (["logged"], ["logged", "went on", "came off"])
    assert all(one["events"] in whole for one in found.values())
    assert all(found[tag]["events"] == whole[1] for tag in acknowledged["moved"])
