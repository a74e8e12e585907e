"""What was on a boat on a day, in words."""

from datetime import date, datetime

from yardapp.filters import day


def spell_said(since: datetime, until: datetime | None) -> str:
    """From when to when a thing was on a line."""
    return f"from {day(since)} to {day(until)}" if until else f"since {day(since)}, and still"


def same_day_before(today: date) -> list[tuple[str, date]]:
    """This day in years gone by: the days that people ask about."""
    years = ((1, "A year ago"), (2, "Two years ago"), (3, "Three years ago"), (5, "Five years ago"))
    # On 29 February the day before: a year ago there was none.
    last = today if (today.month, today.day) != (2, 29) else today.replace(day=28)
    return [(said, last.replace(year=last.year - count)) for count, said in years]
