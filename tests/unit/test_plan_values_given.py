"""Spreads and handling weights are given to a plan: change one, and the answer moves."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from attrs import evolve

from strapwright.bending.bend_values import Band
from strapwright.bending.shop_spreads import (
    USUAL_SPREADS,
    BarSpread,
    PressSpread,
    ShopSpreads,
    ToolingSpread,
)
from strapwright.ordering.order_values import StepCosts
from strapwright.planning.plan import plan
from strapwright.planning.plan_values import Plan, StepBands
from strapwright.planning.push_further import push_on
from strapwright.shop.job import Job
from strapwright.shop_files.reading_job import read_job
from strapwright.wording.steps.handling_words import handling_words

EXAMPLES = Path(__file__).parents[2] / "docs" / "examples"


def example(name: str) -> Job:
    return read_job((EXAMPLES / f"{name}.toml").read_text(encoding="utf-8"))


def width(band: Band | None) -> float:
    assert band is not None
    return band.high - band.low


def bands(job: Job, spreads: ShopSpreads) -> StepBands:
    return plan(job, search=False, spreads=spreads).steps[0].bands


WIDER: list[tuple[ShopSpreads, Callable[[StepBands], Band | None]]] = [
    (ShopSpreads(bar=BarSpread(hot_rolled=0.036)), lambda one: one.force),
    (ShopSpreads(press=PressSpread(reading=0.15)), lambda one: one.gauge),
    (ShopSpreads(tooling=ToolingSpread(friction=0.09)), lambda one: one.force),
    (ShopSpreads(tooling=ToolingSpread(opening=1.5)), lambda one: one.free_angle),
    (ShopSpreads(protractor=0.03), lambda one: one.staged_angle),
]


@pytest.mark.parametrize(("spreads", "of"), WIDER)
def test_a_wider_spread_widens_the_band_it_bears_on(
    spreads: ShopSpreads, of: Callable[[StepBands], Band | None]
) -> None:
    job = example("pipe-saddle")
    assert width(of(bands(job, spreads))) > 1.02 * width(of(bands(job, USUAL_SPREADS)))


def test_what_a_job_does_not_state_keeps_its_usual_spread() -> None:
    # No certificate and no measured thickness: how well such a statement is known changes nothing.
    job = example("pipe-saddle")
    other = ShopSpreads(bar=BarSpread(certified=0.5, measured=0.5, stated_exponent=0.5))
    assert bands(job, other) == bands(job, USUAL_SPREADS)


def test_the_radius_spread_widens_the_blank() -> None:
    job = example("pipe-saddle")
    known = plan(job, search=False, spreads=ShopSpreads(tooling=ToolingSpread(radius=0.0)))
    assert width(known.length_band) < width(plan(job, search=False).length_band)


def test_a_better_protractor_narrows_the_further_push() -> None:
    step = plan(example("pipe-saddle"), search=False).steps[0]
    stands = 0.9 * step.wanted
    usual, better = push_on(step, stands), push_on(step, stands, protractor=0.0)
    assert better.extra == usual.extra
    assert better.high - better.low < usual.high - usual.low


def test_a_spread_is_never_negative() -> None:
    with pytest.raises(ValueError, match="'friction' must be >= 0"):
        ToolingSpread(friction=-0.01)


def cost(made: Plan) -> int:
    assert made.handling is not None
    assert made.handling.cost is not None
    return made.handling.cost


def test_handling_is_counted_in_the_weights_of_the_shop() -> None:
    job = example("ladder-stand-off")
    usual = plan(job)
    tenfold = plan(job, weights=StepCosts(flip=30, swap=20, stop=10, pick=10))
    # Only how the weights stand to each other decides, so the order stays and all sums grow alike.
    assert [step.bend for step in tenfold.steps] == [step.bend for step in usual.steps]
    assert cost(tenfold) == 10 * cost(usual) > 0
    assert usual.handling is not None
    assert tenfold.handling is not None
    for way in ("part_by_part", "bend_by_bend"):
        assert getattr(tenfold.handling, way) == 10 * getattr(usual.handling, way)
    said = handling_words(tenfold.handling)
    assert "turning the bar over takes 3, swapping ends 2, moving the end stop 1)" in said


def test_taking_in_hand_again_speaks_against_bend_by_bend() -> None:
    job = example("ladder-stand-off")
    job = evolve(job, part=evolve(job.part, quantity=10))
    free, dear = (plan(job, weights=StepCosts(pick=pick)).handling for pick in (0, 100))
    assert free is not None
    assert dear is not None
    assert free.part_by_part == dear.part_by_part
    assert free.bend_by_bend is not None
    assert dear.bend_by_bend is not None
    # One hundred for every part and every bend but the first.
    assert dear.bend_by_bend - free.bend_by_bend == 100 * 10 * (len(job.part.bends) - 1)
