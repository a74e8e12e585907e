"""Small tables for tests: short to write, and small enough to list every mark of."""

from yardapp.stamps.tables import Entry, FreeText, Lookup, Number, Place, Run, Source, Table

HANDS = Lookup((Entry("R", "right"), Entry("L", "left")))


def prefix(text):
    """A literal."""
    return Place("nothing", "literal", literal=text)


def millimetres(tells="diameter", figures=3, **said):
    """A size of so many figures."""
    return Place(tells, "digits", Number("mm"), shortest=figures, longest=figures, **said)


def run(tells="pitch", first="A", value=300.0, step=20.0, last="Z", without="IO", **said):
    """One letter that counts."""
    return Place(tells, "letters", Run(first, value, step, last, without, "mm"), **said)


def hand(**said):
    """R or L."""
    return Place("hand", "list", HANDS, **said)


def serial(shortest=3, longest=5, **said):
    """Figures that are kept as they stand."""
    return Place("serial", "digits", FreeText(), shortest=shortest, longest=longest, **said)


def table(*places, maker="Ombry", certainty=0.9, **said):
    """A table of these places."""
    return Table(maker, "", tuple(places), Source(certainty=certainty), **said)
