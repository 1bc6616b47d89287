"""Chance to hold a limit, worked out by hand.

The normal distribution as tables print it: 68.27, 95.45 and 99.73 in a hundred lie within one, two
and three deviations, and nine in ten within 1.645.  How errors add is common practice, no source:
independent ones as the root of their squares.
"""

from __future__ import annotations

import math
from functools import cache
from pathlib import Path

import pytest
from attrs import evolve

from strapwright.learning.log_spreads import LogSpreads
from strapwright.planning.limits_and_weights.limit_chances import (
    chance_within,
    later_half,
    limits_of,
)
from strapwright.planning.plan import plan
from strapwright.planning.plan_values import Plan, Step
from strapwright.shop_files.reading_job import read_job

HANGER = Path(__file__).parents[2] / "docs" / "examples" / "gangway-rail-bracket.toml"
TIGHT = """[part.tolerance]
class = "m"
takes = 2
[[part.limit]]
bend = 1
angle = 0.5
[[part.limit]]
leg = 3
length = "0.1"

[press]"""


@cache
def bracket() -> Plan:
    text = HANGER.read_text(encoding="utf-8").replace("[press]", TIGHT)
    return plan(read_job(text), search=False)


@pytest.mark.parametrize(
    ("deviations", "chance"), [(1, 0.6827), (1.645, 0.9), (2, 0.9545), (3, 0.9973)]
)
def test_tables_of_the_normal_distribution(deviations: float, chance: float) -> None:
    assert chance_within(deviations, 1.6449) == pytest.approx(chance, abs=1e-4)


def test_what_is_left_of_an_angle_once_the_first_part_was_measured() -> None:
    step = plan_step()
    # Protractor 0.004 rad; stop 0.02 mm at 0.08 rad/mm is 0.0016 rad, of two parts 0.00226; one
    # hundredth of 0.05 rad of springback is 0.0005 rad, of two parts 0.00071.  Together
    # sqrt(0.004^2 + 0.00226^2 + 0.00071^2) = 0.004649 rad, and 1.645 times that 0.00765 rad.
    assert later_half(step, LogSpreads()) == pytest.approx(0.00765, abs=1e-5)
    # Four hits: the stop is met four times, 0.0016 x 2 x 1.414 = 0.00453; the springback is four
    # times as much, 0.00283: sqrt(0.004^2 + 0.00453^2 + 0.00283^2) x 1.645 = 0.01098 rad.
    assert later_half(evolve(step, hits=4), LogSpreads()) == pytest.approx(0.01098, abs=1e-5)


def plan_step() -> Step:
    step = bracket().steps[0]
    return evolve(
        step,
        loaded_angle=1.62,
        free_angle=1.57,
        speed=evolve(step.speed, sensitivity=0.08),
        hits=1,
    )


def test_legs_by_hand() -> None:
    # 6 mm hot-rolled flat: thickness out by 1.645 x 0.018 x 6 = 0.1777 mm, radius by 0.05 x 9 =
    # 0.45 mm, neutral axis by 1.645 x 0.05 x 6 = 0.4935 mm for each radian.
    found = limits_of(bracket())
    made = bracket()
    for bend, leg in ((1, 1), (2, 3)):
        step = next(one for one in made.steps if one.bend == bend)
        turn = made.job.part.bends[bend - 1].angle

        def off(t: float, r: float, k: float, turn: float = turn) -> float:
            # Twice the setback to the outside corner less the arc of the neutral axis.
            return 2 * (r + t) * math.tan(turn / 2) - turn * (r + k * t)

        wrap = step.radii.wrap
        spread = max(
            abs(off(6.1777, wrap, k) - off(6, wrap, k))
            + max(abs(off(6, wrap + s * 0.45, k) - off(6, wrap, k)) for s in (-1, 1))
            for k in (1 / 3, 1 / 2)
        )
        takes_off = math.hypot(spread, 0.4935 * turn)
        # An end leg has half of one bend and one mark, 0.5 mm where the job states none.
        half = math.hypot(takes_off / 2, 0.5)
        chance = found.legs[leg - 1].chance
        assert chance is not None
        assert chance.half == pytest.approx(half, rel=2e-3)
    middle = found.legs[1].chance
    assert middle is not None
    ends = [one.chance.half for one in (found.legs[0], found.legs[2]) if one.chance is not None]
    # The middle leg has half of both bends, two marks, and the cut of 0.4 mm, as it takes what is
    # left.
    bends = sum(math.sqrt(half**2 - 0.5**2) for half in ends)
    assert middle.half == pytest.approx(math.sqrt(bends**2 + 2 * 0.5**2 + 0.4**2), rel=1e-6)


def test_a_nose_off_the_middle_leaves_room_to_one_side_alone() -> None:
    # Half 1.645 is a deviation of 1.  Between -3 and 1 deviations: 0.8413 - 0.0013 by the tables.
    assert chance_within(2.0, 1.6449, 1.0) == pytest.approx(0.8400, abs=1e-4)
    # Past the limit by two deviations, and by six on the other side: 0.0228.
    assert chance_within(2.0, 1.6449, 4.0) == pytest.approx(0.0228, abs=1e-4)
    assert (chance_within(2.0, 0.0, 1.9), chance_within(2.0, 0.0, 2.1)) == (1.0, 0.0)


def test_a_stated_mark_error_and_a_nose_off_the_middle_are_in_the_odds_of_the_legs() -> None:
    made = bracket()
    assert made.job.tooling is not None
    plain = [one.chance for one in limits_of(made).legs]
    tooling = evolve(made.job.tooling, mark_error=3.0)
    lands = (4.0, 9.0, 5.0)
    legs = tuple(evolve(one, lands=off) for one, off in zip(made.legs, lands, strict=True))
    loose = limits_of(evolve(made, job=evolve(made.job, tooling=tooling), legs=legs))
    for leg, (old, off) in enumerate(zip(plain, lands, strict=True)):
        new = loose.legs[leg].chance
        assert old is not None
        assert new is not None
        # Two marks of the middle leg, one of the others: 3 mm for 0.5 mm, by their squares.
        marks = (2 if leg == 1 else 1) * (3.0**2 - 0.5**2)
        assert new.half == pytest.approx(math.sqrt(old.half**2 + marks) + off)
        # Legs within 0.1 to 0.5 mm that lie 4 mm and more off: hardly ever.
        assert new.first < 0.05
        assert new.later < 0.05
    assert limits_of(evolve(made, legs=())).legs[0].chance is None


def test_a_first_part_never_makes_a_chance_worse_and_helps_a_stop_on_a_block() -> None:
    text = HANGER.read_text(encoding="utf-8").replace("[press]", f'{TIGHT}\nstop = "on a block"')
    blocked = plan(read_job(text), search=False)
    for made in (bracket(), blocked):
        for one in (*limits_of(made).legs, *limits_of(made).bends):
            assert one.chance is not None
            assert one.chance.later >= one.chance.first
    bend = limits_of(blocked).bends[0].chance
    assert bend is not None
    # One push to a stop holds half a degree far less often than two with a reading between them.
    staged = limits_of(bracket()).bends[0].chance
    assert staged is not None
    assert bend.first < 0.5
    assert bend.later > 0.85
    assert staged.first > bend.first


def test_nothing_is_proven_of_a_refused_part() -> None:
    # A leg of 24 mm does not reach the shoulder.
    text = HANGER.read_text(encoding="utf-8").replace("[press]", TIGHT)
    near = plan(read_job(text.replace('"110", "up 90"', '"24", "up 90"')), search=False)
    assert any(one.severity.value == "refusal" for one in near.findings)
    found = limits_of(near)
    assert all(one.chance is None for one in (*found.legs, *found.bends))
    assert found.bends[0].within == pytest.approx(math.radians(0.5))
