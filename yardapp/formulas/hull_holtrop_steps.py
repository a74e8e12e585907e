"""The steps of Holtrop & Mennen 1982, each under the paper's own name."""

from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from yardapp.formulas.ranges import as_given

Array = NDArray[np.float64]

GRAVITY_MPS2 = 9.81
VISCOSITY_M2PS = 1.18831e-6


@dataclass(frozen=True, kw_only=True)
class HoltropResistance:
    """A ship at a speed: `total_n` and its parts in N, and every step that leads there; arrays of one shape.

    The fields are the arguments of `holtrop_resistance`.
    """

    speed_mps: Array
    length_m: Array
    beam_m: Array
    draught_fore_m: Array
    draught_aft_m: Array
    volume_m3: Array
    lcb_ratio: Array
    midship_ratio: Array
    waterplane_ratio: Array
    bulb_m2: Array
    bulb_height_m: Array
    transom_m2: Array
    appendage_m2: Array
    appendage_factor: Array
    stern_number: Array
    density_kgpm3: Array

    @cached_property
    def total_n(self) -> Array:
        """RF (1+k1) + RAPP + RW + RB + RTR + RA."""
        viscous = self.friction_n * self.form_factor + self.appendage_n + self.correlation_n
        return viscous + self.wave_n + self.bulb_n + self.transom_n

    @cached_property
    def power_w(self) -> Array:
        """Effective power PE."""
        return self.total_n * self.speed_mps

    @cached_property
    def draught_m(self) -> Array:
        """Mean draught T."""
        return (self.draught_fore_m + self.draught_aft_m) / 2

    @cached_property
    def block_ratio(self) -> Array:
        """CB."""
        return self.volume_m3 / (self.length_m * self.beam_m * self.draught_m)

    @cached_property
    def prismatic_ratio(self) -> Array:
        """CP."""
        return self.block_ratio / self.midship_ratio

    @cached_property
    def lcb(self) -> Array:
        """The paper's lcb, per cent of the length forward of its half."""
        return 100 * self.lcb_ratio

    @cached_property
    def froude_number(self) -> Array:
        """Fn on the length of the waterline."""
        return as_given(self.speed_mps / np.sqrt(GRAVITY_MPS2 * self.length_m))

    @cached_property
    def run_m(self) -> Array:
        """Length of the run LR."""
        cp = self.prismatic_ratio
        return self.length_m * (1 - cp + 0.06 * cp * self.lcb / (4 * cp - 1))

    @cached_property
    def c12(self) -> Array:
        """By draught over length."""
        depth = self.draught_m / self.length_m
        shallow = 48.20 * np.maximum(depth - 0.02, 0) ** 2.078 + 0.479948
        return as_given(np.where(depth > 0.05, depth**0.2228446, shallow))

    @cached_property
    def c13(self) -> Array:
        """By the shape of the sections aft."""
        return 1 + 0.003 * self.stern_number

    @cached_property
    def form_factor(self) -> Array:
        """1 + k1."""
        fullness = (0.95 - self.prismatic_ratio) ** -0.521448
        fullness = fullness * (1 - self.prismatic_ratio + 0.0225 * self.lcb) ** 0.6906
        return self.c13 * (0.93 + self.c12 * (self.beam_m / self.run_m) ** 0.92497 * fullness)

    @cached_property
    def wetted_m2(self) -> Array:
        """Wetted surface S of the hull."""
        girth = 0.453 + 0.4425 * self.block_ratio - 0.2862 * self.midship_ratio
        girth = girth - 0.003467 * self.beam_m / self.draught_m + 0.3696 * self.waterplane_ratio
        wrapped = self.length_m * (2 * self.draught_m + self.beam_m) * np.sqrt(self.midship_ratio)
        return as_given(wrapped * girth + 2.38 * self.bulb_m2 / self.block_ratio)

    @cached_property
    def friction_factor(self) -> Array:
        """CF of ITTC 1957."""
        reynolds = self.speed_mps * self.length_m / VISCOSITY_M2PS
        return as_given(0.075 / (np.log10(reynolds) - 2) ** 2)

    @cached_property
    def pressure_pa(self) -> Array:
        """Dynamic pressure."""
        return 0.5 * self.density_kgpm3 * self.speed_mps**2

    @cached_property
    def friction_n(self) -> Array:
        """RF."""
        return self.pressure_pa * self.wetted_m2 * self.friction_factor

    @cached_property
    def appendage_n(self) -> Array:
        """RAPP."""
        return self.pressure_pa * self.appendage_m2 * self.appendage_factor * self.friction_factor

    @cached_property
    def c7(self) -> Array:
        """By beam over length."""
        slender = self.beam_m / self.length_m
        full = np.where(slender > 0.25, 0.5 - 0.0625 / slender, slender)
        return as_given(np.where(slender < 0.11, 0.229577 * np.cbrt(slender), full))

    @cached_property
    def entrance_rad(self) -> Array:
        """Half angle of entrance iE."""
        length, volume = self.length_m, self.volume_m3
        fore = (1 - self.prismatic_ratio - 0.0225 * self.lcb) ** 0.6367
        fine = (length / self.beam_m) ** 0.80856 * (1 - self.waterplane_ratio) ** 0.30484 * fore
        fine = fine * (self.run_m / self.beam_m) ** 0.34574 * (100 * volume / length**3) ** 0.16302
        return as_given(np.radians(1 + 89 * np.exp(-fine)))

    @cached_property
    def c1(self) -> Array:
        """By beam, draught and entrance."""
        sharp = (90 - np.degrees(self.entrance_rad)) ** -1.37565
        return as_given(2223105 * self.c7**3.78613 * (self.draught_m / self.beam_m) ** 1.07961 * sharp)

    @cached_property
    def c3(self) -> Array:
        """Size of the bulb against the midship section."""
        reach = 0.31 * np.sqrt(self.bulb_m2) + self.draught_fore_m - self.bulb_height_m
        return as_given(0.56 * self.bulb_m2**1.5 / (self.beam_m * self.draught_m * reach))

    @cached_property
    def c2(self) -> Array:
        """What the bulb takes off the waves."""
        return as_given(np.exp(-1.89 * np.sqrt(self.c3)))

    @cached_property
    def c5(self) -> Array:
        """What the transom takes off the waves."""
        section = self.beam_m * self.draught_m * self.midship_ratio
        return 1 - 0.8 * self.transom_m2 / section

    @cached_property
    def m1(self) -> Array:
        """How waves grow with speed."""
        cp, length = self.prismatic_ratio, self.length_m
        c16 = np.where(cp < 0.80, 8.07981 * cp - 13.8673 * cp**2 + 6.984388 * cp**3, 1.73014 - 0.7067 * cp)
        body = 1.75254 * np.cbrt(self.volume_m3) / length + 4.79323 * self.beam_m / length
        return as_given(0.0140407 * length / self.draught_m - body - c16)

    @cached_property
    def c15(self) -> Array:
        """By length over the cube root of volume."""
        slender = self.length_m / np.cbrt(self.volume_m3)
        between = -1.69385 + (slender - 8.0) / 2.36
        return as_given(np.where(slender**3 < 512, -1.69385, np.where(slender**3 > 1727, 0.0, between)))

    @cached_property
    def m2(self) -> Array:
        """How strongly bow and stern waves meet."""
        return as_given(self.c15 * self.prismatic_ratio**2 * np.exp(-0.1 * self.froude_number**-2.0))

    @cached_property
    def wave_length_factor(self) -> Array:
        """Where bow and stern waves meet: the paper's lambda."""
        slender = self.length_m / self.beam_m
        return 1.446 * self.prismatic_ratio - np.where(slender < 12, 0.03 * slender, 0.36)

    @cached_property
    def wave_n(self) -> Array:
        """RW."""
        froude = self.froude_number
        power = self.m1 * froude**-0.9 + self.m2 * np.cos(self.wave_length_factor * froude**-2.0)
        weight = self.volume_m3 * self.density_kgpm3 * GRAVITY_MPS2
        return as_given(self.c1 * self.c2 * self.c5 * weight * np.exp(power))

    @cached_property
    def emergence_ratio(self) -> Array:
        """How near the bulb is to the surface: PB."""
        return as_given(0.56 * np.sqrt(self.bulb_m2) / (self.draught_fore_m - 1.5 * self.bulb_height_m))

    @cached_property
    def immersion_number(self) -> Array:
        """Froude number on the bulb's immersion: Fni."""
        depth = self.draught_fore_m - self.bulb_height_m - 0.25 * np.sqrt(self.bulb_m2)
        return as_given(self.speed_mps / np.sqrt(GRAVITY_MPS2 * depth + 0.15 * self.speed_mps**2))

    @cached_property
    def bulb_n(self) -> Array:
        """RB; nothing where there is no bulb."""
        # Nearer to nothing than this the exponential is nothing, and the power would overflow.
        near = np.maximum(self.emergence_ratio, 1e-3)
        wave = self.immersion_number**3 / (1 + self.immersion_number**2)
        weight = self.bulb_m2**1.5 * self.density_kgpm3 * GRAVITY_MPS2
        return as_given(0.11 * np.exp(-3 * near**-2.0) * wave * weight)

    @cached_property
    def transom_number(self) -> Array:
        """Froude number on the transom: FnT; infinite where there is none."""
        there = np.where(self.transom_m2 == 0, 1.0, self.transom_m2)
        depth = 2 * GRAVITY_MPS2 * there / (self.beam_m * (1 + self.waterplane_ratio))
        return as_given(np.where(self.transom_m2 == 0, np.inf, self.speed_mps / np.sqrt(depth)))

    @cached_property
    def transom_n(self) -> Array:
        """RTR; nothing once the water leaves the transom clean."""
        c6 = 0.2 * (1 - 0.2 * np.minimum(self.transom_number, 5))
        return self.pressure_pa * self.transom_m2 * c6

    @cached_property
    def c4(self) -> Array:
        """By draught forward over length."""
        return np.minimum(self.draught_fore_m / self.length_m, 0.04)

    @cached_property
    def correlation_factor(self) -> Array:
        """CA."""
        rough = 0.006 * (self.length_m + 100) ** -0.16 - 0.00205
        full = np.sqrt(self.length_m / 7.5) * self.block_ratio**4 * self.c2 * (0.04 - self.c4)
        return as_given(rough + 0.003 * full)

    @cached_property
    def correlation_n(self) -> Array:
        """RA, on the surface of hull and appendages."""
        return self.pressure_pa * (self.wetted_m2 + self.appendage_m2) * self.correlation_factor

    @cached_property
    def viscous_factor(self) -> Array:
        """CV = (1+k) CF + CA, as the wake needs it; (1+k) is that of hull and appendages together."""
        surface = self.wetted_m2 + self.appendage_m2
        appended = self.form_factor * self.wetted_m2 + self.appendage_factor * self.appendage_m2
        return appended / surface * self.friction_factor + self.correlation_factor
