"""Limits of bar and tooling beyond the single bend: edges, welds, bulge, grooves, contact."""

from __future__ import annotations

from strapwright.blank.blank_values import Blank
from strapwright.errors import InputError
from strapwright.findings import Finding, Severity, spoken
from strapwright.shop.job import Job

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
        For a grooved nose and any bar but round rod.
    """
    tooling, section = job.tooling, job.part.bar.section
    if tooling is not None and tooling.nose.groove != "none" and section != "round":
        raise InputError(
            "tooling.nose.groove",
            f"a {section} bar does not lie in a groove made for round rod; it would ride on its "
            "edges",
            'write groove = "none" for a plain nose, or bend round rod',
            value=tooling.nose.groove,
        )


def bar_findings(job: Job, thickness: float) -> list[Finding]:
    """What edges, section and nose imply for all bends of the job."""
    return [*_edge_findings(job), *_contact_findings(job, thickness), *_bulge(job, thickness)]


def _edge_findings(job: Job) -> list[Finding]:
    edges = job.part.edges
    if edges == "mill" or job.part.bar.section == "round":
        return []
    return [
        spoken(
            code="edges-to-dress",
            severity=Severity.WARNING,
            where="part.edges",
            text=f"The edges are {edges}: {_WHY[edges]}, so cracks start there on the outside of "
            "a bend.",
            remedy="Grind the outer edges of each bend smooth along the bar and round their "
            "corners before bending.",
        )
    ]


_WHY = {
    "sheared": "the shear leaves them torn and work-hardened",
    "flame cut": "the cut leaves them hardened and notched",
}


def _contact_findings(job: Job, thickness: float) -> list[Finding]:
    if job.tooling is None or job.part.bar.section != "round":
        return []
    nose = job.tooling.nose
    whole, half = DENT * thickness, 0.5 * DENT * thickness
    if nose.groove == "fitted":
        return [
            spoken(
                code="groove-not-proven",
                severity=Severity.NOTE,
                where="tooling.nose.groove",
                text="The travel is fitted on rods that dent by about "
                f"{whole:.2f} mm ({whole / 25.4:.3f} in) in a plain nose and the shoulders; a "
                "fitted groove spreads the contact, "
                f"so the last {half:.2f} mm ({half / 25.4:.3f} in) of it are not proven and the "
                "bend may come out a little past its angle.",
                remedy="Push in stages, read the angle and push on by the difference.",
            )
        ]
    return [
        spoken(
            code="line-contact",
            severity=Severity.NOTE,
            where="tooling.nose",
            text="Round rod meets nose and shoulders in a spot, not over a width, and dents there, "
            f"by about {whole:.2f} mm ({whole / 25.4:.3f} in) in all; the travel is fitted on rods "
            "that do.",
            remedy="A groove of the rod's own round in the nose keeps marks off the inside.",
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
    what = "the bar" if bars == 1 else f"{bars} bars side by side"
    return [
        spoken(
            code="too-wide-for-nose",
            severity=Severity.REFUSAL,
            where="tooling.nose.span",
            text=f"The inside edges of a bend bulge by {BULGE * thickness:.1f} mm "
            f"({BULGE * thickness / 25.4:.2f} in) to each side, so {what} needs "
            f"{needed:.1f} mm ({needed / 25.4:.2f} in) between what carries the nose, and "
            f"there are {span:.1f} mm ({span / 25.4:.2f} in).",
            remedy="Set the carriers farther apart, or bend narrower bar or fewer at once.",
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
            spoken(
                code="weld-in-bend" if inside else "weld-near-bend",
                severity=Severity.WARNING,
                where=f"part.weld[{weld.weld}]",
                text=(
                    f"The weld lies in bend {weld.bend}; weld and the metal beside it stretch "
                    "unevenly and can part there."
                    if inside
                    else f"The weld is {weld.to_zone:.1f} mm ({weld.to_zone / 25.4:.2f} in) from "
                    f"bend {weld.bend}, within the {WELD_REACH:.0f} mm over which it changes the "
                    "metal (common practice, no source)."
                ),
                remedy="Weld after bending, or move the weld or the bend.",
            )
        )
    return findings
