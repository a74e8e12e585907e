"""Launches: the board, a boat's sheet, what is answered of it, who lets her go."""

from dataclasses import asdict
from typing import Any

from yardapp.api.bodies import relaunch as bodies
from yardapp.api.door import Act, creates, reads
from yardapp.errors import NotFound, Refused
from yardapp.relaunch import services

AT = "/launches/{launch_id}"


@reads("/launches", reply=bodies.Board)
def launches(act: Act) -> bodies.Board:
    """Boats with a launch date: what is open, who has it, days left; an owner's own boats alone."""
    return bodies.Board(launches=[_on_board(row) for row in services.board(act.session, act.who)])


def _on_board(row: services.BoardRow) -> bodies.OnBoard:
    return bodies.OnBoard(
        launch_id=row.launch_id,
        vessel_id=row.vessel_id,
        boat=row.boat,
        planned=row.planned,
        days_left=row.days_left,
        looked=row.looked,
        releases=list(row.releases),
        next_release=row.next_release,
        open=[_still(one) for one in row.open],
        follow_ups=[_still(one) for one in row.follow_ups],
        stops=[fault.key for fault in row.stops],
    )


def _still(one: services.StillOpen) -> bodies.StillOpen:
    return bodies.StillOpen.model_validate(one, from_attributes=True)


@reads(AT, reply=bodies.Sheet, errors=(403,))
def launch(act: Act, launch_id: int) -> bodies.Sheet:
    """A boat's sheet: every line, what settles it, the releases with the sheets as they were kept."""
    act.who.must("see")
    sheet = services.launch_sheet(act.session, act.who, launch_id)
    return bodies.Sheet(
        id=sheet.launch.id,
        vessel_id=sheet.launch.vessel_id,
        boat=sheet.vessel.name,
        planned=sheet.launch.planned,
        list_name=sheet.launch.list_name,
        list_number=sheet.launch.list_number,
        is_over=sheet.launch.is_over,
        is_called_off=sheet.is_called_off,
        next_release=sheet.next_release,
        lines=[_line(now) for now in sheet.lines],
        releases=[_released(sheet, one) for one in sheet.releases.values()],
        acts=[bodies.Act.model_validate(one, from_attributes=True) for one in sheet.acts],
    )


def _line(now: services.LineNow) -> bodies.SheetLine:
    return bodies.SheetLine(
        line=now.line.key,
        drive_id=now.place.drive_id,
        title=now.title,
        part=now.line.part,
        is_stop=now.line.is_stop,
        verdict=now.verdict,
        said=now.said,
        by=list(now.by),
        at=now.at,
        has=now.has,
        settled_by=now.line.by,
        signs=now.line.signs,
        found=[bodies.Found.model_validate(one, from_attributes=True) for one in now.found],
        due=now.due,
        late=now.late,
    )


def _released(sheet: services.LaunchSheet, one: services.LaunchAct) -> bodies.Released:
    return bodies.Released(
        act_id=one.id,
        release=one.release,
        is_override=one.kind == "overridden",
        said_by=one.said_by,
        at=one.at,
        note=one.note,
        app_version=one.app_version,
        kept=one.frozen or {},
        changed=[f"{change.title}: {change.now[1]}" for change in services.changed_since(sheet, one)],
    )


@reads(f"{AT}/lift", reply=bodies.Lift)
def lift(act: Act, launch_id: int) -> bodies.Lift:
    """May she go in the water now: yes or no, and why."""
    return bodies.Lift.model_validate(services.may_she_go(act.session, act.who, launch_id), from_attributes=True)


def _planned(act: Act, key: str) -> bodies.Sheet:
    return launch(act, int(key))


@creates("/launches", body=bodies.NewLaunch, reply=bodies.Sheet, at="/launches/{key}", shows=_planned)
def plan_launch(act: Act, said: bodies.NewLaunch) -> str:
    """Give a boat a launch date; her sheet begins."""
    act.who.must("record")
    # A boat or list that is not there is a wrong field, not a wrong address.
    try:
        made = services.plan_launch(act.session, act.who, said.vessel_id, said.planned, list_name=said.list_name)
    except NotFound as refusal:
        raise Refused(str(refusal), "list_name" if "list" in str(refusal) else "vessel_id") from None
    return str(made.id)


def _done(act: Act, key: str, launch_id: int) -> bodies.Sheet:
    return launch(act, launch_id)


MORE: dict[str, Any] = {"reply": bodies.Sheet, "at": AT, "shows": _done}


@creates(f"{AT}/hours", body=bodies.NewHour, **MORE)
def change_hour(act: Act, said: bodies.NewHour, launch_id: int) -> str:
    """Move a launch to another hour."""
    return str(services.change_hour(act.session, act.who, launch_id, said.planned, said.why).id)


@creates(f"{AT}/answers", body=bodies.NewAnswer, **MORE)
def answer_line(act: Act, said: bodies.NewAnswer, launch_id: int) -> str:
    """Answer a line of a sheet."""
    told = services.Answer(**said.model_dump(exclude={"answer"}), answer=said.answer or "")
    _must_be_there(act, launch_id, said.line, said.drive_id)
    return str(services.answer_line(act.session, act.who, launch_id, told).id)


def _must_be_there(act: Act, launch_id: int, line: str, drive_id: int | None) -> None:
    """A line that is not on the sheet is a wrong field, not a wrong address."""
    act.who.must("record")
    sheet = services.launch_sheet(act.session, act.who, launch_id)
    try:
        sheet.line(line, drive_id)
    except NotFound as refusal:
        raise Refused(str(refusal), "line") from None


@creates(f"{AT}/scans", body=bodies.NewScan, **MORE)
def scan_tag(act: Act, said: bodies.NewScan, launch_id: int) -> str:
    """Tell which tag was scanned at the shaft, and which hand was seen."""
    _must_be_there(act, launch_id, said.line, said.drive_id)
    return str(services.scan_tag(act.session, act.who, launch_id, **said.model_dump()).id)


@creates(f"{AT}/given", body=bodies.NewGiven, **MORE)
def give_line(act: Act, said: bodies.NewGiven, launch_id: int) -> str:
    """Give a line to somebody."""
    _must_be_there(act, launch_id, said.line, said.drive_id)
    return str(services.give_line(act.session, act.who, launch_id, **said.model_dump()).id)


@creates(f"{AT}/taken-back", body=bodies.NewTakenBack, **MORE)
def take_back(act: Act, said: bodies.NewTakenBack, launch_id: int) -> str:
    """Take an answer, a scan or a release back."""
    act.who.must("record")
    sheet = services.launch_sheet(act.session, act.who, launch_id)
    is_release = any(one.id == said.act_id and one.frozen for one in sheet.acts)
    taken = services.take_release_back if is_release else services.take_back
    try:
        return str(taken(act.session, act.who, launch_id, said.act_id, said.why).id)
    except NotFound as refusal:
        raise Refused(str(refusal), "act_id") from None


@creates(f"{AT}/releases", body=bodies.NewRelease, **MORE)
def release(act: Act, said: bodies.NewRelease, launch_id: int) -> str:
    """Release a boat; refused while something is in the way, unless it is overridden by name."""
    if said.override:
        return str(services.override(act.session, act.who, launch_id, said.release, said.override).id)
    return str(services.release(act.session, act.who, launch_id, said.release, said.note).id)


@creates(f"{AT}/calling-off", body=bodies.CallingOff, **MORE)
def call_off(act: Act, said: bodies.CallingOff, launch_id: int) -> str:
    """Call a launch off; its sheet stays readable."""
    return str(services.call_off(act.session, act.who, launch_id, said.why).id)


@reads("/line-lists", reply=bodies.LineLists, errors=(403,))
def line_lists(act: Act) -> bodies.LineLists:
    """The yard's lists of lines, by kind of drive."""
    return bodies.LineLists(
        lists=[
            bodies.LineList(name=one.name, number=one.number, lines=[_listed(line) for line in one.lines])
            for one in services.lists(act.session, act.who)
        ]
    )


def _listed(line: services.Line) -> bodies.ListedLine:
    said = asdict(line)
    names = set(bodies.ListedLine.model_fields) - {"settled_by"}
    return bodies.ListedLine(settled_by=line.by, **{name: said[name] for name in names})


@reads("/policies", reply=bodies.Policies, errors=(403,))
def policies(act: Act) -> bodies.Policies:
    """What the yard goes by where the rules of the trade differ, with the rivals."""
    act.who.must("see")
    chosen = services.policies(act.session)
    return bodies.Policies(
        policies=[
            bodies.Policy(
                name=name,
                choice=chosen[name].choice if name in chosen else "",
                said_by=chosen[name].said_by if name in chosen else "",
                rivals=[rival.name for rival in question.rivals],
            )
            for name, question in services.QUESTIONS.items()
        ]
    )
