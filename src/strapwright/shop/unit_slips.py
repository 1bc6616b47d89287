"""Sizes that look as if another unit was meant: no bar fits so, or hardly any shop has it."""

from __future__ import annotations

from collections.abc import Iterator

from strapwright.errors import InputError
from strapwright.findings import Choice, Fact, Finding, KeyAt, Length, Pressure, Severity
from strapwright.quantities import Units
from strapwright.quantities.inside_units import INCH_MM
from strapwright.shop.job import Job

# Common practice, no source: past these a shop is asked, not refused.  What -> its key, what would
# be unusually much where inches are typed, and unusually little where millimetres are [mm].
_USUAL: dict[str, tuple[str, float, float]] = {
    "thickness": ("part.bar", 75.0, 0.8),
    "width": ("part.bar", 310.0, 0.0),
    "leg": ("part.shape", 3000.0, 0.0),
    "nose": ("tooling.nose", 150.0, 0.0),
    "opening": ("tooling.shoulders.opening", 600.0, 8.0),
    "bore": ("press.bore", 400.0, 12.0),
    "stroke": ("press.stroke", 2000.0, 15.0),
}
# Common practice, no source: an unusually low relief setting where psi are typed.
_LEAST_RELIEF = 1.4  # MPa
# Common practice, no source: an unusually high one, which bar typed for psi make.
_MOST_RELIEF = 70.0  # MPa


def refuse_too_thick(thickness: float, opening: float, units: Units | None, where: str) -> None:
    """Ask what was meant where a bar does not fit between the shoulders.

    Parameters
    ----------
    thickness, opening
        Of the bar, and between the middles of the shoulders [mm].
    units
        Of numbers typed without a unit; ``None`` where each carried its own, and nothing is asked.
    where
        What the error is about: the bar as typed.

    Raises
    ------
    InputError
        Where the bar is as thick as the opening or thicker.
    """
    if thickness < opening:
        return
    size, other = (INCH_MM, "in") if units == "inch" else (1.0, "mm")
    thick, wide = f"{thickness / size:.4g}", f"{opening / size:.4g}"
    # Inches typed as millimetres make everything small, and the opening is what is then too small.
    asked = {
        "inch": f": was a bar of {thick} mm meant?",
        "metric": f": was an opening of {wide} in meant?",
        None: "",
    }[units]
    raise InputError(
        where,
        f"the bar is {thick} {other} thick and the shoulders are {wide} {other} apart, so it does "
        f"not go between them{asked}",
        "write the unit beside the number, or correct bar or opening",
    )


def slip_findings(job: Job) -> list[Finding]:
    """Ask about sizes that are unusual in a way that a slip of units makes them."""
    found: list[tuple[str, str, Fact]] = []
    for what, mm in _sizes(job):
        key, most, least = _USUAL[what]
        if mm >= most if job.units == "inch" else 0.0 < mm < least:
            found.append((key, what, Length(mm)))
    relief = None if job.press is None else job.press.relief
    if relief is not None and relief > _MOST_RELIEF:
        found.append(("press.relief", "high relief", Pressure(relief)))
    elif relief is not None and job.units == "inch" and relief < _LEAST_RELIEF:
        found.append(("press.relief", "relief", Pressure(relief)))
    return [
        Finding(
            code="unit-slip",
            severity=Severity.WARNING,
            about=(KeyAt(key),),
            facts={"what": Choice(what), "size": size},
        )
        for key, what, size in found
    ]


def _sizes(job: Job) -> Iterator[tuple[str, float]]:
    part, press, tooling = job.part, job.press, job.tooling
    yield "thickness", part.bar.thickness
    yield "width", part.bar.width
    yield "leg", max(part.legs)
    if tooling is not None:
        yield "nose", tooling.nose.radius
        yield "opening", tooling.shoulders.opening
    if press is not None:
        yield "bore", press.bore or 0.0
        yield "stroke", press.stroke or 0.0
