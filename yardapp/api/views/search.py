"""What answers a search line."""

from yardapp.api.bodies.search import Found, SearchLine
from yardapp.api.door import Act, reads
from yardapp.api.views import items, vessels
from yardapp.gear import services


@reads("/search", query=SearchLine, reply=Found)
def search(act: Act, asked: SearchLine) -> Found:
    """Items and boats that answer a search line, best first."""
    found, boats = services.search_all(act.session, act.who, asked.q)
    return Found(items=[items.listed(row) for row in found], boats=[vessels.listed(boat) for boat in boats])
