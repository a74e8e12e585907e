"""A job on a fake clock: taps at minutes, and what the page says at a minute."""

from tests.coating.systems import MINUTE, two_primers_and_a_top
from yardapp.coating.acts import Act, Job
from yardapp.coating.pieces import Piece, units_of
from yardapp.coating.running import run
from yardapp.coating.standing import standing
from yardapp.coating.weather import Reading

PRIMER_1, PRIMER_2, TOP = 1, 3, 6


class Beside:
    """The person beside the boat: taps, and looks at the page."""

    def __init__(self, system=None, *, blades=3, people=1, blade_min=8, launch_s=None, hours=None, from_s=0.0):
        propeller = Piece(key="p", label="Port propeller", kind="propeller", area_m2=0.6, blades=blades)
        system = system or two_primers_and_a_top()
        units = units_of([propeller], blade_min * MINUTE)
        self.job = Job(system=system, units=units, people=people, launch_s=launch_s, hours=hours)
        self.from_s = from_s
        self.acts = []

    def tap(self, at_min, kind, blade=None, step=None, **said):
        unit = f"p.{blade}" if blade else ""
        number = len(self.acts) + 1
        self.acts.append(
            Act(number=number, kind=kind, at_s=self.from_s + at_min * MINUTE, unit=unit, step=step, **said)
        )
        return number

    def read(self, at_min, metal_c=20.0, *, air_c=18.0, relative_humidity=0.6):
        reading = Reading(
            at_s=self.from_s + at_min * MINUTE, air_c=air_c, metal_c=metal_c, relative_humidity=relative_humidity
        )
        return self.tap(at_min, "weather", reading=reading)

    def mix(self, at_min, product="Primer"):
        return self.tap(at_min, "mixed", product=product, batch="B7")

    def coat(self, at_min, blade, step, takes_min=8):
        self.tap(at_min, "started", blade, step)
        self.tap(at_min + takes_min, "done", blade, step)

    def run(self):
        return run(self.job, self.acts)

    def look(self, at_min):
        return standing(self.run(), self.from_s + at_min * MINUTE)

    def blade(self, at_min, number):
        return next(unit for unit in self.look(at_min).units if unit.key == f"p.{number}")

    def faults(self, blade=None):
        return [(fault.kind, fault.step) for fault in self.run().faults if blade is None or fault.unit == f"p.{blade}"]


def at_work(*blades, **said):
    """Weather read at 0, primer mixed at 0 (ready at 2), coat 1 on each blade from minute 5, one after another."""
    beside = Beside(**said)
    beside.read(0)
    beside.mix(0)
    for place, blade in enumerate(blades):
        beside.coat(5 + 8 * place, blade, PRIMER_1)
    return beside
