"""What a sound job implies, apart from order and stopping: metal, model, holes, press."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np

from strapwright.bending.bend_radii import outer_strain
from strapwright.blank.blank_values import Blank
from strapwright.catalog import smallest_radius
from strapwright.findings import Finding, Severity, spoken
from strapwright.planning.bend_setups import Known
from strapwright.planning.made_bend import MadeBend, bottoms_first
from strapwright.shop.job import Job
from strapwright.shop.part import Grain
from strapwright.shop.press import Press

# A loaded angle past which nothing has been compared with the model.
PROVEN_ANGLE = math.radians(125.0)

CAUTIONS = (
    (
        "Keep hands out from between nose, bar and shoulders; a leg that swings can pin a finger "
        "against the plate."
    ),
    ("Stand aside of the bar's ends: the legs swing, and a bar that slips flies."),
    ("Never go above the relief setting or the rating of the weakest member of press and tooling."),
    ("Load on the middle of the ram only; an off-centre bar tips it and binds the guides."),
    ("Hardened shafts and nose bars can shatter: shield them, and never strike or weld them."),
    (
        "A fine hydraulic leak goes through skin: look for it with card, never with a hand, and "
        "see a doctor at once."
    ),
    (
        "Bar and tooling store energy: let the pressure off slowly and block the ram before "
        "reaching in."
    ),
    ("Wear eye protection; keep the guard on."),
    (
        "These figures are an estimate for planning, not a certification; local codes and licensed "
        "practice come first."
    ),
)


def metal_findings(known: Known) -> list[Finding]:
    """Warn of bar that can snap, or that nobody knows."""
    findings = []
    if known.material.brittle:
        findings.append(
            spoken(
                code="brittle-bar",
                severity=Severity.WARNING,
                where="part.material",
                text=f"{known.material.name} can snap in the bend instead of turning; the figures "
                "hold only while it does not.",
                remedy="Bend a trial piece behind a shield first, or use a known mild steel.",
            )
        )
    if "unknown" in known.material.name:
        findings.append(
            spoken(
                code="unknown-bar",
                severity=Severity.WARNING,
                where="part.material",
                text="The metal is not known, so force, gauge and springback lie between wide "
                "limits.",
                remedy="Give a certificate in [lot], or bend a trial piece and read gauge and "
                "angle.",
            )
        )
    return findings


def bend_findings(
    made: MadeBend, known: Known, where: str, *, grain: Grain = "across", row: bool = False
) -> list[Finding]:
    """What the solver and the metal's limits say of one bend, or of each hit of a row."""
    findings = [
        spoken(
            code="model-weak-spot",
            severity=Severity.NOTE,
            where=where,
            text=f"The band is widened here: {reason}.",
        )
        for reason in made.error.reasons
    ]
    if made.state.loaded_angle > PROVEN_ANGLE:
        findings.append(
            spoken(
                code="past-proven-angle",
                severity=Severity.WARNING,
                where=where,
                text=f"It is pushed to {math.degrees(made.state.loaded_angle):.0f} deg under load; "
                "past 125 deg nothing has been compared, so the figures are not proven.",
                remedy="Push in small stages and read each one.",
            )
        )
    if made.jammed_share > 0.02:
        findings.append(
            spoken(
                code="near-jam",
                severity=Severity.WARNING,
                where=where,
                text=f"The tooling jams at {math.degrees(made.jam):.0f} deg under "
                f"load; {made.jammed_share:.0%} of the bars that this one may be would jam before "
                "the angle is reached.",
                remedy="Open the shoulders or take a smaller nose.",
            )
        )
    if made.bottoming is not None and bottoms_first(made):
        stands = float(np.interp(made.bottoming, made.curve.travel, made.curve.free_angle))
        findings.append(
            spoken(
                code="bottoms-before-angle",
                severity=Severity.REFUSAL,
                where=where,
                text="Bottoming starts before the angle is reached: at a travel of "
                f"{_down(made.bottoming, 2)} mm ({_down(made.bottoming / 25.4, 3)} in) the "
                f"bar meets what lies under it and stands at {math.degrees(stands):.0f} deg let "
                f"go, short of {math.degrees(made.state.free_angle):.0f}; from there on no angle "
                "is promised and the force climbs steeply.",
                remedy="Deepen the floor, widen what the bar comes down into, or use a narrower "
                "opening.",
            )
        )
    # A hit of a row turns too little for the bar to follow the nose.
    radius = max(made.setup.nose_radius, made.radii.wrap) if row else made.setup.nose_radius
    findings += _radius_findings(made, known, radius, grain, where)
    return findings


def _down(value: float, decimals: int) -> str:
    return f"{math.floor(value * 10**decimals) / 10**decimals:.{decimals}f}"


def _radius_findings(
    made: MadeBend, known: Known, nose: float, grain: Grain, where: str
) -> list[Finding]:
    findings = []
    # Where the grain is not known the worse way counts.
    along = grain != "across"
    least, source = smallest_radius(known.material, known.thickness, along_grain=along)
    # A nose of 1-1/2 thicknesses is not under them for a last bit that differs.
    under = nose < least * (1.0 - 1e-9)
    if under:
        findings.append(
            spoken(
                code="radius-too-small",
                severity=Severity.WARNING,
                where=where,
                text=f"The nose radius of {nose:.1f} mm ({nose / 25.4:.2f} in) is under the "
                f"smallest advised for this metal and thickness, {least:.1f} mm "
                f"({least / 25.4:.2f} in) by {source}; the outside may crack.",
                remedy="Take a larger nose, or turn the part so that its bend lines run across "
                "the rolling direction, and bend a trial piece with dressed edges."
                if along
                else "Take a larger nose, or bend a trial piece across the grain with dressed "
                "edges.",
            )
        )
    strain = outer_strain(made.setup, made.state)
    limit = math.log(1.0 + known.material.elongation / 100.0)
    # A radius that a standard allows for this metal settles the matter: elongation over a tensile
    # gauge length says little of a bend.  Without one the strain is all there is to go by.
    settled = known.material.min_radius_rule not in ("stated", "textbook") and not under
    if strain > limit and not settled:
        findings.append(
            spoken(
                code="outer-strain-high",
                severity=Severity.NOTE,
                where=where,
                text=f"The outside of the bend stretches about {100 * math.expm1(strain):.0f} %, "
                f"past the {known.material.elongation:.0f} % that a tensile test of this metal "
                "shows before it parts.",
                remedy="Dress cut or sheared edges on the outside, and look at the first piece.",
            )
        )
    return findings


def hole_findings(blank: Blank, thickness: float) -> list[Finding]:
    """Holes that the bend pulls out of round."""
    findings = []
    for hole in blank.holes:
        if hole.edge_to_zone >= 2.0 * thickness:
            continue
        inside = hole.edge_to_zone < 0.0
        findings.append(
            spoken(
                code="hole-in-bend" if inside else "hole-near-bend",
                severity=Severity.WARNING if inside else Severity.NOTE,
                where=f"part.hole[{hole.hole}]",
                text=(
                    f"The hole reaches {-hole.edge_to_zone:.1f} mm "
                    f"({-hole.edge_to_zone / 25.4:.2f} in) into bend {hole.bend}; it goes oval and "
                    "weakens the bar there."
                    if inside
                    else f"The hole's edge is {hole.edge_to_zone:.1f} mm "
                    f"({hole.edge_to_zone / 25.4:.2f} in) from bend {hole.bend}, closer than twice "
                    "the thickness (common practice, no source); it may go oval."
                ),
                remedy="Move the hole, or drill it after bending.",
            )
        )
    return findings


def press_findings(press: Press | None, travels: Sequence[float]) -> list[Finding]:
    """What is missing of the press, and a stroke that is too short."""
    if press is None:
        return [
            spoken(
                code="no-press",
                severity=Severity.NOTE,
                where="press",
                text="No press is stated: blank, marks, travel and force are given, the gauge is "
                "not.",
                remedy="State [press] bore and relief.",
            )
        ]
    findings = []
    missing = [
        name for name, value in (("bore", press.bore), ("relief", press.relief)) if value is None
    ]
    if missing:
        findings.append(
            spoken(
                code="press-incomplete",
                severity=Severity.NOTE,
                where="press",
                text=f"The press does not state its {' and '.join(missing)}, so gauge, relief to "
                "set or what it can do are not all given.",
                remedy=f"State press.{missing[0]}.",
            )
        )
    if press.stroke is not None and travels and max(travels) > press.stroke:
        findings.append(
            spoken(
                code="stroke-too-short",
                severity=Severity.REFUSAL,
                where="press.stroke",
                text=f"A bend needs {max(travels):.1f} mm ({max(travels) / 25.4:.2f} in) of travel "
                f"and the cylinder has {press.stroke:.1f} mm ({press.stroke / 25.4:.2f} in).",
                remedy="Use a narrower opening.",
            )
        )
    return findings


def tooling_findings(job: Job) -> list[Finding]:
    """What cannot be said without tooling."""
    if job.tooling is not None:
        return []
    return [
        spoken(
            code="no-tooling",
            severity=Severity.NOTE,
            where="tooling",
            text="No tooling is stated: only the blank and its marks are given.",
            remedy="State [tooling] nose and shoulders.",
        )
    ]
