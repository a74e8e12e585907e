"""What a page sends about a sheet in the writing."""

import json

from wtforms import IntegerField, StringField, TextAreaField
from wtforms.validators import InputRequired, Length

from yardapp.bench.forms.boxes import WHY
from yardapp.forms import YardForm

LONGEST, LONGEST_NAME = 300, 60  # what no box holds but by a slip of the clipboard
LONGER = {"outline": 12_000}  # points, pasted


class BoxesForm(YardForm):
    """What was typed since the version `seen`: `boxes` as JSON, text by name."""

    boxes = TextAreaField()
    seen = IntegerField()

    def texts(self) -> dict[str, str] | None:
        """The boxes that were sent; None when it is nothing of the kind."""
        try:
            boxes = json.loads(self.boxes.data or "")
        except ValueError:
            return None
        if not isinstance(boxes, dict) or not all(isinstance(text, str) for text in boxes.values()):
            return None
        plain = {name[:LONGEST_NAME]: text.replace("\0", "").strip() for name, text in boxes.items()}
        return {name: text[: LONGER.get(name, LONGEST)] for name, text in plain.items()}


class ActForm(YardForm):
    """An act on the whole sheet."""


class WhyForm(YardForm):
    """Why a kept sheet is corrected."""

    why = StringField("Why is it corrected?", [InputRequired(WHY), Length(max=300)])
