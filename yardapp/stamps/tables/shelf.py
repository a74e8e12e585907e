"""All tables of a yard, ready to read with: which of them may read a mark at all is found by its look."""

from collections.abc import Iterable, Iterator

from yardapp.stamps.tables.compile import CompiledTable, compile_table
from yardapp.stamps.tables.table import Table

MOST_REMEMBERED = 20_000


class Shelf:
    """Compiled tables, surest first, and what was found out about which of them may read marks of which look."""

    def __init__(self, compiled: Iterable[CompiledTable]) -> None:
        self.compiled = tuple(sorted(compiled, key=lambda one: -one.table.certainty))
        self._spaced = tuple(one for one in self.compiled if one.grammar.is_spaced)
        self._plain = tuple(one for one in self.compiled if not one.grammar.is_spaced)
        self._known: dict[tuple[bool, int, str], tuple[CompiledTable, ...]] = {}

    def __iter__(self) -> Iterator[CompiledTable]:
        return iter(self.compiled)

    def __len__(self) -> int:
        return len(self.compiled)

    def tables(self, is_spaced: bool) -> tuple[CompiledTable, ...]:
        """The tables to which a space between figures matters, or the others."""
        return self._spaced if is_spaced else self._plain

    def may_read(self, folded: str, is_spaced: bool) -> tuple[CompiledTable, ...]:
        """The tables that may read a mark of this length that begins so."""
        look = (is_spaced, len(folded), folded[:2])
        found = self._known.get(look)
        if found is None:
            if len(self._known) >= MOST_REMEMBERED:
                self._known.clear()
            found = tuple(one for one in self.tables(is_spaced) if one.may_read(look[1], look[2]))
            self._known[look] = found
        return found


def shelf_of(tables: Iterable[Table]) -> Shelf:
    """A shelf of tables, each compiled.

    Raises
    ------
    TableRefused
        One of them contradicts itself.
    """
    return Shelf(compile_table(table) for table in tables)
