"""From a job to what the stroke solver takes: the metal, the bend and how well each is known."""

from __future__ import annotations

from attrs import frozen

from strapwright.bending.bar_lot import KnownMetal, known_metal
from strapwright.bending.bend_band import NINETY, Spreads
from strapwright.bending.bend_values import BendSetup
from strapwright.catalog import Material, find_material
from strapwright.errors import InputError
from strapwright.shop.job import Job
from strapwright.shop.tooling import Tooling

# Mill tolerance as one standard deviation of the thickness, relative.  Hot-rolled flat is sold to
# about +-0.2 mm at 6 mm, drawn and rolled finishes to about a third of that (from memory).
HOT_ROLLED_SPREAD = 0.018
DRAWN_SPREAD = 0.006
MEASURED_SPREAD = 0.003
# Friction of a dry or oiled bar on a round shoulder is 0.05 to 0.2 (from memory).
FRICTION_SPREAD = 0.04
# A wear mark or a chamfer moves the line of contact by about this much (common practice, no
# source).
OPENING_SPREAD = 0.15  # mm
# Bourdon gauges of this class read to 1.6 % of full scale, seals vary (common practice, no source).
READING_SPREAD = 0.03
GIVE_SPREAD = 0.2
# A protractor on a bar with mill scale (common practice, no source).
PROTRACTOR_SPREAD = 0.004  # rad


@frozen(kw_only=True)
class Known:
    """What the job says of its bar, complete.

    Attributes
    ----------
    thickness
        Measured where the lot says so, else nominal [mm].
    """

    material: Material
    metal: KnownMetal
    thickness: float


def known_bar(job: Job) -> Known:
    """Look up the bar's metal.

    Raises
    ------
    InputError
        Where the material is unknown or the certificate contradicts itself.
    """
    part = job.part
    material = find_material(part.material, "part.material")
    thickness = part.bar.thickness if part.lot.thickness is None else part.lot.thickness
    return Known(material=material, metal=known_metal(material, part.lot), thickness=thickness)


def bend_setup(job: Job, known: Known, tooling: Tooling) -> BendSetup:
    """Return one bend of the job; all its bends share the bar and the tooling.

    Raises
    ------
    InputError
        Where the nose does not pass between the shoulders.
    """
    nose, shoulders = tooling.nose, tooling.shoulders
    gap = shoulders.opening - 2.0 * shoulders.radius
    if gap <= 2.0 * nose.radius:
        raise InputError(
            "tooling.shoulders.opening",
            f"the clear gap between the shoulders is {gap:.4g} mm ({gap / 25.4:.3f} in) and the "
            f"nose is {2.0 * nose.radius:.4g} mm ({2.0 * nose.radius / 25.4:.3f} in) across, so "
            "it does not pass between them",
            "open the shoulders or take a smaller nose",
        )
    bar = job.part.bar
    return BendSetup(
        section=bar.section,
        thickness=known.thickness,
        width=bar.width if bar.section == "flat" else known.thickness,
        opening=shoulders.opening,
        nose_radius=nose.radius,
        shoulder_radius=shoulders.radius,
        friction=tooling.friction,
        flow=known.metal.flow,
        unloading_ratio=known.metal.unloading_ratio,
        give=0.0 if job.press is None else job.press.give,
        bars=job.part.at_once,
    )


def spreads_of(job: Job, known: Known, tooling: Tooling) -> Spreads:
    """Return how well the parts of a prediction are known, one standard deviation each."""
    if job.part.lot.thickness is not None:
        thickness = MEASURED_SPREAD
    elif known.material.drawn or known.material.family != "steel":
        thickness = DRAWN_SPREAD
    else:
        thickness = HOT_ROLLED_SPREAD
    give = 0.0 if job.press is None else job.press.give
    return Spreads(
        strength=known.metal.strength_spread,
        exponent=known.metal.exponent_spread,
        thickness=thickness,
        friction=FRICTION_SPREAD,
        unloading=known.metal.unloading_spread,
        opening=OPENING_SPREAD,
        touch=tooling.touch_error / NINETY,
        give=GIVE_SPREAD * give,
        reading=READING_SPREAD,
        protractor=PROTRACTOR_SPREAD,
    )
