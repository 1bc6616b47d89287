"""Interest, break-even, a quote and a payback against tables and hand calculation.

Capital recovery factors: the interest tables at the end of any textbook of engineering economy
(for example Newnan, Eschenbach, Lavelle), recalled from memory to five digits; they can be worked
out anew from i (1 + i)^n / ((1 + i)^n - 1).  Break-even: the example of a fixed cost of 10000, a
price of 4.00 and a variable cost of 2.25, Heizer and Render, Operations Management, recalled from
memory.  Cost of a machine by the hour: Groover, Fundamentals of Modern Manufacturing, the cost
rate of equipment as price over years and hours of work; the example's figures recalled from memory.
"""

from __future__ import annotations

import math

import pytest

from strapwright.errors import InputError
from strapwright.money.compound_interest import recovery_factor
from strapwright.money.material_cost import mass_per_length, price_per_length
from strapwright.money.part_hours import JobHours, WorkTime
from strapwright.money.part_price import price_lot
from strapwright.money.payback import TodaysWay, break_even, pay_back
from strapwright.money.week_plan import DueJob, plan_week
from strapwright.quantities.day_numbers import day_number, show_day, weekday
from strapwright.shop.bar import Bar
from strapwright.shop.shop_rates import (
    MoneyRates,
    OutsideService,
    Price,
    ShopRates,
    WorkHours,
)


@pytest.mark.parametrize(
    ("interest", "years", "factor"),
    [
        (0.08, 10, 0.14903),
        (0.10, 5, 0.26380),
        (0.10, 10, 0.16275),
        (0.12, 5, 0.27741),
        (0.15, 8, 0.22285),
        (0.0, 7, 1 / 7),
    ],
)
def test_capital_recovery_is_that_of_the_interest_tables(
    interest: float, years: float, factor: float
) -> None:
    assert recovery_factor(interest, years) == pytest.approx(factor, abs=5.1e-6)


@pytest.mark.parametrize(
    ("interest", "years", "problem"),
    [
        (-0.01, 5, "interest"), (math.nan, 5, "interest"), (11, 5, "interest"),
        (0.08, 0, "years"), (0.08, math.nan, "years"), (0.08, 1e6, "years"),
    ],
)  # fmt: skip
def test_interest_and_years_that_cannot_be_are_refused(
    interest: float, years: float, problem: str
) -> None:
    with pytest.raises(InputError, match=problem):
        recovery_factor(interest, years)


def test_a_tiny_interest_costs_no_more_than_none() -> None:
    assert recovery_factor(1e-17, 5) == pytest.approx(0.2, rel=1e-12)


def test_a_machine_costs_by_the_hour_what_the_textbook_says() -> None:
    """500 000 over 7 years of 2000 hours without interest: 35.71 an hour, 0.595 a minute."""
    yearly = 500_000 * recovery_factor(0.0, 7)
    assert yearly / 2000 == pytest.approx(35.71, abs=0.005)
    assert yearly / 2000 / 60 == pytest.approx(0.595, abs=0.0005)


def test_break_even_is_fixed_cost_over_what_each_brings() -> None:
    assert break_even(10_000, 4.00 - 2.25) == math.ceil(5714.28)
    assert break_even(100, 25) == 4
    assert break_even(100, 0) is None
    assert break_even(100, -1) is None


FLAT = Bar(section="flat", thickness=6.35, width=50.8)
ROUND = Bar(section="round", thickness=25.4, width=25.4)


def test_metal_costs_by_mass_length_or_bar() -> None:
    # 1/4 x 2 flat: 0.25 x 2 x 12 x 0.2836 = 1.702 lb a foot; bar lists of steel say 1.70.
    assert mass_per_length(FLAT, "A36 hot rolled") * 304.8 / 0.45359237 == pytest.approx(
        1.702, abs=0.002
    )
    # 1 in round: 2.67 lb a foot in the same lists.
    assert mass_per_length(ROUND, "A36 hot rolled") * 304.8 / 0.45359237 == pytest.approx(
        2.67, abs=0.006
    )
    pound = ShopRates(prices=(Price(price=1.10, by="lb"),))
    assert price_per_length(FLAT, "A36 hot rolled", pound) * 304.8 == pytest.approx(
        1.10 * 1.702, abs=0.003
    )
    several = ShopRates(
        prices=(
            Price(price=1.0, by="kg"),
            Price(price=2.0, by="ft", material="A36"),
            Price(price=9.0, by="m", bar=FLAT),
        )
    )
    assert price_per_length(FLAT, "A36 hot rolled", several) == pytest.approx(9.0 / 1000)
    assert price_per_length(ROUND, "A36 hot rolled", several) == pytest.approx(2.0 / 304.8)
    assert price_per_length(FLAT, "A36 hot rolled", several, sold=0.5) == 0.5
    kilogram = ShopRates(prices=several.prices[:1])
    # S235 20 mm round: 2.47 kg a metre, EN 10060 size list.
    rod = Bar(section="round", thickness=20.0, width=20.0)
    assert price_per_length(rod, "S235JR", kilogram) * 1000 == pytest.approx(2.47, abs=0.005)
    with pytest.raises(InputError, match=r"no price of A36 hot rolled is entered"):
        price_per_length(FLAT, "A36 hot rolled", ShopRates())


HOURS = JobHours(
    works=(
        WorkTime(work="cut", lot=2.0, part=3.0),
        WorkTime(work="bend", lot=38.0, part=9.0),
    ),
    spread=0.25,
    no_tooling=False,
)
RATES = ShopRates(
    money=MoneyRates(labour=60.0, machining=90.0, consumables=0.5, scrap=0.0, margin=0.2, tax=0.1),
    outside=(OutsideService(name="paint", part=1.0, lot=20.0),),
)


def test_a_quote_is_what_a_pencil_makes_it() -> None:
    """Ten parts: metal 10 x 4 = 40, consumables 5, work 10 x 12 min at 60 = 120, setup 40 min = 40,
    paint 20 + 10 = 30: cost 235.  With a fifth of the price as margin 235 / 0.8 = 293.75, 29.375
    each, so 29.38 and 293.80; a tenth of tax 29.38, 323.18 to pay.  Times off by a quarter: 40."""
    lot = price_lot(10, HOURS, 4.0, RATES)
    assert (lot.material, lot.consumables, lot.labour, lot.setup, lot.outside) == pytest.approx(
        (40.0, 5.0, 120.0, 40.0, 30.0)
    )
    assert lot.cost == pytest.approx(235.0)
    assert (lot.each, lot.net, lot.tax, lot.total) == (29.38, 293.80, 29.38, 323.18)
    assert lot.margin == pytest.approx(58.80)
    assert (lot.low, lot.high) == pytest.approx((195.0, 275.0))
    # One part in five lost: 12.5 are made for ten.
    lossy = ShopRates(
        money=MoneyRates(labour=60.0, consumables=0.5, scrap=0.2, margin=0.0), outside=()
    )
    lot = price_lot(10, HOURS, 4.0, lossy)
    assert lot.cost == pytest.approx(12.5 * (4.0 + 0.5 + 12.0) + 40.0)
    with pytest.raises(InputError, match=r"the price of an hour is not entered"):
        price_lot(10, HOURS, 4.0, ShopRates())
    with pytest.raises(InputError, match=r"the quantity is not above 0"):
        price_lot(0, HOURS, 4.0, RATES)


def test_a_payback_is_what_a_pencil_makes_it() -> None:
    """By hand 30 min a part at 60 an hour = 30, metal 4, consumables 0.5, one in ten lost:
    34.5 / 0.9 = 38.333; setup 30 min over lots of 10: 3; paint 1 and 20 / 10: 3; 44.333 a part.
    With the tooling 12 min = 12, 16.5, setup 40 min over 10: 4, paint 3; 23.5.  Tooling: 6 h at 90
    = 540 and 85 of metal = 625.  Saved 20.833: 625 / 20.833 = 30.0 parts."""
    way = TodaysWay(minutes=30.0, setup=30.0, scrap=0.1)
    found = pay_back(
        way, HOURS, metal=4.0, tooling_minutes=360.0, tooling_metal=85.0, lot=10, rates=RATES,
        a_year=100, interest=0.10, years=5,
    )  # fmt: skip
    assert found.old == pytest.approx(44.3333, abs=1e-4)
    assert found.new == pytest.approx(23.5)
    assert found.tooling == pytest.approx(625.0)
    assert found.count == 30
    # Band: a quarter less time, 19.5 a part and 490; a quarter more, 27.5 and 760.
    assert (found.new_low, found.new_high) == pytest.approx((19.5, 27.5))
    assert (found.tooling_low, found.tooling_high) == pytest.approx((490.0, 760.0))
    assert found.low == math.ceil(490 / (44.3333 - 19.5)) == 20
    assert found.high == math.ceil(760 / (44.3333 - 27.5)) == 46
    # A year of 100 parts saves 2083.33; 625 over five years at a tenth costs 625 x 0.26380.
    assert found.yearly == pytest.approx(2083.33 - 625 * 0.26380, abs=0.01)
    # A bought part comes painted: 23 against 23.5, and at best 23 - 19.5 saved.
    dear = pay_back(
        TodaysWay(bought=23.0), HOURS, metal=4.0, tooling_minutes=360.0, tooling_metal=85.0,
        lot=10, rates=RATES,
    )  # fmt: skip
    assert (dear.count, dear.high, dear.yearly) == (None, None, None)
    assert dear.low == math.ceil(490 / 3.5)


MONDAY = day_number("2026-11-30", "today")


def test_days_are_counted_as_a_calendar_does() -> None:
    assert weekday(MONDAY) == 0
    assert show_day(MONDAY) == "Mon 2026-11-30"
    assert show_day(day_number("2028-02-29", "due") + 1) == "Wed 2028-03-01"
    assert day_number("2027-01-01", "due") - MONDAY == 32
    for wrong in ("2027-02-29", "2026-13-01", "4 Dec", "2026-12-00", ""):
        with pytest.raises(InputError, match=r"there is no such day"):
            day_number(wrong, "due")


def test_the_fewest_jobs_are_late() -> None:
    """Six hours a day.  By due date alone the long job makes both behind it late; put off, it is
    the only one (Moore's rule)."""
    jobs = [
        DueJob(name="long", hours=10.0, due=MONDAY + 1),
        DueJob(name="short", hours=4.0, due=MONDAY + 1),
        DueJob(name="third", hours=7.0, due=MONDAY + 2),
    ]
    week = plan_week(jobs, WorkHours(a_day=6.0, days=5), MONDAY)
    assert [one.job.name for one in week.moved] == ["long"]
    assert week.by_date_late == 2
    assert [one.job.name for one in week.placed] == ["short", "third", "long"]
    assert week.placed[1].days == ((MONDAY, 2.0), (MONDAY + 1, 5.0))
    assert week.placed[2].finished == MONDAY + 3


def test_no_work_falls_on_a_weekend() -> None:
    friday = MONDAY + 4
    job = DueJob(name="one", hours=8.0, due=friday + 3)
    (placed,) = plan_week([job], WorkHours(a_day=6.0, days=5), friday).placed
    assert placed.days == ((friday, 6.0), (friday + 3, 2.0))
    assert placed.fits
    with pytest.raises(InputError, match=r"its due date is in the past"):
        plan_week([DueJob(name="old", hours=1.0, due=friday - 1)], WorkHours(), friday)
    with pytest.raises(InputError, match=r"two jobs have this name"):
        plan_week([job, job], WorkHours(), friday)
