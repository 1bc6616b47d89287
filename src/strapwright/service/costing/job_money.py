"""Hours, quote, payback and week of job files."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from pathlib import Path

from attrs import frozen

from strapwright.cutting.shop_cuts import NEW_BAR, sources_for
from strapwright.errors import InputError
from strapwright.making.crib_cutters import cutters_of, usual_cutters
from strapwright.making.tooling_making import make_tooling
from strapwright.making.tooling_plates import pieces_of
from strapwright.money.material_cost import price_per_length
from strapwright.money.part_hours import JobHours, hours_of
from strapwright.money.part_price import (
    QUANTITIES,
    LotPrice,
    labour_rate,
    made_for,
    price_lot,
)
from strapwright.money.payback import Payback, TodaysWay, pay_back
from strapwright.money.week_plan import DueJob, WeekPlan, plan_week
from strapwright.planning.plan import plan
from strapwright.planning.plan_values import Plan
from strapwright.quantities.day_numbers import day_number
from strapwright.service.cut_jobs import WantedPiece, blanks_of, kerf_of, tooling_pieces
from strapwright.service.load_job import load_job
from strapwright.service.search_clock import within
from strapwright.shop.crib import Crib
from strapwright.shop.job import Job
from strapwright.shop.rack import Rack
from strapwright.shop.shop_rates import ShopRates

_MOST_QUOTED = 12  # quantities on a sheet
_LARGEST_LOT = 100_000
_DEAREST = 1e7  # of any money; more is a slip


@frozen(kw_only=True)
class ShopMoney:
    """What the shop says beside its jobs.

    Attributes
    ----------
    rates, rack, crib
        Of the shop; rack and crib may be missing.
    """

    rates: ShopRates
    rack: Rack | None = None
    crib: Crib | None = None


@frozen(kw_only=True)
class Quote:
    """A quote.

    Attributes
    ----------
    job
        What is made.
    customer
        Whom it is for, may be empty.
    issued, valid
        Day numbers.
    hours
        What each part and a lot take.
    lots
        Prices, by quantity.
    rates
        They were made from.
    """

    job: Job
    customer: str
    issued: int
    valid: int
    hours: JobHours
    lots: tuple[LotPrice, ...]
    rates: ShopRates


def day_today() -> int:
    """Return the number of today, by the clock of this machine."""
    return day_number(date.today().isoformat(), "today")  # noqa: DTZ011  the shop's own day


def plan_for_money(path: Path) -> Plan:
    """Plan a job file in its own order of bends, or the best one.

    Raises
    ------
    InputError
        If it cannot be used.
    """
    return plan(load_job(path), keep_going=within())


def metal_of_part(made: Plan, shop: ShopMoney) -> float:
    """Return what the metal of one part costs, each blank with one cut [money].

    Raises
    ------
    InputError
        If there is no blank, or no price.
    """
    kerf, _ = kerf_of(shop.rates.cutting, shop.crib)
    return sum(
        (one.piece.length + kerf) * _price(one, made.job, shop)
        for one in blanks_of(made, shop.rates.cutting)
    )


def _price(one: WantedPiece, job: Job, shop: ShopMoney) -> float:
    sources = sources_for(one.bar, one.material, shop.rack, NEW_BAR[job.units])
    sold = [bar.price / bar.length for bar in sources if bar.bought and bar.price]
    metal = one.priced_as or one.material
    return price_per_length(one.bar, metal, shop.rates, min(sold, default=None))


def quote_for(
    made: Plan,
    shop: ShopMoney,
    *,
    quantities: Sequence[int] = QUANTITIES,
    customer: str = "",
    today: int,
    valid_days: int = 30,
) -> Quote:
    """Quote a job.

    Parameters
    ----------
    made
        Its plan.
    shop
        Rates, rack and crib.
    quantities
        To price.
    customer
        Whom it is for.
    today
        Day number.
    valid_days
        How long it holds.

    Raises
    ------
    InputError
        If a price is missing or a figure cannot be.
    """
    wanted = sorted(set(quantities))
    if not wanted or len(wanted) > _MOST_QUOTED or wanted[0] < 1 or wanted[-1] > _LARGEST_LOT:
        raise InputError(
            "quantities", "these cannot be priced",
            f"give up to {_MOST_QUOTED} whole numbers from 1 to {_LARGEST_LOT}, for example 1,5,10",
        )  # fmt: skip
    if not 1 <= valid_days <= 365:
        raise InputError("valid", "the days are out of range", "give 1 to 365")
    labour_rate(shop.rates)
    hours = hours_of(made, shop.rates.time)
    metal = metal_of_part(made, shop)
    return Quote(
        job=made.job,
        customer=customer,
        issued=today,
        valid=today + valid_days,
        hours=hours,
        lots=tuple(price_lot(one, hours, metal, shop.rates) for one in wanted),
        rates=shop.rates,
    )


def refuse_half_priced(quote: Quote) -> None:
    """Refuse to hand a customer prices that leave the bending out.

    Raises
    ------
    InputError
        If the job has no tooling yet.
    """
    if quote.hours.no_tooling:
        raise InputError(
            "tooling", "bending is not in these prices, because no tooling is entered",
            "enter the tooling before you hand the quote over",
        )  # fmt: skip


def payback_for(
    made: Plan,
    shop: ShopMoney,
    today: TodaysWay,
    *,
    lot: int | None = None,
    a_year: int | None = None,
    interest: float = 0.0,
    years: float = 5.0,
    tooling_cost: float | None = None,
) -> Payback:
    """Set the tooling of a job against today's way.

    Parameters
    ----------
    made
        The plan of the job, with its tooling.
    shop
        Rates, rack and crib.
    today
        How the parts are made now.
    lot
        Parts of a lot; the job's quantity where not given.
    a_year, interest, years
        As of :func:`strapwright.money.payback.pay_back`.
    tooling_cost
        What the tooling costs, where it is bought; else its hours of making and its metal.

    Raises
    ------
    InputError
        If the job has no tooling, a price is missing or a figure cannot be.
    """
    job = made.job
    if job.tooling is None:
        raise InputError(
            "tooling", "the job states no tooling, so there is nothing to pay back",
            "enter the tooling, or find one from the rack",
        )  # fmt: skip
    if tooling_cost is not None:
        if not 0 < tooling_cost < _DEAREST:
            raise InputError(
                "tooling cost", "it is out of range", "give what the tooling costs, above 0"
            )
        minutes, metal = 0.0, tooling_cost
    else:
        minutes = making_minutes(job, shop.crib)
        metal = sum(
            one.piece.quantity * one.piece.length * _price(one, job, shop)
            for one in tooling_pieces(job)
        )
    return pay_back(
        today,
        hours_of(made, shop.rates.time),
        metal=metal_of_part(made, shop),
        tooling_minutes=minutes,
        tooling_metal=metal,
        lot=job.part.quantity if lot is None else lot,
        rates=shop.rates,
        a_year=a_year,
        interest=interest,
        years=years,
    )


def making_minutes(job: Job, crib: Crib | None) -> float:
    """Return how long the tooling of a job takes to make [min]."""
    cutters = usual_cutters() if crib is None else cutters_of(crib)
    return make_tooling(
        pieces_of(job), cutters, name=job.part.name, units=job.units, usual=crib is None
    ).minutes


def week_for(plans: Sequence[Plan], shop: ShopMoney, today: int) -> WeekPlan:
    """Say what fits into the days to come; jobs without a due date are only named.

    Parameters
    ----------
    plans
        Of the jobs.
    shop
        Rates.
    today
        Day number.

    Raises
    ------
    InputError
        If none has a due date, one lies in the past, or two have one name.
    """
    jobs, undated = [], []
    for made in plans:
        part = made.job.part
        if part.due is None:
            undated.append(part.name)
            continue
        hours = hours_of(made, shop.rates.time)
        jobs.append(
            DueJob(
                name=part.name,
                hours=hours.minutes(made_for(part.quantity, shop.rates)) / 60,
                due=day_number(part.due, part.name),
                no_tooling=hours.no_tooling,
            )
        )
    return plan_week(jobs, shop.rates.hours, today, undated)
