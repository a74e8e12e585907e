"""A released sheet as it was kept, and what differs since. No database here."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from yardapp.relaunch.lines import PARTS
from yardapp.relaunch.settling import LineNow


@dataclass(frozen=True, kw_only=True)
class Change:
    """One line that stands otherwise than when she was released. `then` and `now`: verdict and what was said."""

    key: str
    drive_id: int | None
    title: str
    is_stop: bool
    then: tuple[str, str]
    now: tuple[str, str]

    @property
    def is_worse(self) -> bool:
        """Whether it would keep her back now, and did not then."""
        return self.is_stop and self.then[0] == "yes" and self.now[0] != "yes"


def put_down(sheet: Iterable[LineNow], up_to: str, **said: Any) -> dict[str, Any]:
    """Every line of the releases `up_to` this one, as JSON keeps it, with whatever else is `said` of the sheet."""
    reach = PARTS.index(up_to)
    return {**said, "lines": [_line(now) for now in sheet if PARTS.index(now.line.part) <= reach]}


def _line(now: LineNow) -> dict[str, Any]:
    return {
        "key": now.line.key,
        "drive_id": now.place.drive_id,
        "place": now.place.label,
        "title": now.title,
        "words": now.line.words,
        "plain": now.line.owner_words,
        "part": now.line.part,
        "is_stop": now.line.is_stop,
        "verdict": now.verdict,
        "said": now.said,
        "by": list(now.by),
        "at": now.at.isoformat() if now.at else "",
    }


def changes(frozen: Mapping[str, Any], sheet: Sequence[LineNow]) -> list[Change]:
    """What differs between the sheet as it was kept and as it stands; a drive that was taken out or put in, too."""
    now = {one.key: _line(one) for one in sheet}
    then = {(one["key"], one["drive_id"]): one for one in frozen["lines"]}
    parts = {one["part"] for one in then.values()}
    new = [one for key, one in now.items() if key not in then and one["part"] in parts]
    told = [_change(one, now.get(key)) for key, one in then.items() if _differs(one, now.get(key))]
    return [*told, *(_change(None, one) for one in new)]


def _differs(then: Mapping[str, Any], now: Mapping[str, Any] | None) -> bool:
    return now is None or any(then[name] != now[name] for name in ("verdict", "said", "by"))


def _change(then: Mapping[str, Any] | None, now: Mapping[str, Any] | None) -> Change:
    one = now or then or {}
    return Change(
        key=one["key"],
        drive_id=one["drive_id"],
        title=one["title"],
        is_stop=one["is_stop"],
        then=_said(then, "not on the sheet"),
        now=_said(now, "no longer asked"),
    )


def _said(one: Mapping[str, Any] | None, otherwise: str) -> tuple[str, str]:
    if one is None:
        return "", otherwise
    return one["verdict"], "; ".join(part for part in (one["said"], ", ".join(one["by"])) if part)
