"""Tags on labels and in lists."""

from collections.abc import Callable, Iterable

from yardapp.gear.figures import KINDS
from yardapp.gear.services import Labelled


def label_lines(one: Labelled, yard: str, address: str) -> tuple[str, ...]:
    """What stands below the tag; a blank one leaves a line to write on."""
    about = KINDS[one.kind].label if one.is_blank or not one.stamp else one.stamp
    return (about, yard, address.partition("://")[2])


def blank_rows(free: Iterable[Labelled], href: Callable[[str, str], str]) -> list[dict[str, str]]:
    """Tags that wait to be hung on something."""
    return [
        {"tag": one.tag, "href": href(one.kind, one.tag), "size": f"for a {KINDS[one.kind].label.lower()}"}
        for one in free
    ]
