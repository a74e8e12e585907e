"""Which piece of a stamp is the diameter, the pitch, the hand, the blades, the bore; and which is none of them."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import Literal

from yardapp.stamps.pieces import Piece
from yardapp.stamps.units import unit_of

Hand = Literal["right", "left"]

FEWEST_BLADES, MOST_BLADES = 2, 7
TIMES, MARKS = ("X", "×", "*", "BY"), ("-", "/")
LABELS = dict.fromkeys(("DIAMETER", "DIAM", "DIA", "D", "Ø"), "diameter") | {
    "PITCH": "pitch",
    "P": "pitch",
    "BORE": "bore",
}


@dataclass(frozen=True)
class Sorted:
    """The pieces by what they are for; `left` is what has no place."""

    diameter: Piece | None = None
    pitch: Piece | None = None
    bore: Piece | None = None
    hand: Hand | None = None
    blades: int | None = None
    left: tuple[Piece, ...] = ()
    notes: tuple[str, ...] = ()

    def without(self, used: Iterable[Piece]) -> tuple[Piece, ...]:
        """What is left when these have found their place."""
        gone = {id(piece) for piece in used}
        return tuple(piece for piece in self.left if id(piece) not in gone)


def sort(found: list[Piece]) -> Sorted:
    """Labels first, then the custom: diameter, pitch, hand, blades, bore."""
    stamp = Sorted(left=tuple(found))
    for take in (_take_sizes, _take_hand, _take_blades, _take_bore):
        stamp = take(stamp)
    return stamp


def _take_sizes(stamp: Sorted) -> Sorted:
    sizes = _by_label(stamp.left) or _by_place(stamp.left)
    if not sizes:
        return replace(stamp, left=tuple(piece for piece in stamp.left if piece.what != "by"))
    meant = {id(piece) for piece in sizes.values()}
    left = tuple(piece for piece in stamp.left if piece.what not in ("by", "label") and id(piece) not in meant)
    return replace(stamp, left=left, diameter=sizes["diameter"], pitch=sizes["pitch"], bore=sizes.get("bore"))


def _by_label(found: tuple[Piece, ...]) -> dict[str, Piece]:
    """D22 P18, or 22 D 18 P: on whichever side the first label stands, all of them stand."""
    marks = [piece for piece in found if piece.what in ("label", "size")]
    if not marks:
        return {}
    pairs = pairwise(marks) if marks[0].what == "label" else ((label, size) for size, label in pairwise(marks))
    sizes = dict(_labelled(pairs))
    return sizes if {"diameter", "pitch"} <= sizes.keys() else {}


def _labelled(pairs: Iterable[tuple[Piece, Piece]]) -> Iterator[tuple[str, Piece]]:
    for label, size in pairs:
        if label.what == "label" and size.what == "size":
            yield LABELS[label.text.rstrip(".:=")], size


def _by_place(found: tuple[Piece, ...]) -> dict[str, Piece]:
    """An × between two sizes is surest, then a hand, then another mark, then nothing."""
    bore = dict(_labelled(pairwise(found)))
    triples = list(zip(found, found[1:], found[2:], strict=False))
    for surest in (_times, _hand_between, _mark_between):
        for first, between, second in triples:
            if first.what == second.what == "size" and surest(first, between, second):
                return {"diameter": first, "pitch": second} | bore
    for first, second in pairwise(found):
        if _stands_alone(first) and _stands_alone(second):
            return {"diameter": first, "pitch": second} | bore
    return {}


def _times(first: Piece, between: Piece, second: Piece) -> bool:
    return between.text in TIMES


def _hand_between(first: Piece, between: Piece, second: Piece) -> bool:
    return between.what == "hand" and _stands_alone(first) and _stands_alone(second)


def _mark_between(first: Piece, between: Piece, second: Piece) -> bool:
    return between.text in MARKS


def _stands_alone(piece: Piece) -> bool:
    """With no mark beside it, one figure is a number of blades and a part of an inch is a bore."""
    return piece.what == "size" and not piece.is_lone_figure and (piece.number is None or piece.number > 1)


def _take_hand(stamp: Sorted) -> Sorted:
    told = [piece for piece in stamp.left if piece.what == "hand"]
    hands: set[Hand] = {"right" if piece.text.startswith("R") else "left" for piece in told}
    if len(hands) > 1:
        return replace(stamp, notes=(*stamp.notes, "both hands are stamped; neither was taken"))
    return replace(stamp, hand=next(iter(hands), None), left=stamp.without(told))


def _take_blades(stamp: Sorted) -> Sorted:
    """A number that says blades, else a lone figure that can be one."""
    told = [piece for piece in stamp.left if piece.what == "blades"]
    lone = [piece for piece in stamp.left if piece.is_lone_figure and stamp.diameter]
    for piece in told or lone:
        if piece.number is not None and FEWEST_BLADES <= piece.number <= MOST_BLADES:
            return replace(stamp, blades=int(piece.number), left=stamp.without([piece]))
    return stamp


def _take_bore(stamp: Sorted) -> Sorted:
    """The size that says bore, else one more size; either must be as small beside the diameter as a bore is."""
    size = stamp.bore or _one_more_size(stamp)
    if size is None or stamp.diameter is None or stamp.pitch is None:
        return stamp
    if size is not stamp.bore and stamp.blades is None and size.loose and size.text[1] == " ":
        blades, part = size.text.split()
        said = (
            f"{size.text} may be {blades} blades and a bore of {part}, or a bore of {blades}-{part}; neither was taken"
        )
        return replace(stamp, notes=(*stamp.notes, said))
    unit = unit_of(stamp.diameter, stamp.pitch)
    bore = unit.as_bore(size, stamp.diameter)
    if bore is None:
        return replace(stamp, bore=None, left=(*stamp.without([size]), size))
    notes = (
        [f"{size.text} was read as a bore in mm"]
        if unit.name == "cm" and (size.unit, bore.unit) == (None, "mm")
        else []
    )
    return replace(stamp, bore=bore, left=stamp.without([size]), notes=(*stamp.notes, *notes))


def _one_more_size(stamp: Sorted) -> Piece | None:
    """The only size without a place; one figure alone, or one tied to a letter, is none."""
    sizes = [piece for piece in stamp.left if piece.what == "size" and not piece.tied and not piece.is_lone_figure]
    return sizes[0] if len(sizes) == 1 else None
