"""The QR code of an address, as a drawing without style of its own, or as its squares."""

import segno
from markupsafe import Markup


def code_of(address: str) -> Markup:
    """A code that still reads with a fifth of it gone: labels get dirty."""
    drawn = segno.make(address, error="q", micro=False).svg_inline(
        scale=6, border=4, svgclass="label-code", lineclass=None, omitsize=True
    )
    return Markup(drawn)


def squares_of(address: str) -> tuple[tuple[bool, ...], ...]:
    """The same code as dark and light squares, row by row."""
    return tuple(tuple(bool(one) for one in row) for row in segno.make(address, error="q", micro=False).matrix)
