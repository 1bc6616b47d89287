"""Limits of bar and tooling beyond the single bend: edges, welds, bulge, grooves, contact."""

from __future__ import annotations

from strapwright.blank.blank_values import Blank
from strapwright.errors import InputError, in_file
from strapwright.findings import (
    Choice,
    Count,
    Finding,
    KeyAt,
    Length,
    Severity,
)
from strapwright.shop.job import Job
from strapwright.shop.part import Part
from strapwright.shop.unit_slips import refuse_too_thick

# Finite elements of whole flat bars from b = 2 t on: the inner edge flares by this much of the
# thickness to each side.  Narrower bar and round rod are taken alike, which was not compared.
BULGE = 0.105
# Over this distance a weld changes the metal beside it (common practice, no source).
WELD_REACH = 25.0  # mm
# Dents of a round rod in nose and shoulders together, in diameters, as finite elements of rods on a
# plain nose had them; the solver's squeeze is fitted on those and holds them.  Half of them is laid
# to the nose.
DENT = 0.014


def refuse_mismatch(job: Job) -> None:
    """Refuse tooling that the bar cannot lie in.

    Raises
    ------
    InputError
        For a bar as thick as the opening, and for a grooved nose and any bar but round rod.
    """
    tooling, section = job.tooling, job.part.bar.section
    if tooling is not None:
        opening = tooling.shoulders.opening
        refuse_too_thick(job.part.bar.thickness, opening, job.units, "part.bar")
    if tooling is not None and tooling.nose.groove != "none" and section != "round":
        raise InputError(
            "tooling.nose.groove",
            f"a {section} bar does not lie in a groove made for round rod; it would ride on its "
            "edges",
            in_file('write groove = "none" for a plain nose, or bend round rod'),
            value=tooling.nose.groove,
        )


def bar_findings(job: Job, thickness: float) -> list[Finding]:
    """What edges, section and nose imply for all bends of the job."""
    return [
        *_solved_legs(job.part),
        *_edge_findings(job),
        *_contact_findings(job, thickness),
        *_bulge(job, thickness),
    ]


def _solved_legs(part: Part) -> list[Finding]:
    """Say how long the legs came out that were left open."""
    if part.overall is None:
        return []
    legs = part.overall.open_legs()
    sizes = {"width": part.overall.width, "height": part.overall.height}
    return [
        Finding(
            code="legs-from-size",
            severity=Severity.NOTE,
            about=(KeyAt("part.overall"),),
            facts={
                "legs": tuple(Count(leg) for leg in legs),
                "lengths": tuple(Length(part.legs[leg - 1]) for leg in legs),
                "measured": Choice(part.measured),
                **{name: Length(size) for name, size in sizes.items() if size is not None},
            },
        )
    ]


def _edge_findings(job: Job) -> list[Finding]:
    edges = job.part.edges
    if edges == "mill" or job.part.bar.section == "round":
        return []
    return [
        Finding(
            code="edges-to-dress",
            severity=Severity.WARNING,
            about=(KeyAt("part.edges"),),
            facts={"edges": Choice(edges)},
        )
    ]


def _contact_findings(job: Job, thickness: float) -> list[Finding]:
    if job.tooling is None or job.part.bar.section != "round":
        return []
    nose = job.tooling.nose
    whole, half = DENT * thickness, 0.5 * DENT * thickness
    if nose.groove == "fitted":
        return [
            Finding(
                code="groove-not-proven",
                severity=Severity.NOTE,
                about=(KeyAt("tooling.nose.groove"),),
                facts={"dent": Length(whole), "not_proven": Length(half)},
            )
        ]
    return [
        Finding(
            code="line-contact",
            severity=Severity.NOTE,
            about=(KeyAt("tooling.nose"),),
            facts={"dent": Length(whole)},
        )
    ]


def _bulge(job: Job, thickness: float) -> list[Finding]:
    tooling = job.tooling
    if tooling is None or tooling.nose.span is None or tooling.nose.held == "web":
        return []
    bars, width = job.part.at_once, job.part.bar.width
    # Bars side by side push each other aside by both their bulges.
    needed = bars * (width + 2.0 * BULGE * thickness)
    span = tooling.nose.span
    if needed <= span:
        return []
    return [
        Finding(
            code="too-wide-for-nose",
            severity=Severity.REFUSAL,
            about=(KeyAt("tooling.nose.span"),),
            facts={
                "bulge": Length(BULGE * thickness),
                "bars": Count(bars),
                "needed": Length(needed),
                "span": Length(span),
            },
        )
    ]


def weld_findings(blank: Blank) -> list[Finding]:
    """Welds in a bend, or near one."""
    findings = []
    for weld in blank.welds:
        if weld.to_zone >= WELD_REACH:
            continue
        inside = weld.to_zone <= 0.0
        findings.append(
            Finding(
                code="weld-in-bend" if inside else "weld-near-bend",
                severity=Severity.WARNING,
                about=(KeyAt(f"part.weld[{weld.weld}]"),),
                facts={"bend": Count(weld.bend)}
                if inside
                else {
                    "bend": Count(weld.bend),
                    "away": Length(weld.to_zone),
                    "reach": Length(WELD_REACH),
                },
            )
        )
    return findings
