"""What a sound job implies, apart from order and stopping: metal, model, holes, press."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

import numpy as np

from strapwright.bending.bend_radii import outer_strain
from strapwright.blank.blank_values import Blank
from strapwright.blank.flat_holes import NEAR
from strapwright.catalog import Material, find_material, smallest_radius
from strapwright.findings import (
    Angle,
    BendAt,
    Choice,
    Count,
    Fact,
    Finding,
    HoleAt,
    KeyAt,
    Length,
    Name,
    Place,
    Severity,
    Share,
    Temperature,
    Yes,
)
from strapwright.planning.bend_setups import Known
from strapwright.planning.made_bend import MadeBend, bottoms_first
from strapwright.shop.job import Job
from strapwright.shop.part import Grain
from strapwright.shop.part_holes import cut_kind
from strapwright.shop.press import Press

# A loaded angle past which nothing has been compared with the model: the source is its range in the
# validation.
PROVEN_ANGLE = math.radians(125.0)

# A bend is expected to crack, and refused, only past both: the nose under this share of the
# smallest radius that a standard or handbook advises for the metal, which leaves room of its own,
# and the outside stretched past this many times the elongation, which is an average over a gauge
# length and less than a metal takes in one spot.  Both are common practice, no source;
# docs/limits.md says what they were held to.
_FAR_UNDER_RADIUS = 0.5
_FAR_PAST_ELONGATION = 3.0

CAUTIONS = (
    (
        "Keep your hands out from between the nose, bar and shoulders. A swinging leg can crush a "
        "finger against the push plate."
    ),
    ("Stand clear of the ends of the bar: the legs swing, and a bar that slips can fly out."),
    (
        "Never go above the relief setting or the rating of the weakest member of press, hoses and "
        "tooling."
    ),
    ("Keep the load in the middle of the ram; an off-centre bar tilts it and jams the guides."),
    ("Hardened shafts and nose bars can shatter: shield them, and never strike or weld them."),
    (
        "A pinhole leak can inject oil through the skin. Look for leaks with a piece of cardboard, "
        "never your hand. If oil gets under the skin, go to hospital at once, even if it looks "
        "small and does not hurt."
    ),
    (
        "A loaded bar and tooling store energy. Release the pressure slowly, and block the ram "
        "before you reach in."
    ),
    ("Wear eye protection and keep the guard in place."),
    (
        "These figures are planning estimates, not a certification. Local codes and licensed "
        "practice come first."
    ),
)


def metal_findings(known: Known) -> list[Finding]:
    """Warn of bar that can snap, or that nobody knows; refuse what is too hard to bend cold."""
    findings = []
    if known.material.cracks:
        findings.append(
            Finding(
                code="cracks-cold",
                severity=Severity.REFUSAL,
                about=(KeyAt("part.material"),),
                facts={
                    "metal": Name(known.material.name),
                    "unknown": Yes(known.material.unknown),
                    **_softened(known.material),
                },
            )
        )
    elif known.material.brittle:
        findings.append(
            Finding(
                code="brittle-bar",
                severity=Severity.WARNING,
                about=(KeyAt("part.material"),),
                facts={"metal": Name(known.material.name)},
            )
        )
    if known.material.unknown:
        findings.append(
            Finding(code="unknown-bar", severity=Severity.WARNING, about=(KeyAt("part.material"),))
        )
    return findings


def bend_findings(
    made: MadeBend, known: Known, bend: int, *, grain: Grain = "across", row: bool = False
) -> list[Finding]:
    """What the solver and the metal's limits say of one 1-based bend, or each hit of a row."""
    about = (BendAt(bend),)
    findings = [
        Finding(
            code="model-weak-spot",
            severity=Severity.NOTE,
            about=about,
            facts={"reason": Choice(reason)},
        )
        for reason in made.error.reasons
    ]
    if made.state.loaded_angle > PROVEN_ANGLE:
        findings.append(
            Finding(
                code="past-proven-angle",
                severity=Severity.WARNING,
                about=about,
                facts={"loaded": Angle(made.state.loaded_angle), "proven": Angle(PROVEN_ANGLE)},
            )
        )
    if made.jammed_share > 0.02:
        findings.append(
            Finding(
                code="near-jam",
                severity=Severity.WARNING,
                about=about,
                facts={"jam": Angle(made.jam), "jammed": Share(made.jammed_share)},
            )
        )
    if made.bottoming is not None and bottoms_first(made):
        stands = float(np.interp(made.bottoming, made.curve.travel, made.curve.free_angle))
        findings.append(
            Finding(
                code="bottoms-before-angle",
                severity=Severity.REFUSAL,
                about=about,
                facts={
                    "travel": Length(made.bottoming),
                    "stands": Angle(stands),
                    "wanted": Angle(made.state.free_angle),
                },
            )
        )
    # A hit of a row turns too little for the bar to follow the nose.
    radius = max(made.setup.nose_radius, made.radii.wrap) if row else made.setup.nose_radius
    findings += radius_findings(outer_strain(made.setup, made.state), known, radius, grain, about)
    return findings


def radius_findings(
    strain: float, known: Known, nose: float, grain: Grain, about: tuple[Place, ...]
) -> list[Finding]:
    """What the metal's limits say of a bend round a nose.

    Parameters
    ----------
    strain
        True strain of the outer face [-].
    known
        The bar.
    nose
        Its radius [mm].
    grain
        Which way it runs.
    about
        The bend.
    """
    # Where the grain is not known the worse way counts.
    along = grain != "across"
    least, source = smallest_radius(known.material, known.thickness, along_grain=along)
    # A nose of 1-1/2 thicknesses is not under them for a last bit that differs.
    under = nose < least * (1.0 - 1e-9)
    stretch, elongation = math.expm1(strain), known.material.elongation / 100.0
    far = stretch > _FAR_PAST_ELONGATION * elongation
    if far and _far_under(known, nose, grain):
        return [
            *_softer_state(known, nose, grain, about),
            Finding(
                code="outside-cracks",
                severity=Severity.REFUSAL,
                about=about,
                facts={
                    "nose": Length(nose),
                    "least": Length(least),
                    "source": Name(source),
                    "stretch": Share(stretch),
                    "elongation": Share(elongation),
                },
            ),
        ]
    findings = _softer_state(known, nose, grain, about) if under else []
    if under:
        findings.append(
            Finding(
                code="radius-too-small",
                severity=Severity.WARNING,
                about=about,
                facts={
                    "nose": Length(nose),
                    "least": Length(least),
                    "source": Name(source),
                    "along_grain": Yes(along),
                },
            )
        )
    # A radius that a standard allows for this metal settles the matter: elongation over a tensile
    # gauge length says little of a bend.  Without one the strain is all there is to go by.
    settled = known.material.min_radius_rule not in ("stated", "textbook") and not under
    if stretch > elongation and not settled:
        findings.append(
            Finding(
                code="outer-strain-high",
                severity=Severity.WARNING if far else Severity.NOTE,
                about=about,
                facts={"stretch": Share(stretch), "elongation": Share(elongation)},
            )
        )
    return findings


def _softened(material: Material) -> Mapping[str, Fact]:
    """Which state of a metal bends, and what heat brings the bar there."""
    facts: dict[str, Fact] = {"softer": Name(material.softer), "family": Choice(material.family)}
    if material.anneal is not None:
        facts["heat"] = Temperature(material.anneal * 9.0 / 5.0 + 32.0)
    return facts


def _softer_state(
    known: Known, nose: float, grain: Grain, about: tuple[Place, ...]
) -> list[Finding]:
    """Say which softer state takes a nose that this one does not, where one does."""
    material = known.material
    if not material.softer or material.cracks:
        return []
    softer = find_material(material.softer, "part.material")
    least, _ = smallest_radius(softer, known.thickness, along_grain=grain != "across")
    if nose < least * (1.0 - 1e-9):
        return []
    return [
        Finding(
            code="softer-state-bends",
            severity=Severity.NOTE,
            about=about,
            facts={"least": Length(least), "nose": Length(nose), **_softened(material)},
        )
    ]


def _far_under(known: Known, nose: float, grain: Grain) -> bool:
    """Whether a nose is far under what a standard or handbook advises for this metal.

    A guess at the metal or its grain refuses nothing.
    """
    material = known.material
    if material.sources["min_radius_rule"].grade not in ("standard", "handbook"):
        return False
    least, _ = smallest_radius(material, known.thickness, along_grain=grain == "along")
    return nose < _FAR_UNDER_RADIUS * least


def hole_findings(blank: Blank, thickness: float) -> list[Finding]:
    """Holes that the bend pulls out of round."""
    findings = []
    for hole in blank.holes:
        near = NEAR[cut_kind(hole)]
        if hole.edge_to_zone >= near * thickness or hole.after:
            continue
        inside = hole.edge_to_zone < 0.0
        findings.append(
            Finding(
                code="hole-in-bend" if inside else "hole-near-bend",
                severity=Severity.WARNING if inside else Severity.NOTE,
                about=(HoleAt(hole.hole),),
                facts={
                    "bend": Count(hole.bend),
                    "away": Length(hole.edge_to_zone),
                    "kind": Choice(cut_kind(hole)),
                    "near": Count(round(near)),
                },
            )
        )
    return findings


def press_findings(press: Press | None, travels: Sequence[float]) -> list[Finding]:
    """What is missing of the press, and a stroke that is too short."""
    if press is None:
        return [Finding(code="no-press", severity=Severity.NOTE, about=(KeyAt("press"),))]
    findings = []
    missing = [
        name for name, value in (("bore", press.bore), ("relief", press.relief)) if value is None
    ]
    if missing:
        findings.append(
            Finding(
                code="press-incomplete",
                severity=Severity.NOTE,
                about=(KeyAt("press"),),
                facts={"missing": tuple(KeyAt(f"press.{name}") for name in missing)},
            )
        )
    if press.stroke is not None and travels and max(travels) > press.stroke:
        findings.append(
            Finding(
                code="stroke-too-short",
                severity=Severity.REFUSAL,
                about=(KeyAt("press.stroke"),),
                facts={"needed": Length(max(travels)), "stroke": Length(press.stroke)},
            )
        )
    return findings


def tooling_findings(job: Job) -> list[Finding]:
    """What cannot be said without tooling."""
    if job.tooling is not None:
        return []
    return [Finding(code="no-tooling", severity=Severity.NOTE, about=(KeyAt("tooling"),))]
