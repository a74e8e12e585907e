"""The tables that come with yardapp: plain sizes, a shop's re-stamps, and three invented makers to look at."""

from functools import cache
from importlib.resources import files

from yardapp.stamps.tables.exchange import from_json
from yardapp.stamps.tables.table import Table

NAMES = (
    "plain_inches",
    "plain_inches_with_bore",
    "plain_millimetres",
    "plain_centimetres",
    "shop_restamps",
    "ombry_thessel",
    "kravelund",
    "pumblewick",
)
INVENTED = NAMES[-3:]


@cache
def shipped() -> tuple[Table, ...]:
    """All of them, plain sizes first."""
    folder = files("yardapp.stamps").joinpath("shipped")
    return tuple(from_json(folder.joinpath(f"{name}.json").read_bytes()) for name in NAMES)
