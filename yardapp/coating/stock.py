"""Which tins a job takes: what is open first, then what expires first; what has expired is never counted."""

from collections.abc import Sequence
from dataclasses import dataclass

from yardapp.coating.amounts import shares_by_volume
from yardapp.coating.system import Part, Product

HAIR = 1e-12


@dataclass(frozen=True, kw_only=True)
class Tin:
    """One tin, or the rest of one. `expires_s` None: nobody read a date on it; `part` "": of a product of one part."""

    key: str
    product: str
    part: str
    volume_m3: float
    batch: str = ""
    opened: bool = False
    expires_s: float | None = None

    def holds(self, product: Product, part: Part) -> bool:
        """Whether it is that part of that product, however its name was spaced or capitalised."""
        is_theirs = _alike(self.product, product.name)
        return is_theirs and (len(product.parts) == 1 or _alike(self.part, part.name))

    def is_past(self, at_s: float) -> bool:
        """Whether its date has gone by."""
        return self.expires_s is not None and self.expires_s < at_s


def _alike(one: str, two: str) -> bool:
    return " ".join(one.split()).casefold() == " ".join(two.split()).casefold()


@dataclass(frozen=True, kw_only=True)
class Draw:
    """What is taken from which tin, what is short, and which tins have expired."""

    takes: tuple[tuple[str, float], ...]
    short_m3: float
    expired: tuple[str, ...]
    undated: tuple[str, ...] = ()


def draw(stock: Sequence[Tin], product: Product, part: Part, volume_m3: float, at_s: float, *, batch: str = "") -> Draw:
    """Take `volume_m3` of one part at a moment; a tin without a date comes after all that have one.

    A tin of the batch that somebody names (of two parts: B7 / H2) goes first, even past its date: it was taken so.
    """
    own = [tin for tin in stock if tin.holds(product, part) and tin.volume_m3 > 0]
    named = [tin for tin in own if any(tin.batch and _alike(tin.batch, one) for one in batch.split("/"))]
    expired = tuple(tin.key for tin in own if tin.is_past(at_s))
    good = sorted((tin for tin in own if tin.key not in expired and tin not in named), key=_turn)
    takes: list[tuple[str, float]] = []
    short_m3 = volume_m3
    for tin in [*named, *good]:
        if short_m3 <= HAIR:
            break
        taken_m3 = min(tin.volume_m3, short_m3)
        takes.append((tin.key, taken_m3))
        short_m3 -= taken_m3
    taken = {key for key, _ in takes}
    undated = tuple(tin.key for tin in own if tin.expires_s is None and tin.key in taken)
    return Draw(takes=tuple(takes), short_m3=short_m3 if short_m3 > HAIR else 0.0, expired=expired, undated=undated)


def _turn(tin: Tin) -> tuple[bool, bool, float]:
    return tin.expires_s is None, not tin.opened, tin.expires_s or 0.0


@dataclass(frozen=True, kw_only=True)
class Makes:
    """What the tins of one product would make when mixed: the part that runs out first decides.

    `until_s`: the first date among the tins that it takes; None where none of them has one.
    """

    volume_m3: float
    lacks: str
    until_s: float | None


def makes(stock: Sequence[Tin], product: Product, at_s: float) -> Makes | None:
    """How much can be mixed of what is still good; None where the ratio is by weight and a density is missing."""
    shares = shares_by_volume(product)
    if shares is None:
        return None
    good = {
        part.name: [tin for tin in stock if tin.holds(product, part) and not tin.is_past(at_s)]
        for part in product.parts
    }
    mixed = {name: sum(tin.volume_m3 for tin in tins) / shares[name] for name, tins in good.items()}
    least = min(mixed, key=lambda name: mixed[name])
    dates = [tin.expires_s for tins in good.values() for tin in tins if tin.expires_s is not None and tin.volume_m3 > 0]
    is_short = len(mixed) > 1 and mixed[least] < max(mixed.values()) - HAIR
    return Makes(volume_m3=mixed[least], lacks=least if is_short else "", until_s=min(dates, default=None))
