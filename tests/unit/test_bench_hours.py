"""Work at the bench in hours, money and the week: finished bends, sawn ends, twists, tooling."""

from __future__ import annotations

import pytest

from strapwright.money.part_hours import hours_of
from strapwright.planning.plan import plan
from strapwright.quantities.day_numbers import day_number
from strapwright.service.costing.job_money import ShopMoney, quote_for, week_for
from strapwright.shop.shop_rates import MoneyRates, Price, ShopRates, TimeRates
from strapwright.shop_files.reading_job import read_job

BRACKET = """\
format = 1
units = "metric"
[part]
name = "mooring cleat stay"
quantity = 10
due = "2026-12-04"
bar = "flat 5 x 40"
material = "S235"
shape = ["100", "up 90", {leg}, "down 90", "80"]
{more}
[tooling]
nose = {{ shaft = "16", web = {{ thick = "10", height = "120" }} }}
shoulders = {{ radius = "8", opening = "48", depth = "70", height = "110", outer_edge = "34" }}
"""
TWIST = '"100", "twist 90 over 90", "100"'
TRIM = 'trim = { end_1 = "10" }'
FINISH = "[[part.finish]]\nbend = 1\nat = 60"
OTHER = '[[part.other_tooling]]\nname = "the narrow die"\nbends = [2]\nnose = { shaft = "12" }'
PRICE = Price(price=2.0, by="kg", material="S235")
RATES = TimeRates(cut=2.0, sawing=100.0, lay_out=0.5, finish=6.0, twist=7.0, set_tooling=20.0)


@pytest.mark.parametrize(
    ("leg", "more", "part", "lot"),
    [
        # One cut: 2 min to clamp and 5 x 40 = 200 mm2 at 100 a minute: 4 min, and its line 0.5.
        ('"200"', TRIM, 4.5, 0.0),
        ('"200"', FINISH, 6.0, 0.0),
        # Two lines at half a minute.
        (TWIST, "", 8.0, 0.0),
        (TWIST, f"{TRIM}\n{FINISH}", 18.5, 0.0),
        # Nothing a part, and the second tooling put in once.
        ('"200"', OTHER, 0.0, 20.0),
    ],
)
def test_bench_work_takes_its_minutes(leg: str, more: str, part: float, lot: float) -> None:
    made, plain = (
        plan(read_job(BRACKET.format(leg=length, more=ways)), search=False)
        for length, ways in ((leg, more), ('"200"', ""))
    )
    now, before = hours_of(made, RATES), hours_of(plain, RATES)
    assert now.part - before.part == pytest.approx(part)
    assert now.lot - before.lot == pytest.approx(lot)


def test_it_is_paid_for_and_stands_in_the_week() -> None:
    money = MoneyRates(labour=60.0, scrap=0.0, margin=0.0)
    shop = ShopMoney(rates=ShopRates(time=RATES, money=money, prices=(PRICE,)))
    made, plain = (
        plan(read_job(BRACKET.format(leg='"200"', more=more)), search=False)
        for more in (FINISH, "")
    )
    monday = day_number("2026-11-30", "today")
    # Ten parts at 6 min are an hour, of 60.
    now, before = (quote_for(one, shop, quantities=[10], today=monday) for one in (made, plain))
    assert now.lots[0].labour - before.lots[0].labour == pytest.approx(60.0)
    week, less = (week_for([one], shop, monday) for one in (made, plain))
    assert week.placed[0].job.hours - less.placed[0].job.hours == pytest.approx(1.0)
