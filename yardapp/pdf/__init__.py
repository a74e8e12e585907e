"""Paper as a file: parts in, PDF out. What a page prints, a yard can send too."""

from collections.abc import Sequence

from yardapp.pdf.parts import Figures, Heading, Part, Picture, Table, Tick, Words

__all__ = ["Figures", "Heading", "Part", "Picture", "Table", "Tick", "Words", "written"]


def written(title: str, parts: Sequence[Part], *, foot: str = "", is_packed: bool = True) -> bytes:
    """A4 pages of `parts` under `title`, with `foot` and "Page 1 of 2" below; the same parts give the same bytes."""
    from yardapp.pdf.pages import bound  # the library is heavy: only whoever writes a file waits for it

    return bound(title, parts, foot=foot, is_packed=is_packed)
