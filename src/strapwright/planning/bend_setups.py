"""From a job to what the stroke solver takes: the metal, the bend and how well each is known."""

from __future__ import annotations

from attrs import frozen

from strapwright.bending.bar_lot import KnownMetal, known_metal
from strapwright.bending.bend_band import NINETY, Spreads
from strapwright.bending.bend_values import BendSetup
from strapwright.bending.shop_spreads import USUAL_SPREADS, BarSpread, ShopSpreads
from strapwright.catalog import Material, find_material
from strapwright.errors import InputError, either_unit
from strapwright.quantities.inside_units import INCH_MM
from strapwright.shop.job import Job
from strapwright.shop.tooling import Tooling


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


def known_bar(job: Job, spread: BarSpread = USUAL_SPREADS.bar) -> Known:
    """Look up the bar's metal.

    Parameters
    ----------
    spread
        How well what the lot states is known.

    Raises
    ------
    InputError
        Where the material is unknown or the certificate contradicts itself.
    """
    part = job.part
    material = find_material(part.material, "part.material")
    thickness = part.bar.thickness if part.lot.thickness is None else part.lot.thickness
    metal = known_metal(material, part.lot, spread)
    return Known(material=material, metal=metal, thickness=thickness)


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
            f"the clear gap between the shoulders is {_size(gap)} and the nose is "
            f"{_size(2.0 * nose.radius)} across, so it does not pass between them",
            "open the shoulders or use a smaller nose",
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


def spreads_of(job: Job, known: Known, tooling: Tooling, shop: ShopSpreads) -> Spreads:
    """Return how well the parts of a prediction are known, one standard deviation each."""
    if job.part.lot.thickness is not None:
        thickness = shop.bar.measured
    elif known.material.drawn or known.material.family != "steel":
        thickness = shop.bar.drawn
    else:
        thickness = shop.bar.hot_rolled
    give = 0.0 if job.press is None else job.press.give
    return Spreads(
        strength=known.metal.strength_spread,
        exponent=known.metal.exponent_spread,
        plateau=known.metal.plateau_spread,
        thickness=thickness,
        friction=shop.tooling.friction,
        unloading=known.metal.unloading_spread,
        opening=shop.tooling.opening,
        touch=tooling.touch_error / NINETY,
        off_middle=tooling.nose.offset,
        give=shop.press.give * give,
        reading=shop.press.reading,
        protractor=shop.protractor,
    )


def _size(mm: float) -> str:
    return either_unit(f"{mm:.4g} mm", f"{mm / INCH_MM:.3f} in")
