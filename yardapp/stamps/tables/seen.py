"""A mark as it was seen: `?` one unreadable character, `*` an unknown run, `[B8]` B or 8; case and spaces forgiven."""

import re
from dataclasses import dataclass
from functools import lru_cache

from yardapp.quantities import numerals
from yardapp.stamps.spelling import AT_MOST_CHARACTERS
from yardapp.stamps.tables.refusals import MarkRefused

AT_MOST_TYPED = 400
ANY, RUN, SPACE = "?", "*", " "
WILD = frozenset("?*[]")

# Inside, a choice such as [B8] is one character: in the first range if a figure is among what it may be.
_FIRST, _SECOND, _MOST_CHOICES = 0xE000, 0xE800, 0x400
_CHOICE = re.compile(r"\[([^\[\]]*)\]")
_PRIVATE = re.compile("[\ue000-\uf8ff]")
_BETWEEN_CHOICES = re.compile(r"\bOR\b|[\s/,|]")


def _rules(figure: str) -> tuple[re.Pattern[str], re.Pattern[str], re.Pattern[str]]:
    """Decimal commas; quotes and dots that are no decimals; spaces that are not between figures."""
    return (
        re.compile(rf"(?<=[{figure}]),(?=[{figure}])"),
        re.compile(rf"[\"']|(?<![{figure}])[.,]|[.,](?![{figure}])"),
        re.compile(rf"(?<![{figure}]) | (?![{figure}])"),
    )


_PLAIN = re.compile(r"[A-Za-z0-9/-]+")  # nothing in it that could be spelled otherwise
_EXACT = _rules("0-9")
_WORN = _rules("0-9?*\ue000-\ue7ff")
_RUNS = re.compile(r"[ .]*\*[ .*]*")


@lru_cache(maxsize=4096)  # two versions of a table read each mark in turn
def spell(text: str) -> str:
    """One spelling for marks that are the same: upper case, no quotes, spaces only between figures.

    >>> spell('hp. 22½"  18" r.h.')
    'HP22 1/2 18RH'
    """
    if _PLAIN.fullmatch(text):
        return text.upper()
    return _spelled(numerals.tidy(text).upper(), _EXACT)


def _spelled(text: str, rules: tuple[re.Pattern[str], re.Pattern[str], re.Pattern[str]]) -> str:
    comma, dropped, space = rules
    plain = dropped.sub(" ", comma.sub(".", text.replace("×", "X")))
    return space.sub("", " ".join(plain.split()))


@dataclass(frozen=True)
class Seen:
    """A mark taken apart: for each element what it may be. `maybe` are the elements that need not be there."""

    typed: str
    elements: tuple[str, ...]
    maybe: frozenset[int] = frozenset()

    @property
    def text(self) -> str:
        """The mark as it is spelled, choices in brackets."""
        return shown(self.elements)

    def squeezed(self) -> "Seen":
        """The same without any space, for makers who never strike one."""
        if SPACE not in self.elements:
            return self
        kept = [at for at, element in enumerate(self.elements) if element != SPACE]
        maybe = frozenset(new for new, old in enumerate(kept) if old in self.maybe)
        return Seen(self.typed, tuple(self.elements[at] for at in kept), maybe)


def shown(elements: tuple[str, ...]) -> str:
    """Elements as they are typed."""
    return "".join(element if len(element) == 1 else f"[{element}]" for element in elements)


def is_exact(text: str) -> bool:
    """Whether every character of it was read."""
    return WILD.isdisjoint(text)


def exactly(text: str) -> str:
    """The spelling of a mark without wildcards.

    Raises
    ------
    MarkRefused
        It is empty, or too long to be a mark.
    """
    if len(text) > AT_MOST_TYPED:
        raise MarkRefused(_too_long(len(text)))
    spelled = spell(text)
    _hold_length(len(spelled))
    return spelled


def take_apart(text: str) -> Seen:
    """The elements of a mark with or without wildcards.

    Raises
    ------
    MarkRefused
        It is empty, too long to be a mark, or has a bracket without its other half.
    """
    if len(text) > AT_MOST_TYPED:
        raise MarkRefused(_too_long(len(text)))
    choices: list[str] = []
    tidied = numerals.tidy(_PRIVATE.sub("\ufffd", text)).upper()
    coded = _CHOICE.sub(lambda found: _coded(found[1], choices), tidied)
    if "[" in coded or "]" in coded:
        raise MarkRefused("A [ needs its ], as in [B8] for B or 8.")
    spelled = _RUNS.sub("*", _spelled(coded, _WORN))
    _hold_length(len(spelled))
    elements = tuple(_decoded(mark, choices) for mark in spelled)
    return Seen(text, elements, frozenset(at for at, mark in enumerate(elements) if _need_not_be(at, mark, elements)))


def _too_long(length: int) -> str:
    return f"{length} characters are too many; a mark has at most {AT_MOST_CHARACTERS}."


def _hold_length(length: int) -> None:
    if not length:
        raise MarkRefused("Nothing was read off the hub. Type what is there, ? for each character that can't be read.")
    if length > AT_MOST_CHARACTERS:
        raise MarkRefused(_too_long(length))


def _coded(inside: str, choices: list[str]) -> str:
    """One character that stands for the choice."""
    options = "".join(dict.fromkeys(_BETWEEN_CHOICES.sub("", inside)))
    if not options or RUN in options:
        raise MarkRefused("Between [ and ] goes what the character may be, as in [B8] for B or 8.")
    if len(options) == 1 or ANY in options:
        return ANY if ANY in options else options
    choices.append(options)
    first = _FIRST if any("0" <= mark <= "9" for mark in options) else _SECOND
    return chr(first + len(choices) - 1)


def _decoded(mark: str, choices: list[str]) -> str:
    code = ord(mark)
    if not _FIRST <= code < _SECOND + _MOST_CHOICES:
        return mark
    return choices[code - (_FIRST if code < _SECOND else _SECOND)]


def _need_not_be(at: int, mark: str, elements: tuple[str, ...]) -> bool:
    """A space or a dot stands only between figures; beside a character that may be none, it may not count."""
    if mark not in (SPACE, "."):
        return False
    beside = elements[at - 1] + elements[at + 1] if 0 < at < len(elements) - 1 else "?"
    return not all("0" <= one <= "9" for one in beside)
