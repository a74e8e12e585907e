"""What every form of the yard can do: hand its readings over by name, and say beside a box why it can't stand."""

import secrets
from collections.abc import Iterable, Mapping
from typing import Any

from wtforms import Form, HiddenField, IntegerField, StringField
from wtforms.csrf.session import SessionCSRF
from wtforms.fields.choices import SelectChoice
from wtforms.widgets import HiddenInput

from yardapp.fields import QuantityField

HIDDEN = frozenset({"csrf_token", "once", "version"})
STALE = "This page had been open for long. Nothing was lost: look it over and save again."


def options(pairs: Iterable[tuple[str, str]]) -> list[SelectChoice]:
    """What may be chosen: value and label of each."""
    return [SelectChoice(value=value, label=label) for value, label in pairs]


class YardForm(Form):
    """A form with a one-time token, so that a retry on a weak network saves once."""

    once = HiddenField()

    class Meta:
        """The token against forged requests; `web.py` hands over the key and the session."""

        csrf = True
        csrf_class = SessionCSRF
        csrf_time_limit = None  # a half-filled sheet may lie on a phone overnight

    def __init__(self, formdata: Any = None, *args: Any, **kwargs: Any) -> None:
        super().__init__(formdata, *args, **kwargs)
        if not self.once.data:
            self.once.data = secrets.token_urlsafe(18)

    def readings(self) -> dict[str, Any]:
        """What was filled in, by name; beside each size, as `NAME_typed`, what was written."""
        said: dict[str, Any] = {}
        for field in self:
            if field.short_name in HIDDEN:
                continue
            said[field.short_name] = "" if field.data is None and isinstance(field, StringField) else field.data
            if isinstance(field, QuantityField):
                said[f"{field.short_name}_typed"] = field.typed
        return said

    def tell(self, refusal: Any) -> None:
        """Say a refusal beside the box that it names, else above the form."""
        field = self._fields.get(refusal.argument) if refusal.argument else None
        if field is None:
            self.form_errors.append(refusal.said if not refusal.argument else str(refusal))
            return
        said = refusal.said if refusal.said[:1].isupper() or refusal.said[:1] == "`" else None
        field.errors = [*field.errors, said or f"{field.label.text} {refusal.said}"]

    @property
    def overall(self) -> list[str]:
        """What is wrong with the form as a whole."""
        stale = [STALE] if "csrf_token" in self._fields and self._fields["csrf_token"].errors else []
        return [*stale, *self.form_errors]


class RecordForm(YardForm):
    """A form over a record that two people may have open; it knows which version it was filled from."""

    version = IntegerField(widget=HiddenInput())
    theirs: Mapping[str, str] | None = None
    their_name = ""

    def superseded(self, theirs: Mapping[str, str], version: int, by: str) -> None:
        """Somebody saved first: show both, and let the next save be made on theirs."""
        self.theirs = theirs
        self.their_name = by
        self.version.data = version
        self.version.raw_data = None  # else the hidden box would still carry the old number
        self.once.data = secrets.token_urlsafe(18)

    def conflicts(self) -> list[dict[str, str]]:
        """Each box in which the two saves differ: name, label, mine, theirs."""
        rows = ((name, theirs, self._typed_in(name)) for name, theirs in (self.theirs or {}).items())
        return [
            {"name": name, "label": self._fields[name].label.text, "mine": mine, "theirs": theirs}
            for name, theirs, mine in rows
            if mine != theirs
        ]

    def agreed(self) -> list[tuple[str, str]]:
        """Name and text of every other box, to be carried along."""
        differing = {row["name"] for row in self.conflicts()} | HIDDEN
        return [(name, self._typed_in(name)) for name in self._fields if name not in differing]

    def _typed_in(self, name: str) -> str:
        field = self._fields[name]
        if isinstance(field, QuantityField):
            return field.typed or ""
        return "" if field.data is None else str(field.data)
