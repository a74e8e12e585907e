"""The refusals of this package: a table that contradicts itself, a mark that is none, a file that can't be taken."""

from dataclasses import dataclass


@dataclass(frozen=True)
class Problem:
    """What is wrong with a table, in words; `place` counts from 0, None is the table as a whole."""

    said: str
    place: int | None = None
    path: str = ""


@dataclass(frozen=True)
class Fault:
    """What is wrong with a file, where in it, and on which line (from 1; 0 where no line is to blame)."""

    said: str
    path: str = ""
    line: int = 0

    def __str__(self) -> str:
        where = ", ".join(part for part in (f"line {self.line}" if self.line else "", self.path) if part)
        return f"{where}: {self.said}" if where else self.said


class TableRefused(ValueError):
    """A table with a contradiction; `problems` says each."""

    def __init__(self, problems: tuple[Problem, ...]) -> None:
        super().__init__("; ".join(problem.said for problem in problems))
        self.problems = problems


class MarkRefused(ValueError):
    """What was typed is no mark; `said` tells what would do."""

    def __init__(self, said: str) -> None:
        super().__init__(said)
        self.said = said


class ExchangeRefused(ValueError):
    """A file that can't be taken; nothing of it was."""

    def __init__(self, problems: tuple[Fault, ...]) -> None:
        super().__init__("; ".join(str(problem) for problem in problems))
        self.problems = problems

    @property
    def said(self) -> str:
        """All of it in one line."""
        return str(self)
