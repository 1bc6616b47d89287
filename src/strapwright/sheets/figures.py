"""Figures as paper shows them: by the rule they are read on, with the other unit in small."""

from __future__ import annotations

import math
from typing import TypedDict

from attrs import frozen

from strapwright.bending.values import Band
from strapwright.drawing.figures import pressure_unit, reading_of
from strapwright.drawing.lettering import as_fractions
from strapwright.quantities import round_to_band, show_length
from strapwright.shop.job import Job, Reading, Units

_INCH = 25.4


class Shown(TypedDict):
    """A length: what is read on the rule, and what it leaves over in small."""

    main: str
    rest: str


@frozen(kw_only=True)
class Figures:
    """Prints the figures of one job; lengths by ``reading``, pressures by ``units``."""

    job: Job

    @property
    def reading(self) -> Reading:
        """How lengths are read."""
        return reading_of(self.job)

    @property
    def units(self) -> Units:
        """Unit system of the job."""
        return self.job.units

    def length(self, mm: float) -> Shown:
        """Length on the rule, a fraction with what is left over in 0.001 in."""
        main = show_length(mm, self.reading)
        rest = show_length(mm, self.reading, remainder=True)[len(main) :].strip()
        return Shown(main=as_fractions(main), rest=rest.replace("-", "\N{MINUS SIGN}"))

    def words(self, mm: float) -> str:
        """Length within a sentence: the fraction with its remainder in brackets."""
        shown = self.length(mm)
        return f"{shown['main']} ({shown['rest']})" if shown["rest"] else shown["main"]

    def short(self, mm: float) -> str:
        """Length by its rule, without what is left over."""
        return self.length(mm)["main"]

    def short_below(self, mm: float) -> str:
        """Length not to be passed: rounded down to a division of its rule."""
        division = {"mm": 0.1, "decimal": _INCH / 1000}.get(self.reading)
        if division is None:
            division = _INCH / int(self.reading.partition("/")[2])
        return self.short(math.floor(mm / division) * division)

    def others(self, mm: float) -> str:
        """Return the same length in the forms that ``reading`` is not."""
        inches, metric = show_length(mm, "decimal"), show_length(mm, "mm")
        if self.reading == "mm":
            return inches
        return metric if self.reading == "decimal" else f"{inches}, {metric}"

    def by_difference(self, mm: float) -> str:
        """Return a small push in decimals without its unit: no rule is read to a difference."""
        shown = show_length(mm, "mm" if self.reading == "mm" else "decimal")
        return shown.partition(" ")[0]

    def length_between(self, band: Band, *, offset: float = 0.0) -> str:
        """Both ends of a band of lengths, moved by ``offset`` [mm]."""
        name, size = ("mm", 1.0) if self.reading == "mm" else ("in", _INCH)
        return _between((band.low + offset) / size, (band.high + offset) / size, f" {name}")

    def angle(self, rad: float, band: Band | None = None) -> str:
        """Angle [rad]; its band is in degrees."""
        degrees = math.degrees(rad)
        if band is None:
            return f"{round(degrees, 1):g}°"
        return f"{round_to_band(degrees, band.low, band.high)}°"

    def angle_between(self, band: Band) -> str:
        """Both ends of a band of angles in degrees."""
        return _between(band.low, band.high, "°")

    def pressure(self, mpa: float, band: Band) -> str:
        """Pressure to the digits of its band."""
        name, size = pressure_unit(self.job)
        return f"{round_to_band(mpa / size, band.low / size, band.high / size)} {name}"

    def pressure_between(self, band: Band) -> str:
        """Both ends of a band of pressures."""
        name, size = pressure_unit(self.job)
        return _between(band.low / size, band.high / size, f" {name}")

    def pressure_limit(self, mpa: float) -> str:
        """Pressure not to be passed: rounded down to a division that can be read."""
        name, size = pressure_unit(self.job)
        step = 10.0 if self.units == "inch" else 1.0
        whole = math.floor(mpa / size / step) * step
        if whole > 0:
            return f"{whole:.0f} {name}"
        return f"{math.floor(mpa / size * 10) / 10:.1f} {name}"

    def pressure_reached(self, mpa: float) -> str:
        """Pressure that may be met on the way: rounded up."""
        name, size = pressure_unit(self.job)
        step = 10.0 if self.units == "inch" else 1.0
        return f"{math.ceil(mpa / size / step) * step:.0f} {name}"


def _between(low: float, high: float, unit: str) -> str:
    ends = [round_to_band(end, low, high) for end in (low, high)]
    return f"between {ends[0]} and {ends[1]}{unit}"
