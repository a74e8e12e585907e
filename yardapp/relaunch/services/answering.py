"""Answer a line, scan a tag at the shaft, give a line to somebody, take an answer back: each a row of its own."""

from dataclasses import dataclass

from sqlalchemy.orm import Session

from yardapp.errors import NotAllowed, NotFound, Refused
from yardapp.gear import services as gear
from yardapp.people.services import Who
from yardapp.relaunch.lines import UNITS, is_within, limit_said
from yardapp.relaunch.models import LaunchAct
from yardapp.relaunch.services.acting import did, held, launch_for_change, one_line, refresh
from yardapp.relaunch.services.sheet import LaunchSheet
from yardapp.relaunch.settling import ASK, NO, YES, LineNow


@dataclass(frozen=True, kw_only=True)
class Answer:
    """What somebody says of a line: in order, not in order, or that they cannot tell."""

    line: str
    drive_id: int | None = None
    answer: str = ""
    figure: float | None = None
    figure_typed: str = ""
    note: str = ""


def answer_line(
    session: Session, who: Who, launch_id: int, said: Answer, picture: gear.Picture | None = None
) -> LaunchAct:
    """Answer a line: with a photo, a figure, or a signed tick. "Cannot tell" is an answer, and settles nothing.

    Raises
    ------
    NotFound
        There is no such launch, or the line is not on its sheet.
    Refused
        The line asks for something else, or says no to what the register knows.
    """
    launch, sheet = launch_for_change(session, who, launch_id)
    there = sheet.line(said.line, said.drive_id)
    word = _judged(there, said)
    _must_be_shown(there, said, word, picture)
    act = did(
        session,
        who,
        launch,
        "answered",
        line=said.line,
        drive_id=said.drive_id,
        answer=word,
        figure=said.figure,
        figure_typed=_figure_in_words(there, said)[:60],
        photo_sha256=picture.sha256 if picture else "",
        note=one_line(said.note),
    )
    if picture is not None:
        _attach(session, who, sheet, there, picture)
    refresh(session, who, launch)
    return act


def _figure_in_words(there: LineNow, said: Answer) -> str:
    """As it was typed; of a figure that came as a number, in the line's own unit."""
    if said.figure_typed or said.figure is None:
        return said.figure_typed
    return f"{said.figure / UNITS[there.line.unit][1]:.6g} {there.line.unit}"


def _judged(there: LineNow, said: Answer) -> str:
    """The answer itself; of a figure, whether it keeps its limit."""
    if there.line.by == "faults":
        raise Refused("Only the faults settle this: close them, or have them accepted.", "answer")
    if said.figure is not None:
        if there.line.unit not in UNITS:
            raise Refused("This line asks for no figure.", "figure")
        if said.answer in (NO, ASK):
            return said.answer
        return YES if is_within(there.line, said.figure) else NO
    if said.answer not in (YES, NO, ASK):
        raise Refused("In order, not in order, or cannot tell?", "answer")
    return said.answer


def _must_be_shown(there: LineNow, said: Answer, word: str, picture: gear.Picture | None) -> None:
    """What settles a line must be there, or a word about why it is not; what the register says no to stays no."""
    if word == YES and any(found.verdict == NO for found in there.found):
        raise Refused(f"That can't be signed away: {there.said}", "answer")
    if word != YES and not said.note.strip() and said.figure is None:
        raise Refused("What is wrong, or what can't be told?", "note")
    if word == YES and not said.note.strip() and not _is_shown(there, said, picture):
        raise Refused(_asks(there), "photo" if there.line.by == "photo" else "note")


def _is_shown(there: LineNow, said: Answer, picture: gear.Picture | None) -> bool:
    earlier = [act for act in there.acts if act.answer == YES]
    return (
        there.line.by == "tick"
        or picture is not None
        or said.figure is not None
        or bool(earlier)
        or any(found.verdict == YES for found in there.found)
    )


def _asks(there: LineNow) -> str:
    """What a line asks for before somebody may sign it."""
    asks = {
        "photo": "Take a photo, or say in the note why there is none.",
        "figure": f"Read the figure{', ' + limit_said(there.line) if limit_said(there.line) else ''}; or say why not.",
        "scan": "Scan the tag at the shaft, or say in the note how you know the propeller.",
    }
    return asks.get(there.line.by, "The register has nothing that settles this. Say in the note what you go by.")


def sign_as_owner(session: Session, who: Who, launch_id: int, said: Answer) -> LaunchAct:
    """The owner's person answers a line that asks for one, of the owner's own boat.

    Raises
    ------
    NotAllowed
        The line is the yard's to sign.
    NotFound
        There is no such launch of theirs, or the line is not on its sheet.
    Refused
        It was called off, no answer was given, or it says no to what the register knows.
    """
    launch, sheet = held(session, who, launch_id)
    there = sheet.line(said.line, said.drive_id)
    if not there.line.asks_owner:
        raise NotAllowed("This line is the yard's to sign.")
    word = _judged(there, said)
    _must_be_shown(there, said, word, None)
    note = one_line(said.note)
    act = did(session, who, launch, "answered", line=said.line, drive_id=said.drive_id, answer=word, note=note)
    refresh(session, who, launch)
    return act


def _attach(session: Session, who: Who, sheet: LaunchSheet, there: LineNow, picture: gear.Picture) -> None:
    """The photo also goes to the propeller of that drive, or of the boat's first."""
    drives = [one for one in sheet.drives if one.tag and there.place.drive_id in (None, one.id)]
    if drives:
        item = gear.item_by_tag(session, who, drives[0].tag)
        gear.attach_photo(session, who, item, picture, f"{sheet.vessel.name}: {there.title}")


def scan_tag(
    session: Session, who: Who, launch_id: int, *, line: str, drive_id: int | None, tag: str, hand: str, note: str = ""
) -> LaunchAct:
    """Scan (or type) the tag of what is on the shaft, and say which hand was seen.

    Raises
    ------
    NotFound
        There is no such launch, line or tag.
    Refused
        The line asks for no scan, what was scanned is no propeller, or no hand was seen.
    """
    launch, sheet = launch_for_change(session, who, launch_id)
    there = sheet.line(line, drive_id)
    if there.line.by != "scan":
        raise Refused("This line asks for no scan.", "tag")
    tag = tag.strip().upper().rpartition("/")[2]
    if not tag:
        raise Refused("Which tag is on it? Scan it, or type it.", "tag")
    if hand not in ("right", "left"):
        raise Refused("Which hand do you see? Stand astern: clockwise going ahead is right.", "hand")
    try:
        item = gear.item_by_tag(session, who, tag, kind="propeller")
    except NotFound:
        raise Refused(f"No propeller here carries the tag {tag}.", "tag") from None
    act = did(
        session,
        who,
        launch,
        "scanned",
        line=line,
        drive_id=drive_id,
        answer=YES,
        tag=item.tag,
        hand=hand,
        note=one_line(note),
    )
    refresh(session, who, launch)
    return act


def give_line(session: Session, who: Who, launch_id: int, *, line: str, drive_id: int | None, name: str) -> LaunchAct:
    """Give a line to somebody by name; the board says who has it.

    Raises
    ------
    NotFound
        There is no such launch, or the line is not on its sheet.
    Refused
        Nobody was named.
    """
    launch, sheet = launch_for_change(session, who, launch_id)
    sheet.line(line, drive_id)
    if not name.strip():
        raise Refused("Who does it?", "name")
    act = did(session, who, launch, "given", line=line, drive_id=drive_id, note=one_line(name)[:80])
    refresh(session, who, launch)
    return act


def take_back(session: Session, who: Who, launch_id: int, act_id: int, why: str) -> LaunchAct:
    """Take an answer or a scan back: a row of its own that names it and says why. The first row stays readable.

    Raises
    ------
    NotFound
        There is no such act in this launch.
    Refused
        No reason was given, it was taken back before, or it is none that can be taken back.
    """
    launch, sheet = launch_for_change(session, who, launch_id)
    old = next((act for act in sheet.acts if act.id == act_id), None)
    if old is None or old.kind not in ("answered", "scanned"):
        raise NotFound("There is no such answer here.")
    if not why.strip():
        raise Refused("Why is it taken back?", "why")
    if any(act.takes_back_id == act_id for act in sheet.acts):
        raise Refused("That was taken back already.", "why")
    act = did(
        session,
        who,
        launch,
        "taken back",
        line=old.line,
        drive_id=old.drive_id,
        note=one_line(why),
        takes_back_id=act_id,
    )
    refresh(session, who, launch)
    return act
