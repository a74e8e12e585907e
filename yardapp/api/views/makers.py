"""Makers' tables: written, changed, compared, put to all marks, taught by the register; and what they would strike."""

from yardapp.api.bodies import makers as bodies
from yardapp.api.door import Act, changes, creates, reads, works_out
from yardapp.errors import NotFound, Refused
from yardapp.marks import services
from yardapp.stamps.tables import SCHEMA, ExchangeRefused, Proposal, Table, as_plain, from_plain
from yardapp.stamps.tables import changes as differences


@reads("/marks/tables", reply=bodies.MakerTables, errors=(403,))
def maker_tables(act: Act) -> bodies.MakerTables:
    """Makers' tables, by maker and title."""
    rows = services.tables(act.session, act.who)
    return bodies.MakerTables(
        tables=[
            bodies.MakerTableListed(
                id=one.id, maker=one.maker, title=one.title, version=one.version, is_in_use=one.is_in_use
            )
            for one in rows
        ]
    )


@reads("/marks/tables/schema", reply=bodies.TableSchema)
def maker_table_schema(act: Act) -> bodies.TableSchema:
    """What a table's file must be."""
    return bodies.TableSchema(SCHEMA)


@reads("/marks/tables/{table_id}", reply=bodies.MakerTable, errors=(403,))
def maker_table(act: Act, table_id: int) -> bodies.MakerTable:
    """One maker's table as it stands, and its versions."""
    found = services.table_page(act.session, act.who, table_id)
    return bodies.MakerTable(
        id=found.id,
        maker=found.maker,
        title=found.title,
        version=found.version,
        is_in_use=found.is_in_use,
        table=as_plain(found.newest.table),
        versions=[
            bodies.MakerTableVersion(version=one.version, at=one.at, said_by=one.said_by, why=one.why)
            for one in found.versions
        ],
    )


def _written(act: Act, key: str) -> bodies.MakerTable:
    return maker_table(act, int(key))


@creates("/marks/tables", body=bodies.NewMakerTable, reply=bodies.MakerTable, at="/marks/tables/{key}", shows=_written)
def write_maker_table(act: Act, said: bodies.NewMakerTable) -> int:
    """Write a maker's table."""
    return services.add_table(act.session, act.who, _table(said.table), why=said.why)


@changes("/marks/tables/{table_id}", body=bodies.MakerTableChange, reply=bodies.MakerTable)
def change_maker_table(act: Act, said: bodies.MakerTableChange, table_id: int) -> bodies.MakerTable:
    """Write the next version of a maker's table."""
    services.change_table(act.session, act.who, table_id, said.version, _table(said.table), why=said.why)
    return maker_table(act, table_id)


@changes("/marks/tables/{table_id}/standing", body=bodies.VersionAgain, reply=bodies.MakerTable)
def bring_back_maker_table(act: Act, said: bodies.VersionAgain, table_id: int) -> bodies.MakerTable:
    """Make an old version the newest again."""
    _must_have(act, table_id, said.number, "number")
    services.bring_back(act.session, act.who, table_id, said.version, said.number)
    return maker_table(act, table_id)


def _must_have(act: Act, table_id: int, number: int | None, field: str) -> None:
    """A version that the table never had is a wrong field, not a wrong address."""
    page = services.table_page(act.session, act.who, table_id)
    try:
        page.numbered(page.version if number is None else number)
    except NotFound as refusal:
        raise Refused(str(refusal), field) from None


@changes("/marks/tables/{table_id}/use", body=bodies.MakerTableUse, reply=bodies.MakerTable)
def use_maker_table(act: Act, said: bodies.MakerTableUse, table_id: int) -> bodies.MakerTable:
    """Let marks be read by a table, or no longer."""
    services.use_table(act.session, act.who, table_id, said.version, is_in_use=said.is_in_use)
    return maker_table(act, table_id)


@reads("/marks/tables/{table_id}/changes", query=bodies.TwoVersions, reply=bodies.MakerTableDiffers, errors=(403,))
def maker_table_changes(act: Act, asked: bodies.TwoVersions, table_id: int) -> bodies.MakerTableDiffers:
    """What one version of a table says otherwise than another."""
    page = services.table_page(act.session, act.who, table_id)
    after = page.numbered(page.version if asked.after is None else asked.after)
    before = page.numbered(max(1, after.version - 1) if asked.before is None else asked.before)
    return bodies.MakerTableDiffers(
        before=before.version,
        after=after.version,
        changes=[one.said for one in differences(before.table, after.table)],
    )


@reads("/marks/tables/{table_id}/proposals", reply=bodies.Proposals, errors=(403,))
def maker_table_proposals(act: Act, table_id: int) -> bodies.Proposals:
    """What the measured propellers of the register teach about a table."""
    found = services.learned(act.session, act.who, table_id)
    return bodies.Proposals(proposals=[_proposal(one) for one in found.proposals], left_out=found.left_out)


def _proposal(one: Proposal) -> bodies.Proposal:
    return bodies.Proposal(
        place=one.place + 1,
        kind=one.kind,
        code=one.code,
        value=one.value,
        unit=one.unit,
        said=one.said,
        of=list(dict.fromkeys(one.of)),
    )


@reads("/marks/rereads/{job_id}", query=bodies.RereadPaged, reply=bodies.Reread, errors=(403,))
def reread(act: Act, asked: bodies.RereadPaged, job_id: int) -> bodies.Reread:
    """How far a re-reading is, and a page of the marks that read differently."""
    return _reread(services.reread_page(act.session, act.who, job_id, asked.page))


def _reread(found: services.RereadPage) -> bodies.Reread:
    return bodies.Reread(
        id=found.id,
        table_id=found.table_id,
        before=found.before,
        after=found.after,
        state=found.state,
        done=found.done,
        total=found.total,
        differing=found.differing,
        page=found.number,
        marks=[bodies.RereadMark.model_validate(one, from_attributes=True) for one in found.rows],
    )


def _asked_for(act: Act, key: str, table_id: int) -> bodies.Reread:
    return _reread(services.reread_page(act.session, act.who, int(key)))


@creates(
    "/marks/tables/{table_id}/rereads",
    body=bodies.NewReread,
    reply=bodies.Reread,
    at="/marks/rereads/{key}",
    shows=_asked_for,
)
def ask_reread(act: Act, said: bodies.NewReread, table_id: int) -> int:
    """Read all marks of the register by an older version of a table and by the one that stands."""
    _must_have(act, table_id, said.before, "before")
    return services.ask_reread(act.session, act.who, table_id, said.before)


def _table(plain: dict[str, object]) -> Table:
    try:
        return from_plain(plain)
    except ExchangeRefused as refusal:
        raise Refused(refusal.said, "table") from None


@works_out("/marks/reverse", body=bodies.Wanted, reply=bodies.Reversed, errors=(403,))
def reverse_marks(act: Act, said: bodies.Wanted) -> bodies.Reversed:
    """What a propeller would be stamped, by every table in use."""
    wanted = said.model_dump(exclude_none=True)
    if not wanted:
        raise Refused("Say at least one figure of the propeller that you look for.")
    found = services.would_be_stamped(act.session, act.who, wanted)
    return bodies.Reversed(tables=[_stamped(one) for one in found])


def _stamped(one: services.Stamped) -> bodies.Stamped:
    marks = [bodies.WouldSay(mark=mark.mark, off=mark.off, untold=list(mark.untold)) for mark in one.marks]
    return bodies.Stamped(maker=one.table.maker, title=one.table.title, version=one.table.version, marks=marks)
