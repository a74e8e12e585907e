"""Pitch of one blade at one radius."""

from collections.abc import Callable
from dataclasses import dataclass

from sqlalchemy.orm import Session

from yardapp.bench.models import Sheet
from yardapp.bench.repeating import Reading, of_common, repeatable
from yardapp.bench.services.blades import with_other_blades
from yardapp.bench.services.keeping import Filled, Method, measure
from yardapp.bench.sums import Figure, Known, Outcome, Sum, read, work_out
from yardapp.errors import Refused
from yardapp.formulas.pitch import (
    pitch_angle,
    pitch_from_angle,
    pitch_from_chord,
    pitch_from_rise,
    pitch_ratio,
    rise_from_edges,
)
from yardapp.formulas.pitch_template import pitch_from_template, swing_from_chord
from yardapp.gear import services as gear
from yardapp.people.services import Who

EDGES = ("leading", "trailing")
CLIMBS = {"right": "anticlockwise", "left": "clockwise"}
SWAPPED = (
    "The trailing edge stands higher than the leading edge. Lying face down that can't be, on either hand: "
    "swap the two, or turn the propeller over. If neither helps, look at its hand again."
)


@dataclass(frozen=True, kw_only=True)
class PitchReading(Reading):
    """What was read off one blade: a rise, both edges, its angle, or a template's gap. `u_` is k = 1."""

    blade: int | None = None
    radius_m: float | None = None
    u_radius_m: float | None = None
    rise_m: float | None = None
    u_rise_m: float | None = None
    leading_m: float | None = None
    u_leading_m: float | None = None
    trailing_m: float | None = None
    u_trailing_m: float | None = None
    swing_rad: float | None = None
    u_swing_rad: float | None = None
    angle_rad: float | None = None
    u_angle_rad: float | None = None
    chord_m: float | None = None  # of a straight gauge, between its two ends
    u_chord_m: float | None = None
    template_pitch_m: float | None = None
    u_template_pitch_m: float | None = None
    gap_m: float | None = None
    u_gap_m: float | None = None
    width_m: float | None = None
    u_width_m: float | None = None
    gap_at: str = ""  # of a template: "leading" or "trailing"; without a gap it does not matter
    climbs: str = ""


@repeatable
def pitch_of(reading: PitchReading, known: Known | None = None) -> Outcome:
    """Pitch with its ±, and every sum on the way. No register here.

    Raises
    ------
    OutsideRange
        A reading cannot be right.
    Refused
        A reading that is needed is missing, or the edges stand the wrong way round.
    """
    known = known or Known()
    sums = _way_of(reading)(reading, known)
    return Outcome(
        answer="pitch_m",
        sums=(*sums, *_more(reading, known, sums[-1].figure)),
        remarks=tuple(_remarks(reading, known)),
        more={"u_same_m": _u_same(reading, known)},
    )


def _u_same(reading: PitchReading, known: Known) -> float:
    """Of its uncertainty, what it shares with every blade that the same tools read (k = 1)."""
    return _way_of(reading)(of_common(reading), known)[-1].u or 0.0 if reading.common else 0.0


def _way_of(reading: PitchReading) -> Callable[[PitchReading, Known], list[Sum]]:
    if reading.angle_rad is not None:
        return _by_angle
    if reading.template_pitch_m is not None:
        return _by_template
    return _by_chord if reading.chord_m is not None else _by_rise


def _by_angle(reading: PitchReading, known: Known) -> list[Sum]:
    radius, angle = read(reading, "radius_m"), read(reading, "angle_rad")
    if radius is None or angle is None:
        raise Refused("At what radius? By angle alone there is no pitch.", "radius_m")
    return [work_out("pitch_m", pitch_from_angle, radius_m=radius, angle_rad=angle)]


def _by_template(reading: PitchReading, known: Known) -> list[Sum]:
    template, radius = read(reading, "template_pitch_m"), read(reading, "radius_m")
    gap, width = read(reading, "gap_m"), read(reading, "width_m")
    if template is None or radius is None:
        raise Refused("At what radius was it laid on?", "radius_m")
    if gap is None:
        raise Refused("Read the gap with a feeler; 0 where the template touches all along.", "gap_m")
    if width is None:
        raise Refused("Read along the template, from where it touches to where the gap is.", "width_m")
    if gap[0] and reading.gap_at not in EDGES:
        raise Refused("At which edge is the gap? It says whether the blade is steeper or flatter.", "gap_at")
    signed = (-gap[0] if reading.gap_at == "trailing" else gap[0], gap[1])
    readings = {"template_pitch_m": template, "radius_m": radius, "gap_m": signed, "width_m": width}
    return [work_out("pitch_m", pitch_from_template, **readings)]


def _by_chord(reading: PitchReading, known: Known) -> list[Sum]:
    radius, chord = read(reading, "radius_m"), read(reading, "chord_m")
    if radius is None or chord is None:
        raise Refused("At what radius? A chord spans more of a small circle than of a large one.", "radius_m")
    steps, rise = _rise(reading)
    if rise[0] <= 0:
        raise Refused(SWAPPED, "trailing_m") if steps else Refused(_falls(known), "rise_m")
    swing = work_out("swing_rad", swing_from_chord, radius_m=radius, chord_m=chord)
    return [*steps, swing, work_out("pitch_m", pitch_from_chord, rise_m=rise, radius_m=radius, chord_m=chord)]


def _by_rise(reading: PitchReading, known: Known) -> list[Sum]:
    swing = read(reading, "swing_rad")
    if swing is None:
        raise Refused("Read the swing off the ring.", "swing_rad")
    steps, rise = _rise(reading)
    if rise[0] <= 0:
        raise Refused(SWAPPED, "trailing_m") if steps else Refused(_falls(known), "rise_m")
    return [*steps, work_out("pitch_m", pitch_from_rise, rise_m=rise, swing_rad=swing)]


def _rise(reading: PitchReading) -> tuple[list[Sum], Figure]:
    """The rise as read, or as the difference of both edges."""
    rise = read(reading, "rise_m")
    if rise is not None:
        return [], rise
    leading, trailing = read(reading, "leading_m"), read(reading, "trailing_m")
    if leading is None or trailing is None:
        raise Refused("Read the rise, or the height of both edges.", "rise_m")
    step = work_out("rise_m", rise_from_edges, leading_m=leading, trailing_m=trailing)
    return [step], step.figure


def _falls(known: Known) -> str:
    way = f" A {known.hand}-hand blade climbs {CLIMBS[known.hand]}, seen from above." if known.hand in CLIMBS else ""
    return f"A rise is above zero: swing from the lower point to the higher.{way}"


def _more(reading: PitchReading, known: Known, pitch: Figure) -> list[Sum]:
    """What follows from the pitch where diameter or radius are known."""
    more = []
    if known.diameter_m:
        diameter = (known.diameter_m, known.u_diameter_m)
        more.append(work_out("pitch_ratio", pitch_ratio, pitch_m=pitch, diameter_m=diameter))
    radius = read(reading, "radius_m")
    if radius and reading.angle_rad is None:
        more.append(work_out("angle_rad", pitch_angle, pitch_m=pitch, radius_m=radius))
    return more


def _remarks(reading: PitchReading, known: Known) -> list[str]:
    remarks = ["One blade at one radius. Blades differ: read the others at the same mark."]
    if reading.climbs and known.hand in CLIMBS and reading.climbs != CLIMBS[known.hand]:
        other = "left" if known.hand == "right" else "right"
        remarks.append(
            f"A blade that climbs {reading.climbs}, seen from above, is of a {other}-hand propeller, "
            f"whichever face is up. The register says {known.hand} hand: look again."
        )
    if reading.template_pitch_m is not None:
        remarks.append("The face counts as straight: a hollow or cupped one shows a gap of its own.")
    if reading.radius_m and known.diameter_m and reading.radius_m > known.diameter_m / 2:
        remarks.append("That radius lies outside the propeller as it was measured. Look at both again.")
    return remarks


def _statements(reading: PitchReading, outcome: Outcome, known: Known) -> tuple[gear.Said, ...]:
    return (gear.Said(what="pitch_m", basis="measured", value=outcome.value, u_value=outcome.u),)


PITCH = Method(
    name="pitch",
    reading=PitchReading,
    work_out=pitch_of,
    statements=_statements,
    tools=("rise_tool", "angle_tool", "gap_tool"),
    beside=with_other_blades,
)


def measure_pitch(session: Session, who: Who, tag: str, reading: PitchReading, filled: Filled | None = None) -> Sheet:
    """Keep the sheet, and what it says about the propeller's pitch.

    Raises
    ------
    NotAllowed
        Only yard hands and the office measure.
    NotFound
        No propeller here carries the tag, or there is no such sheet to correct.
    OutsideRange
        A reading cannot be right.
    Refused
        A reading is missing or does not go with the others, or a correction can't stand.
    """
    return measure(session, who, tag, PITCH, reading, filled)
