"""What a job has taken of each product, what stands mixed, and what is left over of it."""

from collections.abc import Mapping, Sequence
from typing import Any

from yardapp.coating.amounts import needed
from yardapp.coating.services import PotLeft, Story
from yardapp.coating.showing.log import when
from yardapp.coating.showing.running import STATES, at_clock
from yardapp.quantities import show

NOT_SAID = "not said"


def sums(story: Story) -> list[tuple[str, str, str, str]]:
    """Of each product: needed by the sheet, mixed so far, left over so far."""
    area_m2 = sum(piece.area_m2 for piece in story.pieces)
    return [
        (
            one.product,
            _volume(one.volume_m3),
            _total(story, "mixed", one.product),
            _total(story, "left over", one.product),
        )
        for one in needed(story.system, area_m2, story.job.loss_ratio)
    ]


def _volume(volume_m3: float | None) -> str:
    return "the sheet is silent" if volume_m3 is None else show(volume_m3, "volume")


def _total(story: Story, kind: str, product: str) -> str:
    """The sum of what was said; and that it is more, where somebody did not say."""
    said = [one.figures.get("volume_m3") for one in story.standing_acts if _is(one, kind, product)]
    if not said:
        return "nothing"
    if not any(said):
        return NOT_SAID
    known = show(sum(one for one in said if one), "volume")
    return known if all(one is not None for one in said) else f"{known}, and more that nobody measured"


def _is(act: Any, kind: str, product: str) -> bool:
    return bool(act.kind == kind and act.figures.get("product") == product)


def pots(left: Sequence[PotLeft]) -> list[dict[str, Any]]:
    """What stands mixed: until when, how much is unused, what that would cover, which pieces that wait it would do."""
    return [
        {
            "product": one.pot.product,
            "state": _state(one),
            "unused": NOT_SAID if one.covers is None else show(one.covers.volume_m3, "volume"),
            "covers": _covers(one),
            "pieces": [piece.label for piece in one.covers.pieces] if one.covers and one.pot.state != "past" else [],
        }
        for one in left
    ]


def _state(left: PotLeft) -> str:
    pot = left.pot
    batch = f"Batch {pot.batch}: " if pot.batch else ""
    until = f", good until {at_clock(pot.good_until_s)}" if pot.good_until_s is not None and pot.state != "past" else ""
    return f"{batch}{pot.said or STATES[pot.state]}{until}"


def _covers(left: PotLeft) -> str:
    """By its volume, and in the time that it is good."""
    rest = left.covers
    if rest is None or left.pot.state == "past":
        return ""
    in_time = "" if rest.by_time_m2 is None else f"; there is time for {show(rest.by_time_m2, 'area')}"
    return f"{show(rest.by_volume_m2, 'area')} by volume{in_time}"


def acts(story: Story, href: Any) -> list[dict[str, Any]]:
    """Each time something was mixed or was left over, newest first, with the tins that it came from or went to."""
    rows = [one for one in story.standing_acts if one.kind in ("mixed", "left over")]
    return [
        {
            "when": when(one.at),
            "who": one.said_by,
            "what": _what(one.kind, one.figures),
            "note": "; ".join(part for part in (one.note, *_tins(one.figures)) if part),
            "href": href(one.id),
        }
        for one in reversed(rows)
    ]


def _what(kind: str, figures: Mapping[str, Any]) -> str:
    volume_m3 = figures.get("volume_m3")
    amount = "amount not said" if volume_m3 is None else show(volume_m3, "volume")
    fate = f", {figures['fate']}" if figures.get("fate") else ""
    batch = f", batch {figures['batch']}" if figures.get("batch") else ""
    return f"{figures.get('product', '')} {kind}: {amount}{fate}{batch}"


def _tins(figures: Mapping[str, Any]) -> list[str]:
    way = "back into" if figures.get("fate") else "from"
    took = [
        f"{show(abs(take['volume_m3']), 'volume')} {way} {take['part']}"
        f"{', batch ' + take['batch'] if take['batch'] else ''}{', past its date' if take.get('is_past') else ''}"
        for take in figures.get("takes", ())
    ]
    short = [
        f"{show(volume_m3, 'volume')} of {part} not in stock" for part, volume_m3 in figures.get("short_m3", {}).items()
    ]
    return [*took, *short]
