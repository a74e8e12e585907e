"""A clock that stands still."""

from collections.abc import Iterator

import pytest

from tests.factories.coating import FakeClock, stopped_clock


@pytest.fixture
def clock() -> Iterator[FakeClock]:
    """The server's clock, at noon of 4 May 2026 UTC; `clock.later(minutes=5)` moves it."""
    with stopped_clock() as clock:
        yield clock
