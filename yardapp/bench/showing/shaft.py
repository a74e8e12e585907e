"""Shafts in words and pictures: wear, bow, play against the rival limits, the end against the standards."""

from collections.abc import Mapping
from typing import Any

from yardapp import quantities
from yardapp.bench.showing.pictures import Picture
from yardapp.bench.showing.words import figure, label_of
from yardapp.bench.sums import Known, Outcome
from yardapp.drawings.bore_on_taper import bore_on_taper
from yardapp.drawings.play import play_in_bearing
from yardapp.drawings.shaft_line import ShaftPlace, shaft_bow, shaft_wear
from yardapp.quantities import System

Checks = list[dict[str, str]]
VERDICTS = {"yes": "within it", "no": "beyond it", "ask": "too near to tell"}


def wear_lead(outcome: Outcome, readings: Mapping[str, Any], system: System) -> str:
    """`Worn by 0.3 ± 0.03 mm`."""
    return f"Worn by {figure('largest_wear_m', outcome.value, system, outcome.u)}"


def wear_picture(outcome: Outcome, readings: Mapping[str, Any], known: Known, system: System) -> Picture:
    """The shaft with its worn places."""
    places = outcome.more.get("places", ())
    worn = {int(one.what.split("_")[1]): one for one in outcome.sums if one.what.startswith("worn_")}
    drawn = [
        ShaftPlace(
            along_m=place["along_m"],
            figure_m=worn[place["number"]].value,
            label=figure("diameter_m", place["diameter_m"], system),
            name=place["place"] or str(place["number"]),
            is_worst=worn[place["number"]].value > 0 and worn[place["number"]].value == outcome.value,
        )
        for place in places
    ]
    rows = [(label_of(one.what), figure(one.what, one.value, system, one.u)) for one in worn.values()]
    return shaft_wear(drawn), rows


def bow_lead(outcome: Outcome, readings: Mapping[str, Any], system: System) -> str:
    """`Bent by 0.25 ± 0.02 mm`: how far its middle stands off."""
    return f"Off its line by {figure('bow_m', outcome.value, system, outcome.u)}"


def bow_picture(outcome: Outcome, readings: Mapping[str, Any], known: Known, system: System) -> Picture:
    """The shaft's middle line, bowed."""
    stations = outcome.more.get("stations", ())
    drawn = [
        ShaftPlace(
            along_m=one["along_m"],
            figure_m=one["offset_m"],
            label=figure("offset_m", one["offset_m"], system),
            name=str(one["number"]),
            is_worst=one["offset_m"] == outcome.value,
        )
        for one in stations
    ]
    offsets = [one for one in outcome.sums if one.what.startswith("offset_")]
    return shaft_bow(drawn), [(label_of(one.what), figure(one.what, one.value, system, one.u)) for one in offsets]


def play_lead(outcome: Outcome, readings: Mapping[str, Any], system: System) -> str:
    """`Play 0.9 ± 0.07 mm in the bracket`."""
    where = f" in {readings['bearing']}" if readings.get("bearing") else ""
    return f"Play {figure('play_m', outcome.value, system, outcome.u)}{where}"


def play_picture(outcome: Outcome, readings: Mapping[str, Any], known: Known, system: System) -> Picture:
    """The shaft in its bearing."""
    bore = figure("bearing_bore_m", readings["bearing_bore_m"], system) if readings.get("bearing_bore_m") else ""
    said = figure("play_m", outcome.value, system, outcome.u)
    drawing = play_in_bearing(
        outcome.value,
        play_label=said,
        bore_label=f"bore {bore}" if bore else "",
        shaft_label=f"shaft {figure('shaft_m', readings['shaft_m'], system)}",
    )
    names = [name for name in ("bearing_bore_m", "lift_m", "shaft_m") if readings.get(name)]
    rows = [(label_of(name), figure(name, readings[name], system)) for name in names]
    return drawing, [*rows, (label_of("play_m"), said)]


def play_checks(outcome: Outcome, system: System) -> Checks:
    """Each rival limit, and which side of it the play is."""
    return [
        {
            "verdict": one["verdict"],
            "label": f"{one['policy']}:",
            "said": f"renew at {quantities.both(one['limit_m'], 'length', system)}; {VERDICTS[one['verdict']]}. "
            f"{one['source'].capitalize()}.",
        }
        for one in outcome.more.get("policies", ())
    ]


def end_lead(outcome: Outcome, readings: Mapping[str, Any], system: System) -> str:
    """`End 38.1 mm, 1:16 ± 0.2`, as far as it was read."""
    large = [figure("large_m", readings["large_m"], system)] if readings.get("large_m") else []
    taper = [figure("taper", outcome.value, system, outcome.u)] if outcome.value is not None else []
    return f"End {', '.join([*large, *taper])}" if large or taper else "Shaft end"


def end_picture(outcome: Outcome, readings: Mapping[str, Any], known: Known, system: System) -> Picture:
    """The taper, where it was read."""
    if outcome.value is None:
        return None, []
    large, length = readings["large_m"], readings["length_m"]
    label = f"⌀ {figure('large_m', large, system)}, {figure('taper', outcome.value, system)}"
    names = ("large_m", "small_m", "length_m")
    drawing = bore_on_taper(large, outcome.value, length, None, None, None, shaft_label=label)
    return drawing, [(label_of(name), figure(name, readings[name], system)) for name in names]


def standards(outcome: Outcome, system: System) -> list[dict[str, Any]]:
    """The nearest standard ends as tables: read, standard, from and to, how far off."""
    return [_standard(one, system) for one in outcome.more.get("standards", ())]


def _standard(one: Mapping[str, Any], system: System) -> dict[str, Any]:
    verdict = "the readings are this end" if one["is_it"] else "not this end"
    return {
        "caption": f"{one['end']}: {verdict}",
        "heads": ("Figure", "Read", "Standard", "From, to", "Off"),
        "rows": [_held(row, system) for row in one["held"]],
        "note": f"{one['source']} ({one['status']}).",
    }


def _held(row: Mapping[str, Any], system: System) -> tuple[str, ...]:
    what = row["what"]
    low, high = row["low"], row["high"]
    is_span = low is not None and high is not None and low != high
    span = f"{figure(what, low, system)} to {figure(what, high, system)}" if is_span else "one figure"
    off = "within" if row["is_within"] else _off(what, row["off"], system)
    return label_of(what), figure(what, row["read"], system), figure(what, row["standard"], system), span, off


def _off(what: str, off: float, system: System) -> str:
    if what == "taper":
        return "steeper" if off > 0 else "slower"
    return f"{figure(what, abs(off), system)} {'more' if off > 0 else 'less'}"
