"""One label, and where it lies. Plain words: nothing in them is markup."""

from collections.abc import Sequence
from dataclasses import dataclass


@dataclass(frozen=True)
class Label:
    """One label: its tag, a few lines below it, the code's dark squares row by row, and where it lies."""

    tag: str
    lines: tuple[str, ...]
    code: tuple[tuple[bool, ...], ...]
    page: int
    left_m: float
    top_m: float


def labelled(
    title: str,
    page_m: tuple[float, float],
    size_m: tuple[float, float],
    labels: Sequence[Label],
    *,
    is_packed: bool = True,
) -> bytes:
    """Pages of labels, each `size_m` large; the same labels give the same bytes."""
    from yardapp.pdf.cut_paper import printed  # the library is heavy: only whoever prints waits for it

    return printed(title, page_m, size_m, labels, is_packed=is_packed)
