"""What a part costs and is sold for, at several quantities."""

from __future__ import annotations

import math

from attrs import frozen

from strapwright.errors import InputError, in_file
from strapwright.money.part_hours import JobHours
from strapwright.shop.shop_rates import ShopRates

QUANTITIES = (1, 5, 10, 50)
_HOUR = 60.0  # min
_CENT = 100


@frozen(kw_only=True)
class LotPrice:
    """A lot, in the shop's money.

    Attributes
    ----------
    quantity
        Parts delivered.
    material, consumables, labour, setup, outside
        What it costs; the first four with what is lost as scrap.
    margin
        What is earned.
    each, net, tax, total
        Price of one part, in whole cents; of the lot; tax on it; both.
    low, high
        Cost of the lot if every time is off by the shop's spread.
    """

    quantity: int
    material: float
    consumables: float
    labour: float
    setup: float
    outside: float
    margin: float
    each: float
    net: float
    tax: float
    total: float
    low: float
    high: float

    @property
    def cost(self) -> float:
        """What the lot costs the shop."""
        return self.material + self.consumables + self.labour + self.setup + self.outside


def labour_rate(rates: ShopRates) -> float:
    """Return what an hour of work costs.

    Raises
    ------
    InputError
        If it is not stated.
    """
    if rates.money.labour is None:
        raise InputError(
            "money.labour", "the price of an hour is not entered, so the work has no cost",
            in_file("write for example labour = 45 under [money] in the rates file"),
        )  # fmt: skip
    return rates.money.labour


def made_for(quantity: int, rates: ShopRates) -> float:
    """Return how many parts are made for so many good ones, ``quantity / (1 - scrap)``."""
    return quantity / (1.0 - rates.money.scrap)


def price_lot(quantity: int, hours: JobHours, metal: float, rates: ShopRates) -> LotPrice:
    """Return what a lot costs and is sold for.

    Made for scrap: of ``quantity`` delivered, ``quantity / (1 - scrap)`` are made.  Price before
    tax = cost / (1 - margin), so that the margin is a share of the price.

    Parameters
    ----------
    quantity
        Parts delivered.
    hours
        Of the job.
    metal
        Cost of the metal of one part as cut [money].
    rates
        Of the shop.

    Raises
    ------
    InputError
        If the price of an hour is not stated, or the quantity is not above 0.
    """
    if quantity < 1:
        raise InputError("quantity", "the quantity is not above 0", "give 1 or more")
    money = rates.money
    hourly = labour_rate(rates)
    made = made_for(quantity, rates)
    labour = made * hours.part / _HOUR * hourly
    setup = hours.lot / _HOUR * hourly
    material, consumables = made * metal, made * money.consumables
    outside = sum(one.lot + quantity * one.part for one in rates.outside)
    cost = material + consumables + labour + setup + outside
    # The buyer multiplies the price of one by the count: it is a whole cent, rounded up.
    each = math.ceil(cost / (1.0 - money.margin) / quantity * _CENT - 1e-9) / _CENT
    net = round(each * quantity, 2)
    tax = round(net * money.tax, 2)
    off = hours.spread * (labour + setup)
    return LotPrice(
        quantity=quantity,
        material=material,
        consumables=consumables,
        labour=labour,
        setup=setup,
        outside=outside,
        margin=net - cost,
        each=each,
        net=net,
        tax=tax,
        total=round(net + tax, 2),
        low=cost - off,
        high=cost + off,
    )
