"""How much of each part a job needs, how many kits, what is left, and what else that would cover."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from yardapp.coating.pieces import YES, Piece, allowed
from yardapp.coating.system import Film, Product, System
from yardapp.errors import Refused
from yardapp.formulas.film import product_needed

LOSS = 0.2
HAIR = 1e-9


@dataclass(frozen=True, kw_only=True)
class PartNeed:
    """One tin's share of it; None where the sheet does not tell."""

    part: str
    volume_m3: float | None
    mass_kg: float | None = None


@dataclass(frozen=True, kw_only=True)
class Need:
    """What one product comes to, loss included; `why`: what the sheet would have to say to tell more."""

    product: str
    coats: int
    area_m2: float
    volume_m3: float | None
    parts: tuple[PartNeed, ...]
    kits: int | None = None
    left_m3: float | None = None
    left_covers_m2: float | None = None
    why: tuple[str, ...] = ()


@dataclass(frozen=True, kw_only=True)
class LeftOver:
    """What is left in the pot, and what it would still cover: by its volume, and in the time that it is good."""

    volume_m3: float
    by_volume_m2: float
    by_time_m2: float | None
    covers_m2: float
    pieces: tuple[Piece, ...]


def needed(system: System, area_m2: float, loss_ratio: float = LOSS) -> tuple[Need, ...]:
    """Each product of a system for an area, in the order of the sheet.

    Raises
    ------
    Refused
        The area is not above zero, or the loss leaves nothing.
    """
    _hold(area_m2, loss_ratio)
    used = [product for product in system.products if _coats(system, product)]
    return tuple(_need(system, product, area_m2, loss_ratio) for product in used)


def use_m3pm2(product: Product, film: Film) -> float | None:
    """Volume for a square metre of one coat, without loss: as the sheet gives it, else from its film; None: silent."""
    if film.use_m3pm2 is not None:
        return film.use_m3pm2
    if film.coverage_m2pm3 is not None:
        return 1 / film.coverage_m2pm3
    if film.dry_m is not None and product.solids_ratio is not None:
        return float(product_needed(1.0, 1, film.dry_m, product.solids_ratio))
    return film.wet_m


def shares_by_volume(product: Product) -> dict[str, float] | None:
    """Each part's share of the mixed volume; None where the ratio is by weight and a density is missing."""
    volumes = {}
    for part in product.parts:
        if product.ratio_by == "weight" and len(product.parts) > 1:
            if part.density_kgpm3 is None:
                return None
            volumes[part.name] = part.share / part.density_kgpm3
        else:
            volumes[part.name] = part.share
    whole = sum(volumes.values())
    return {name: volume / whole for name, volume in volumes.items()}


def one_coat_m2(system: System, product: Product, volume_m3: float, loss_ratio: float = LOSS) -> float | None:
    """How much a volume covers in one coat, the thickest that the system has of it; None where the sheet is silent."""
    uses = [use_m3pm2(product, film) for film in _coats(system, product)]
    known = [use for use in uses if use is not None]
    return volume_m3 * (1 - loss_ratio) / max(known) if known and len(known) == len(uses) else None


def left_over(
    system: System,
    step: int,
    volume_m3: float,
    *,
    now_s: float,
    good_until_s: float | None,
    pace_m2ps: float,
    pieces: Sequence[Piece] = (),
    loss_ratio: float = LOSS,
) -> LeftOver | None:
    """What a rest in the pot would cover before it dies, and which pieces that is; None where the sheet is silent.

    Raises
    ------
    Refused
        There is nothing left, or no pace.
    """
    if not (math.isfinite(volume_m3) and volume_m3 > 0):
        raise Refused("How much is left? More than nothing.", "volume_m3")
    if not (math.isfinite(pace_m2ps) and pace_m2ps > 0):
        raise Refused("How fast does the coat go on? More than nothing in any time.", "pace_m2ps")
    product = system.product(system.steps[step].product)
    use = use_m3pm2(product, system.steps[step].film) if product else None
    if use is None:
        return None
    by_volume_m2 = volume_m3 * (1 - loss_ratio) / use
    by_time_m2 = None if good_until_s is None else max(0.0, good_until_s - now_s) * pace_m2ps
    covers_m2 = by_volume_m2 if by_time_m2 is None else min(by_volume_m2, by_time_m2)
    return LeftOver(
        volume_m3=volume_m3,
        by_volume_m2=by_volume_m2,
        by_time_m2=by_time_m2,
        covers_m2=covers_m2,
        pieces=tuple(_that_fit(system, pieces, covers_m2)),
    )


def _hold(area_m2: float, loss_ratio: float) -> None:
    if not (math.isfinite(area_m2) and area_m2 > 0):
        raise Refused("The area to be coated is above zero.", "area_m2")
    if not 0 <= loss_ratio < 1:
        raise Refused("The loss is zero or more, and less than all of it.", "loss_ratio")


def _coats(system: System, product: Product) -> list[Film]:
    steps = [system.steps[number] for number in system.chain]
    return [step.film for step in steps if step.product == product.name]


def _need(system: System, product: Product, area_m2: float, loss_ratio: float) -> Need:
    films = _coats(system, product)
    uses = [use for film in films if (use := use_m3pm2(product, film)) is not None]
    if len(uses) < len(films):
        why = f"The sheet gives neither film with solids, nor coverage, nor an amount for {product.name}."
        parts = tuple(PartNeed(part=part.name, volume_m3=None) for part in product.parts)
        return Need(product=product.name, coats=len(films), area_m2=area_m2, volume_m3=None, parts=parts, why=(why,))
    volume_m3 = area_m2 * sum(uses) / (1 - loss_ratio)
    shares = shares_by_volume(product)
    kits = _kits(product, shares, volume_m3)
    left_m3 = None if kits is None or shares is None else kits * _kit_m3(product, shares) - volume_m3
    return Need(
        product=product.name,
        coats=len(films),
        area_m2=area_m2,
        volume_m3=volume_m3,
        parts=tuple(_parts(product, shares, volume_m3)),
        kits=kits,
        left_m3=left_m3,
        left_covers_m2=None if left_m3 is None else left_m3 * (1 - loss_ratio) / max(uses),
        why=tuple(_silent(product, shares)),
    )


def _parts(product: Product, shares: dict[str, float] | None, volume_m3: float) -> Iterator[PartNeed]:
    for part in product.parts:
        part_m3 = None if shares is None else shares[part.name] * volume_m3
        mass_kg = None if part_m3 is None or part.density_kgpm3 is None else part_m3 * part.density_kgpm3
        yield PartNeed(part=part.name, volume_m3=part_m3, mass_kg=mass_kg)


def _kit_m3(product: Product, shares: dict[str, float]) -> float:
    """What one kit makes when mixed by the ratio: the part that runs out first decides."""
    return min((part.kit_m3 or 0.0) / shares[part.name] for part in product.parts)


def _kits(product: Product, shares: dict[str, float] | None, volume_m3: float) -> int | None:
    if shares is None or any(part.kit_m3 is None for part in product.parts):
        return None
    return math.ceil(volume_m3 / _kit_m3(product, shares) - HAIR)


def _silent(product: Product, shares: dict[str, float] | None) -> Iterator[str]:
    if shares is None:
        yield f"{product.name} is mixed by weight: its parts' densities would tell the volumes."
    if any(part.kit_m3 is None for part in product.parts):
        yield f"Nobody said how much of {product.name} a kit holds."


def _that_fit(system: System, pieces: Sequence[Piece], covers_m2: float) -> Iterator[Piece]:
    """In the order given, whatever may be coated and still fits into what is left."""
    for piece in pieces:
        if piece.area_m2 <= covers_m2 + HAIR and allowed(piece, system).verdict == YES:
            covers_m2 -= piece.area_m2
            yield piece
