"""Figures for a terminal: in the job's units, with only the digits that the band supports."""

from __future__ import annotations

import math

from attrs import frozen

from strapwright.bending.values import Band
from strapwright.quantities import Reading, Units, round_to_band, show_length
from strapwright.quantities.printing import fixed
from strapwright.quantities.units import PSI

MM_PER_INCH = 25.4
BAR = 0.1  # MPa
LBF = 4.4482216152605  # N, pound times standard gravity


@frozen(kw_only=True)
class Figures:
    """Prints in one unit system; ``reading`` is how lengths on the bar are read."""

    units: Units
    reading: Reading

    def on_bar(self, mm: float) -> str:
        """Length to mark or cut, by the rule it is read on."""
        return show_length(mm, self.reading)

    def length(self, mm: float, band: Band | None = None) -> str:
        """Length to set, in decimals."""
        return self._show(mm, band, *self._length)

    def pushes(self, extras: tuple[float, ...]) -> tuple[str, list[str]]:
        """Return the unit and further pushes in it; touch cancels, so they carry a digit more."""
        name, size = self._length
        return name, [fixed(mm / size, 3 if self.units == "inch" else 2) for mm in extras]

    def angle(self, rad: float, band: Band | None = None) -> str:
        """Angle; its band is in degrees."""
        degrees = math.degrees(rad)
        if band is None:
            return f"{round(degrees, 1):g}°"
        return f"{round_to_band(degrees, band.low, band.high)}°"

    def pressure(self, mpa: float, band: Band | None = None) -> str:
        """Pressure."""
        return self._show(mpa, band, *self._pressure)

    def pressure_down(self, mpa: float) -> str:
        """Pressure that is a limit: rounded down to a division one can read."""
        name, size = self._pressure
        step = 10.0 if self.units == "inch" else 1.0
        whole = math.floor(mpa / size / step) * step
        return f"{whole:.0f} {name}" if whole > 0 else self.pressure(mpa)

    def force(self, newtons: float, band: Band | None = None) -> str:
        """Force."""
        name, size = ("lbf", LBF) if self.units == "inch" else ("kN", 1000.0)
        return self._show(newtons, band, name, size)

    def between(self, band: Band, kind: str) -> str:
        """Both ends of a band; ``kind`` is the end of its name: mm, deg, MPa or N."""
        name, size = {
            "mm": self._length,
            "deg": ("°", 1.0),
            "MPa": self._pressure,
            "N": ("lbf", LBF) if self.units == "inch" else ("kN", 1000.0),
        }[kind]
        low, high = band.low / size, band.high / size
        # The last digit is at most a fifth of the band, so its ends never print as one number.
        ends = [round_to_band(end, low, high) for end in (low, high)]
        space = "" if name == "°" else " "
        return f"between {ends[0]} and {ends[1]}{space}{name}"

    @property
    def _length(self) -> tuple[str, float]:
        return ("in", MM_PER_INCH) if self.units == "inch" else ("mm", 1.0)

    @property
    def _pressure(self) -> tuple[str, float]:
        return ("psi", float(PSI)) if self.units == "inch" else ("bar", BAR)

    @staticmethod
    def _show(value: float, band: Band | None, name: str, size: float) -> str:
        low, high = (value, value) if band is None else (band.low, band.high)
        return f"{round_to_band(value / size, low / size, high / size)} {name}"
