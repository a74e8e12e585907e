"""A size as people write it, read."""

from yardapp import quantities
from yardapp.api.bodies.sizes import SizeRead, SizeText
from yardapp.api.door import Act, works_out
from yardapp.api.sizes import SI_UNITS
from yardapp.errors import Refused
from yardapp.quantities import units


@works_out("/sizes/read", body=SizeText, reply=SizeRead)
def read_size(act: Act, said: SizeText) -> SizeRead:
    """Read a size as people write it: to SI, with the unit that was read or assumed."""
    try:
        read = quantities.read(said.text, said.kind, _assumed(said))
    except quantities.Unreadable as refusal:
        raise Refused(refusal.said, "text") from None
    return SizeRead(value=read.value, si_unit=SI_UNITS[said.kind], unit=read.unit, assumed=read.assumed, why=read.why)


def _assumed(said: SizeText) -> str | None:
    if said.assume is None:
        return None
    unit = units.find(said.kind, said.assume)
    if unit is None:
        raise Refused(f"`{said.assume}` is no unit that a {said.kind} is written in here.", "assume")
    return unit.name
