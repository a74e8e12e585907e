"""Which part of a timeline: what kind of thing, and between which days."""

from datetime import UTC, date, datetime, time, timedelta
from typing import Any

from wtforms import DateField, Field, Form, SelectField
from wtforms.validators import Optional, ValidationError

from yardapp.forms import YardForm, options
from yardapp.timelines import Asked

GROUPS = {
    "item": ("moves", "work", "figures", "photos", "faults", "coating"),
    "vessel": ("moves", "work", "boat", "faults", "coating", "launch"),
    "drive": ("moves", "work", "boat", "faults", "coating"),
    "person": (),
}
LABELS = {
    "": "Everything",
    "moves": "Moves",
    "work": "Work",
    "figures": "Figures",
    "photos": "Photos",
    "boat": "Boat and drive",
    "faults": "Faults",
    "coating": "Coating",
    "launch": "Launches",
}

# The days that a yard may ask for; a moment at the very ends of the calendar can't be put into another time zone.
YEARS = (1800, 2200)


def _in_these_times(_form: Form, field: Field) -> None:
    first, last = YEARS
    if field.data and not first <= field.data.year <= last:
        raise ValidationError(f"A day in the years {first} to {last}, please.")


class TimelineForm(YardForm):
    """Nothing is saved by it."""

    class Meta(YardForm.Meta):
        """It only asks, so it needs no token."""

        csrf = False

    group = SelectField("Show", validate_choice=False, default="")
    since = DateField("From", [Optional(), _in_these_times])
    until = DateField("To, this day included", [Optional(), _in_these_times])

    def validate_group(self, field: SelectField) -> None:
        """A kind of moment that this timeline has."""
        if field.data and field.data not in [choice.value for choice in self.group.choices]:
            raise ValidationError("There is no such kind here: choose one of the list.")

    def validate_until(self, field: DateField) -> None:
        """The days run forwards."""
        if field.data and self.since.data and field.data < self.since.data:
            raise ValidationError("The last day is before the first one: turn the two about.")

    def offer(self, what: str) -> None:
        """Choose among the kinds of moments that a timeline of this has."""
        self.group.choices = options((group, LABELS[group]) for group in ("", *GROUPS[what]))

    @property
    def said(self) -> str:
        """What was asked for, for paper."""
        kinds = LABELS.get(self.group.data or "", "Everything")
        since, until = (f" {word} {one.data:%-d %b %Y}" if one.data else "" for word, one in self._days())
        return f"{kinds}{since}{until}"

    def _days(self) -> tuple[tuple[str, DateField], ...]:
        return ("from", self.since), ("to", self.until)

    def onward(self, further: str) -> dict[str, Any]:
        """What the next page is asked with."""
        asked = {name: self[name].raw_data for name in ("group", "since", "until")}
        return {name: sent[0] for name, sent in asked.items() if sent and sent[0]} | {"after": further}


class DayForm(YardForm):
    """One day."""

    class Meta(YardForm.Meta):
        """It only asks, so it needs no token."""

        csrf = False

    day = DateField("What was on her on", [Optional(), _in_these_times])


def start_of(day: date | None) -> datetime | None:
    """The first moment of a day, in the yard's own time."""
    return None if day is None else datetime.combine(day, time(0)).astimezone().astimezone(UTC)


def end_of(day: date | None) -> datetime | None:
    """The first moment after a day, in the yard's own time."""
    return None if day is None else start_of(day + timedelta(days=1))


def asked_of(form: TimelineForm, after: str) -> Asked:
    """The kind of moment, the days, and where the page before ended; nothing where a day can't be read."""
    if not form.validate():
        return Asked()
    since, until = start_of(form.since.data), end_of(form.until.data)
    return Asked(group=form.group.data or "", since=since, until=until, after=after[:120])
