"""After how many parts a tooling has paid for itself, against the way the parts are made today."""

from __future__ import annotations

import math

from attrs import frozen

from strapwright.errors import InputError
from strapwright.money.compound_interest import recovery_factor
from strapwright.money.part_hours import JobHours
from strapwright.money.part_price import labour_rate
from strapwright.shop.shop_rates import ShopRates

_HOUR = 60.0  # min


@frozen(kw_only=True)
class TodaysWay:
    """How the parts are made today, or what they are bought for.

    Attributes
    ----------
    minutes, setup
        For one part, and once for a lot [min]; both 0 where they are bought.
    scrap
        Parts lost, as a share.
    bought
        Price of one part that is bought in, ``None`` where they are made.
    """

    minutes: float = 0.0
    setup: float = 0.0
    scrap: float = 0.0
    bought: float | None = None


@frozen(kw_only=True)
class Payback:
    """What a tooling costs and saves, in the shop's money.

    Attributes
    ----------
    tooling
        What it costs to make.
    lot
        Parts of a lot, over which its setup is spread.
    old, new
        Cost of one part today and with the tooling, its share of the setup and what is given out
        with it.
    saved
        On one part.
    count
        Parts after which it has paid for itself; ``None`` where it never does.
    low, high
        Ends of its band; ``high`` is ``None`` where the band reaches to never.
    a_year
        Parts made a year, ``None`` where not stated.
    yearly
        What is saved a year less the yearly cost of the tooling, ``None`` without ``a_year``.
    new_low, new_high, tooling_low, tooling_high
        Ends of the bands of cost.
    """

    tooling: float
    lot: int
    old: float
    new: float
    saved: float
    count: int | None
    low: int | None
    high: int | None
    a_year: int | None
    yearly: float | None
    new_low: float
    new_high: float
    tooling_low: float
    tooling_high: float


def break_even(fixed: float, saved: float) -> int | None:
    """Return the whole number of parts after which a fixed cost is saved, ``None`` for never.

    Q = F / (p - v), fixed cost over what each part brings.

    Parameters
    ----------
    fixed
        Spent once [money].
    saved
        On each part [money].
    """
    return math.ceil(fixed / saved - 1e-9) if saved > 0 else None


def pay_back(
    today: TodaysWay,
    hours: JobHours,
    *,
    metal: float,
    tooling_minutes: float,
    tooling_metal: float,
    lot: int,
    rates: ShopRates,
    a_year: int | None = None,
    interest: float = 0.0,
    years: float = 5.0,
) -> Payback:
    """Set a tooling against today's way.

    Parameters
    ----------
    today
        How the parts are made now.
    hours
        Of the job with the tooling.
    metal
        Cost of the metal of one part; the same both ways [money].
    tooling_minutes, tooling_metal
        To make the tooling [min], and its metal [money].
    lot
        Parts of a lot.
    rates
        Of the shop.
    a_year, interest, years
        Parts made a year, interest as a share, and how long the tooling lasts.

    Raises
    ------
    InputError
        If a figure cannot be.
    """
    if lot < 1:
        raise InputError("lot", "the lot has no parts", "give 1 or more")
    if a_year is not None and a_year < 1:
        raise InputError("parts a year", "there are none", "give 1 or more")
    if not 0 <= today.scrap < 1:
        raise InputError("scrap today", "the share is not from 0 to below 1", "write 0.05 for 5 %")
    hourly = labour_rate(rates)
    machining = rates.money.machining or hourly
    # A part that is bought comes finished; one that is made here goes out either way.
    outside = sum(one.part + one.lot / lot for one in rates.outside)
    if today.bought is not None:
        old = today.bought
    else:
        each = metal + rates.money.consumables + today.minutes / _HOUR * hourly
        old = each / (1.0 - today.scrap) + today.setup / _HOUR * hourly / lot + outside

    def with_tooling(times: float) -> float:
        each = metal + rates.money.consumables + times * hours.part / _HOUR * hourly
        spread_out = times * hours.lot / _HOUR * hourly / lot
        return each / (1.0 - rates.money.scrap) + spread_out + outside

    def cost(times: float) -> float:
        return tooling_metal + times * tooling_minutes / _HOUR * machining

    less, more = 1.0 - hours.spread, 1.0 + hours.spread
    new = with_tooling(1.0)
    yearly = None
    if a_year is not None:
        yearly = a_year * (old - new) - cost(1.0) * recovery_factor(interest, years)
    return Payback(
        tooling=cost(1.0),
        lot=lot,
        old=old,
        new=new,
        saved=old - new,
        count=break_even(cost(1.0), old - new),
        low=break_even(cost(less), old - with_tooling(less)),
        high=break_even(cost(more), old - with_tooling(more)),
        a_year=a_year,
        yearly=yearly,
        new_low=with_tooling(less),
        new_high=with_tooling(more),
        tooling_low=cost(less),
        tooling_high=cost(more),
    )
