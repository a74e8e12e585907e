"""Pages of the makers' tables: the list, one of them, its versions, out and in as files."""

from flask import Response, jsonify, request, url_for
from flask.typing import ResponseReturnValue

from yardapp.errors import NotFound
from yardapp.marks import forms, services, showing
from yardapp.marks.views.door import bp
from yardapp.stamps.tables import (
    SCHEMA,
    ExchangeRefused,
    Lookup,
    changes,
    entries_to_csv,
    from_json,
    to_json,
)
from yardapp.web import current_who, filled, kept, page, refused, saving, snapshot


def opened_table(table_id: int) -> services.TablePage:
    """One table with its versions."""
    with snapshot() as opened:
        return services.table_page(opened, current_who(), table_id)


@bp.get("/tables")
def tables() -> ResponseReturnValue:
    """Every table of the yard, and the invented ones to start from."""
    with snapshot() as opened:
        found = services.tables(opened, current_who())
    named = {(one.maker, one.title) for one in found}
    examples = [one for one in services.examples() if (one.maker, one.title) not in named]
    return page("marks/tables.html", rows=showing.tables.rows(found), examples=examples)


@bp.get("/tables/schema.json")
def schema() -> ResponseReturnValue:
    """What a table's file must be."""
    return jsonify(SCHEMA)


@bp.get("/tables/<int:table_id>")
def table(table_id: int) -> ResponseReturnValue:
    """One table in words, and its versions."""
    found = opened_table(table_id)
    return page("marks/table.html", **_shown(found), form=_tap(found, 0 if found.is_in_use else 1))


def _tap(found: services.TablePage, number: int) -> forms.VersionForm:
    """A button's form: on the version that stands, with the number that it means."""
    return filled(forms.VersionForm, blank=True, data={"version": found.version, "number": number})


def _shown(found: services.TablePage) -> dict[str, object]:
    standing = found.newest.table
    return {
        "table": found,
        "standing": standing,
        "known": showing.tables.known(standing),
        "built": [showing.tables.place(one) for one in standing.places],
        "versions": found.versions,
        "before": _tap(found, found.version - 1),
    }


@bp.get("/tables/<int:table_id>/versions/<int:number>")
def version(table_id: int, number: int) -> ResponseReturnValue:
    """What one version says otherwise than the one before it and the one that stands."""
    found = opened_table(table_id)
    asked = found.numbered(number)
    before = next((one for one in found.versions if one.version < number), None)
    return page(
        "marks/version.html",
        table=found,
        asked=asked,
        since=changes(before.table, asked.table) if before else (),
        until=changes(asked.table, found.newest.table),
        is_first=before is None,
        form=_tap(found, number),
    )


@bp.post("/tables/<int:table_id>/bring-back")
def bring_back(table_id: int) -> ResponseReturnValue:
    """Make an old version the newest again."""
    form = filled(forms.VersionForm)
    if form.validate():
        with saving(form) as act:
            services.bring_back(act.session, act.who, table_id, form.version.data or 0, form.number.data or 0)
            act.goes_to(url_for("marks.table", table_id=table_id), "That version stands again, as a new one.")
        if act.answer:
            return kept(act)
    return again_with(table_id, form)


@bp.post("/tables/<int:table_id>/use")
def use_table(table_id: int) -> ResponseReturnValue:
    """Let marks be read by it, or no longer."""
    form = filled(forms.VersionForm)
    if form.validate():
        with saving(form) as act:
            is_in_use = bool(form.number.data)
            services.use_table(act.session, act.who, table_id, form.version.data or 0, is_in_use=is_in_use)
            said = "Marks are read by it again." if is_in_use else "Marks are read by it no longer."
            act.goes_to(url_for("marks.table", table_id=table_id), said)
        if act.answer:
            return kept(act)
    return again_with(table_id, form)


def again_with(table_id: int, form: forms.VersionForm) -> ResponseReturnValue:
    """The table as it stands now, with why nothing was saved."""
    found = opened_table(table_id)
    again = _tap(found, 0 if found.is_in_use else 1)
    again.form_errors.extend(form.overall)
    if form.theirs is not None:
        said = f"{form.their_name} saved a version while you looked. Look it over, then choose again."
        again.form_errors.append(said)
    return page("marks/table.html", **_shown(found), form=again), 409 if form.theirs is not None else 422


@bp.get("/tables/<int:table_id>.json")
def table_file(table_id: int) -> ResponseReturnValue:
    """The table as one file, for another yard."""
    found = opened_table(table_id)
    return _download(to_json(found.newest.table), "application/json", f"{_file_name(found.name)}.json")


@bp.get("/tables/<int:table_id>/places/<int:number>.csv")
def list_file(table_id: int, number: int) -> ResponseReturnValue:
    """The list of one place, for a spreadsheet; places are numbered from 1."""
    found = opened_table(table_id)
    places = found.newest.table.places
    meaning = places[number - 1].meaning if 0 < number <= len(places) else None
    if not isinstance(meaning, Lookup):
        raise NotFound(f"Place {number} of {found.name} has no list.")
    return _download(entries_to_csv(meaning.entries), "text/csv", f"{_file_name(found.name)}-{number}.csv")


def _download(text: str, kind: str, name: str) -> Response:
    answer = Response(text, mimetype=kind)
    answer.headers["Content-Disposition"] = f'attachment; filename="{name}"'
    return answer


def _file_name(name: str) -> str:
    letters = "".join(letter if letter.isascii() and letter.isalnum() else "-" for letter in name.lower())
    return "-".join(filter(None, letters.split("-"))) or "table"


@bp.get("/tables/import")
def import_page() -> ResponseReturnValue:
    """A table from another yard."""
    current_who().must("change")
    return page("marks/import.html", form=filled(forms.ImportForm), faults=())


@bp.post("/tables/import")
def import_table() -> ResponseReturnValue:
    """Take a table's file; what can't be taken is refused by line, and nothing of it is taken."""
    form = filled(forms.ImportForm)
    faults: tuple[str, ...] = ()
    if form.validate():
        try:
            taken = from_json(_sent(form))
        except ExchangeRefused as refusal:
            faults = tuple(str(fault) for fault in refusal.problems)
        else:
            with saving(form) as act:
                is_next = bool(form.is_next.data)
                number = services.take_table(act.session, act.who, taken, is_next=is_next, why="from a file")
                act.goes_to(url_for("marks.table", table_id=number), f"{taken.name} is taken in.")
            if act.answer:
                return kept(act)
    return refused("marks/import.html", form, faults=faults)


def _sent(form: forms.ImportForm) -> str | bytes:
    """The file's bytes, else what was pasted."""
    file = request.files.get("file")
    content = file.read() if file and file.filename else b""
    return content or form.text.data or ""
