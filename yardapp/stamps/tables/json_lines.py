"""On which line of a JSON text each of its values stands, by path; and which keys stand twice."""

import re
from dataclasses import dataclass, field

_TOKEN = re.compile(r'"(?:[^"\\]|\\.)*"|[{}\[\],:]|[^\s{}\[\],:"]+')


@dataclass
class _Open:
    """An object or a list that is not closed yet."""

    path: str
    is_list: bool
    at: int = 0
    key: str = ""
    keys: set[str] = field(default_factory=set)

    @property
    def here(self) -> str:
        if self.is_list:
            return f"{self.path}[{self.at}]"
        return f"{self.path}.{self.key}" if self.path else self.key


@dataclass(frozen=True)
class Lines:
    """Path to line, and the keys that stand twice: path and line."""

    of: dict[str, int]
    twice: tuple[tuple[str, int], ...]

    def line(self, path: str) -> int:
        """The line of a path; of what holds it, where it has none of its own."""
        while path and path not in self.of:
            path = path[: max(path.rfind("."), path.rfind("["), 0)]
        return self.of.get(path, 1)


def lines_of(text: str) -> Lines:
    """Lines of a text that is JSON."""
    of: dict[str, int] = {"": 1}
    twice: list[tuple[str, int]] = []
    opened: list[_Open] = []
    line, last = 1, 0
    for token in _TOKEN.finditer(text):
        line, last = line + text.count("\n", last, token.start()), token.start()
        _take(token[0], line, opened, of, twice)
    return Lines(of, tuple(twice))


def _take(mark: str, line: int, opened: list[_Open], of: dict[str, int], twice: list[tuple[str, int]]) -> None:
    here = opened[-1] if opened else None
    if mark in "}]":
        opened.pop()
    elif mark == ",":
        if here:
            here.at, here.key = here.at + 1, ""
    elif mark == ":":
        pass
    elif here and not here.is_list and not here.key:
        here.key = mark[1:-1] or " "
        if here.key in here.keys:
            twice.append((here.here, line))
        here.keys.add(here.key)
        of.setdefault(here.here, line)
    else:
        path = here.here if here else ""
        of.setdefault(path, line)
        if mark in "{[":
            opened.append(_Open(path, mark == "["))
