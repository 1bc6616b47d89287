"""Lengths as a machinist reads them: fractions where they are meant, decimals else."""

from __future__ import annotations

from fractions import Fraction

from strapwright.errors import either_unit
from strapwright.making.plate_values import HoleSpec
from strapwright.quantities import Units, show_length
from strapwright.quantities.inside_units import INCH_MM
from strapwright.quantities.printing import fixed


def size(mm: float, units: Units) -> str:
    """Print a size of stock or a cutter: ``3/4 in`` where it is one, ``0.453 in``, ``19 mm``.

    Parameters
    ----------
    mm
        [mm]
    units
        Of the person.
    """
    if units == "metric":
        return f"{_trimmed(mm, 2)} mm"
    sixty_fourths = mm / INCH_MM * 64
    if abs(sixty_fourths - round(sixty_fourths)) < 1e-3 and round(sixty_fourths) > 0:
        return show_length(Fraction(round(sixty_fourths), 64) * Fraction(254, 10), "1/64")
    return f"{fixed(mm / INCH_MM, 3)} in"


def place(mm: float, units: Units) -> str:
    """Print a coordinate or limit without its unit: ``1.250`` in inches, ``31.75`` in mm.

    Parameters
    ----------
    mm
        [mm]
    units
        Of the person.
    """
    return fixed(mm, 2) if units == "metric" else fixed(mm / INCH_MM, 3)


def either(mm: float, units: Units | None) -> str:
    """Print a length in the units of the person, in both where these are not known."""
    return both(mm) if units is None else size(mm, units)


def both(mm: float) -> str:
    """Print a length in both units: ``12.70 mm (0.500 in)``."""
    return f"{fixed(mm, 2)} mm ({fixed(mm / INCH_MM, 3)} in)"


def either_size(mm: float) -> str:
    """Print a length for a problem or remedy, of which a reader sees one unit system."""
    return either_unit(size(mm, "metric"), size(mm, "inch"))


def fine(mm: float, units: Units) -> str:
    """Print a limit or clearance with its unit: ``0.0008 in``, ``0.021 mm``."""
    return f"{fixed(mm, 3)} mm" if units == "metric" else f"{fixed(mm / INCH_MM, 4)} in"


def unit_name(units: Units) -> str:
    """``in`` or ``mm``."""
    return "mm" if units == "metric" else "in"


def round_up(mm: float, units: Units) -> float:
    """Return the next eighth of an inch or 5 mm [mm], as stock is cut."""
    step = 5.0 if units == "metric" else INCH_MM / 8
    return step * -int(-(mm - 1e-6) // step)


def sixteenth(mm: float, units: Units) -> float:
    """Return the next sixteenth of an inch or whole mm [mm], as a saw or a drill is set."""
    step = 1.0 if units == "metric" else INCH_MM / 16
    return step * -int(-(mm - 1e-6) // step)


def sixteenth_below(mm: float, units: Units) -> float:
    """Return the sixteenth of an inch or whole mm below [mm]."""
    step = 1.0 if units == "metric" else INCH_MM / 16
    return step * ((mm + 1e-6) // step)


def round_down(mm: float, units: Units) -> float:
    """Return the eighth of an inch or 5 mm below [mm]."""
    step = 5.0 if units == "metric" else INCH_MM / 8
    return step * ((mm + 1e-6) // step)


def hole_words(hole: HoleSpec, units: Units) -> str:
    """Say a hole in a few words: ``10.32 through, clearance of 3/8 normal``.

    Parameters
    ----------
    hole
        As specified.
    units
        In which it is told.
    """
    deep = "through" if hole.depth is None else f"{size(hole.depth, units)} deep"
    if hole.counterbore is not None:
        wide, low = hole.counterbore
        deep += f", seat dia {size(wide, units)} x {size(low, units)}"
    if hole.kind == "tapped":
        return f"tap {hole.thread}, {deep}"
    across = f"dia {size(hole.diameter, units)}"
    if hole.kind == "fit":
        limits = f"{fine(hole.least, units)} to {fine(hole.most, units)}"
        return f"{across} {hole.fit} ({limits}), {deep}"
    if hole.kind == "clearance":
        return f"{across}, {deep}, {hole.fit} for a {hole.thread} bolt"
    return f"{across}, {deep}"


def listed(words: list[str]) -> str:
    """``A1, A2 and A3``."""
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}"


def _trimmed(value: float, decimals: int) -> str:
    text = fixed(value, decimals)
    return text.rstrip("0").rstrip(".") if "." in text else text
