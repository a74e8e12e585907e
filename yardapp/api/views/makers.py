"""Makers' tables: list them, write one, look at one, write its next version; and what they would strike."""

from yardapp.api.bodies import makers as bodies
from yardapp.api.door import Act, changes, creates, reads, works_out
from yardapp.errors import Refused
from yardapp.marks import services
from yardapp.stamps.tables import ExchangeRefused, Table, as_plain, from_plain


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
