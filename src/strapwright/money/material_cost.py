"""What metal costs: by its mass, its length or the bar, whichever the shop knows."""

from __future__ import annotations

from strapwright.catalog import find_material
from strapwright.catalog.materials import Material
from strapwright.errors import InputError, in_file
from strapwright.money.part_hours import section_area
from strapwright.quantities.inside_units import FOOT_MM, POUND_KG
from strapwright.shop.bar import Bar
from strapwright.shop.shop_rates import Price, ShopRates

_METRE = 1000.0  # mm
_CUBIC_METRE = 1e9  # mm3
_STEEL = 7850.0  # kg/m3, EN 1991-1-1
_SAME_SIZE = 0.05  # mm between two sizes of bar; common practice, no source


def _metal(material: str) -> Material | None:
    try:
        return find_material(material, "part.material")
    except InputError:
        return None  # a steel of tooling


def mass_per_length(bar: Bar, material: str) -> float:
    """Return the mass of a bar [kg/mm].

    Parameters
    ----------
    bar, material
        Its section and metal; sharp corners, a mill bar is a little lighter.

    Returns
    -------
    float
        Of steel where the catalog of bars has no such metal: tooling is made of steel.
    """
    metal = _metal(material)
    return section_area(bar) * (_STEEL if metal is None else metal.density) / _CUBIC_METRE


def price_per_length(bar: Bar, material: str, rates: ShopRates, sold: float | None = None) -> float:
    """Return what a bar costs [money/mm].

    Parameters
    ----------
    bar, material
        Its section and metal.
    rates
        Of the shop: the price of the bar goes before that of its metal, that before one of all.
    sold
        What the supplier of the rack takes for it, which goes before all [money/mm].

    Raises
    ------
    InputError
        If no price is stated.
    """
    if sold is not None:
        return sold
    found = [one for one in rates.prices if _fits(one, bar, material)]
    if not found:
        raise InputError(
            "price", f"no price of {material} is entered, so its cost is not known",
            in_file("write a [[price]] with price, by and material into the rates file"),
        )  # fmt: skip
    best = min(found, key=lambda one: (one.bar is None, one.material is None))
    if best.by == "m":
        return best.price / _METRE
    if best.by == "ft":
        return best.price / FOOT_MM
    mass = mass_per_length(bar, material)
    return best.price * mass / (POUND_KG if best.by == "lb" else 1.0)


def _fits(price: Price, bar: Bar, material: str) -> bool:
    if price.material is not None:
        priced, wanted = find_material(price.material, "price.material"), _metal(material)
        alike = priced.family == "steel" if wanted is None else priced.name == wanted.name
        if not alike:
            return False
    if price.bar is None:
        return True
    apart = (price.bar.thickness - bar.thickness, price.bar.width - bar.width)
    return bool(price.bar.section == bar.section and max(map(abs, apart)) <= _SAME_SIZE)
