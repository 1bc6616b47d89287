"""Figures as people read them: in the job's units, with only the digits that their band supports.

Three kinds of length are kept apart.  What is marked on the bar is read on a rule, so it prints by
the job's ``reading``.  What the ram is set to is measured with a caliper or an indicator, since one
sixty-fourth of an inch of travel can be two degrees: it prints to 0.001 in or 0.01 mm.  All other
lengths print as their band allows.
"""

from __future__ import annotations

import math
from typing import Literal

from attrs import frozen

from strapwright.bending.bend_values import Band
from strapwright.quantities import Reading, Units, round_band, show_length
from strapwright.quantities.inside_units import INCH_MM, POUND_KG, POUND_N, PSI_MPA
from strapwright.quantities.printing import fixed
from strapwright.shop.job import Job

# Exact.
KN = 1000.0  # N
BAR = 0.1  # MPa
DEGREE = math.pi / 180.0  # rad

Kind = Literal["mm", "rad", "MPa", "N"]


@frozen(kw_only=True)
class Banded:
    """A figure with the ends of its band, as words.

    Attributes
    ----------
    value, low, high
        Without a unit, with one last place.
    unit
        As it follows a number, with its space.
    """

    value: str
    low: str
    high: str
    unit: str

    @property
    def shown(self) -> str:
        """The figure with its unit."""
        return f"{self.value}{self.unit}"

    @property
    def between(self) -> str:
        """Both ends, e.g. ``620 to 810 psi``."""
        return f"{self.low} to {self.high}{self.unit}"


@frozen(kw_only=True)
class Figures:
    """Prints in one unit system; ``reading`` is how lengths on the bar are read."""

    units: Units
    reading: Reading

    def on_bar(self, mm: float) -> str:
        """Length to mark or cut, by the rule it is read on."""
        return show_length(mm, self.reading)

    def on_bar_between(self, band: Band) -> str:
        """Both ends of a band by the same rule, e.g. ``10-7/16 to 10-31/64 in``."""
        name = self.size_of("mm")[0]
        return f"{self.on_bar(band.low).removesuffix(name)} to {self.on_bar(band.high)}"

    def size(self, mm: float) -> str:
        """Length that nobody sets or marks, in decimals: to 0.01 in or 0.1 mm, small ones finer."""
        name, one = self.size_of("mm")
        decimals = 2 if self.units == "inch" else 1
        decimals += abs(mm / one) < 1.0
        shown = fixed(mm / one, decimals)
        return f"{shown.rstrip('0').rstrip('.')}{name}"

    def stated(self, mm: float) -> str:
        """Size as a person states it: whole millimetres without a decimal."""
        return self.on_bar(mm).replace(".0 mm", " mm")

    def setting(self, mm: float) -> str:
        """Length that the ram is set to, to 0.001 in or 0.01 mm."""
        return f"{self.bare_setting(mm)}{self.size_of('mm')[0]}"

    def bare_setting(self, mm: float) -> str:
        """Return the same without its unit."""
        _, size = self.size_of("mm")
        return fixed(mm / size, 3 if self.units == "inch" else 2)

    def setting_below(self, mm: float) -> str:
        """Length the ram must not pass, rounded down."""
        name, size = self.size_of("mm")
        decimals = 3 if self.units == "inch" else 2
        steps = math.floor(mm / size * 10**decimals)
        return f"{fixed(steps / 10**decimals, decimals)}{name}"

    def length(self, mm: float, band: Band | None = None) -> str:
        """Length in decimals, as its band allows or with three digits."""
        return self._banded(mm, band, "mm").shown

    def clearance(self, mm: float) -> str:
        """Distance that is kept at least: rounded down to 0.1 mm or 0.01 in."""
        name, size = self.size_of("mm")
        decimals = 2 if self.units == "inch" else 1
        return f"{fixed(math.floor(mm / size * 10**decimals) / 10**decimals, decimals)}{name}"

    def angle(self, rad: float, band: Band | None = None) -> str:
        """Angle, as its band allows.  Without one, as a person states it."""
        if band is None:
            return f"{round(math.degrees(rad), 1):g}°"
        return self._banded(rad, band, "rad").shown

    def pressure(self, mpa: float, band: Band | None = None) -> str:
        """Pressure, as its band allows or with three digits."""
        return self._banded(mpa, band, "MPa").shown

    def temperature(self, fahrenheit: float) -> str:
        """Temperature in the shop's unit, to 5 degrees; what is given is in deg F."""
        if self.units == "inch":
            return f"{5 * round(fahrenheit / 5):g} °F"
        return f"{5 * round((fahrenheit - 32.0) / 1.8 / 5):g} °C"

    def mass(self, kg: float) -> str:
        """Mass with three digits, in lb or kg."""
        name, size = (" lb", POUND_KG) if self.units == "inch" else (" kg", 1.0)
        value = kg / size
        decimals = 0 if value >= 100.0 else 1 if value >= 10.0 else 2
        return f"{fixed(value, decimals)}{name}"

    def force(self, newtons: float, band: Band | None = None) -> str:
        """Force, as its band allows or with three digits."""
        if band is None:
            name, size = self.size_of("N")
            shown = f"{float(f'{newtons / size:.2e}'):.2f}".rstrip("0").rstrip(".")
            return f"{shown}{name}"
        return self._banded(newtons, band, "N").shown

    def pull(self, newtons: float) -> str:
        """Pull of a hand at most, to two digits, rounded up: nobody feels a tenth of a pound."""
        name, size = self.size_of("N")
        value = newtons / size
        step = 10.0 ** (math.floor(math.log10(value)) - 1) if value > 0.0 else 1.0
        return f"{round(math.ceil(value / step - 1e-9) * step, 6):g}{name}"

    def banded(self, value: float, band: Band, kind: Kind) -> Banded:
        """Return a figure with the ends of its band."""
        return self._banded(value, band, kind)

    def between(self, band: Band, kind: Kind) -> str:
        """Both ends of a band."""
        return self._banded((band.low + band.high) / 2, band, kind).between

    def pressure_down(self, mpa: float) -> str:
        """Pressure not to be passed: rounded down to a division that can be read."""
        name, size = self.size_of("MPa")
        whole = math.floor(mpa / size / self._division + 1e-9) * self._division
        if whole > 0:
            return f"{whole:.0f}{name}"
        return f"{math.floor(mpa / size * 10 + 1e-9) / 10:.1f}{name}"

    def pressure_up(self, mpa: float) -> str:
        """Pressure that may be met on the way: rounded up."""
        name, size = self.size_of("MPa")
        return f"{math.ceil(mpa / size / self._division - 1e-9) * self._division:.0f}{name}"

    def jam(self, rad: float, followed: float) -> str:
        """Say at which loaded angle [rad] the tooling jams; rounded down.

        Parameters
        ----------
        rad
            The jam; half a turn where none was found.
        followed
            Loaded angle up to which the stroke was worked out [rad].
        """
        degrees = math.floor(math.degrees(rad) + 1e-9)
        if degrees >= 180:
            worked_out = math.floor(math.degrees(followed) + 1e-9)
            return f"By calculation this tooling does not jam up to {worked_out}° under load."
        return f"By calculation this tooling jams at {degrees}° under load."

    def size_of(self, kind: Kind) -> tuple[str, float]:
        """Name of a unit as it follows a number, and its size in the unit inside."""
        inch = self.units == "inch"
        return {
            "mm": (" in", INCH_MM) if inch else (" mm", 1.0),
            "rad": ("°", DEGREE),
            "MPa": (" psi", PSI_MPA) if inch else (" bar", BAR),
            "N": (" lbf", POUND_N) if inch else (" kN", KN),
        }[kind]

    @property
    def _division(self) -> float:
        """Of a pressure gauge, in the unit shown."""
        return 10.0 if self.units == "inch" else 1.0

    def _banded(self, value: float, band: Band | None, kind: Kind) -> Banded:
        name, size = self.size_of(kind)
        low, high = (value, value) if band is None else (band.low, band.high)
        shown, first, last = round_band(value / size, low / size, high / size)
        return Banded(value=shown, low=first, high=last, unit=name)


def figures_for(job: Job) -> Figures:
    """Return how a job's figures are printed."""
    return Figures(units=job.units, reading=reading_of(job))


def reading_of(job: Job) -> Reading:
    """How lengths on the bar are read: as the job says, else sixty-fourths or millimetres."""
    return job.blank.reading or ("1/64" if job.units == "inch" else "mm")
