"""The search against a walk through all orders and ends; single steps against dense sampling.

More parts: ``python benchmarks/order_exhaustive.py --parts 500 --bends 6``.
"""

from __future__ import annotations

import math

import numpy as np
import pytest
from order_referee import SETTINGS, Referee, Step, cheapest, random_part, tooling

from strapwright.errors import InputError
from strapwright.ordering.nearest_piece import nearest_piece
from strapwright.ordering.order_search import find_order
from strapwright.ordering.order_values import PartGeometry, Piece, SearchSettings, ToolSection
from strapwright.ordering.possible_bends import Steps
from strapwright.ordering.refusal_values import Hits, StaysOn, TooNear

RAIL = Piece(
    name="rail",
    side="shoulders",
    polygon=((-160.0, -60.0), (-120.0, -60.0), (-120.0, -8.0), (-160.0, -8.0)),
)
TOOLINGS = [tooling(), tooling(extra=(RAIL,))]


def plain(steps: Steps, step: Step) -> bool:
    made, bend, _ = step
    return steps.clear(*step) and not steps.meets_itself(made, bend)


@pytest.mark.parametrize("seed", range(16))
def test_the_cost_found_is_the_least_of_all_orders(seed: int) -> None:
    rng = np.random.default_rng(seed)
    section = TOOLINGS[seed % 2]
    part = random_part(rng, 3 + seed % 3)
    steps = Steps(section, part, SETTINGS)
    result = find_order(section, part, SETTINGS)
    assert result.proven
    assert result.cost == cheapest(
        part, SETTINGS, lambda s: plain(steps, s), lambda s: steps.reach(*s)
    )
    assert result.feasible == (result.cost is not None)
    assert bool(result.refusals) != result.feasible
    if result.feasible:
        assert sum(s.cost for s in result.steps) == result.cost
        assert sorted(s.bend for s in result.steps) == list(range(1, part.bends + 1))


@pytest.mark.parametrize("seed", range(16))
def test_steps_refused_from_outside_are_worked_around_at_least_cost(seed: int) -> None:
    rng = np.random.default_rng(100 + seed)
    part = PartGeometry(
        straights=(60.0,) * 6,
        angles=tuple(math.radians(v) for v in rng.choice([-45.0, -30.0, 30.0, 45.0], 5)),
        radii=(9.5,) * 5,
        thickness=5.0,
    )
    section = TOOLINGS[seed % 2]
    share = rng.uniform(0.2, 0.7)
    forbidden = {
        (made, bend, end)
        for made in range(32)
        for bend in range(5)
        for end in (0, 1)
        if rng.random() < share
    }

    def refuse(bend: int, end_left: int, made: tuple[int, ...]) -> StaysOn | None:
        state = (sum(1 << (b - 1) for b in made), bend - 1, end_left - 1)
        return StaysOn() if state in forbidden else None

    steps = Steps(section, part, SETTINGS)
    result = find_order(section, part, SETTINGS, refuse=refuse)
    assert result.proven
    assert result.cost == cheapest(
        part,
        SETTINGS,
        lambda s: s not in forbidden and plain(steps, s),
        lambda s: steps.reach(*s),
    )


@pytest.mark.parametrize("seed", range(8))
def test_single_steps_agree_with_densely_sampled_polygons(seed: int) -> None:
    rng = np.random.default_rng(300 + seed)
    section = TOOLINGS[seed % 2]
    part = random_part(rng, 4)
    steps = Steps(section, part, SETTINGS)
    referee = Referee(section, part, SETTINGS)
    for _ in range(4):
        bend = int(rng.integers(4))
        made = int(rng.integers(16) | rng.integers(16)) & ~(1 << bend)
        end = int(rng.integers(2))
        if steps.lacks[bend] is not None or any(
            steps.rows(made, bend, w)[1, 1] < steps.strokes[bend].needed for w in (0, 1)
        ):
            continue
        sampled = referee.distance((made, bend, end))
        if steps.clear(made, bend, end):
            assert sampled >= SETTINGS.clearance - SETTINGS.tolerance
            stated, _ = nearest_piece(steps, made, bend, end)
            # Between samples the part may come nearer, by 300 mm/rad over half a spacing.
            assert sampled - 5.0 <= stated <= sampled + 0.02
        else:
            assert sampled < SETTINGS.clearance + 5.0


def one_bend(rod: tuple[float, float, float] | None) -> tuple[ToolSection, PartGeometry]:
    part = PartGeometry(
        straights=(200.0, 200.0), angles=(math.radians(90.0),), radii=(9.5,), thickness=5.0
    )
    extra = (
        () if rod is None else (Piece(name="rod", side="shoulders", centre=rod[:2], radius=rod[2]),)
    )
    return tooling(extra=extra), part


def test_a_wing_that_swings_through_a_thin_rod_is_refused_though_both_ends_are_clear() -> None:
    # By hand: at a bend angle of 60 deg the right wing rises at 30 deg; its neutral line passes
    # (x, y) with the arc's centre at y = -6 + (20.5 - 31.5 sin 30)/cos 30 and the run tangent to
    # the 12 mm circle about it.  The rod stands on it, 100 mm out, and is thinner than the bar.
    phi = math.radians(30.0)
    centre = -6.0 + (20.5 - 31.5 * math.sin(phi)) / math.cos(phi)
    x = 12.0 * math.sin(phi) + 100.0 * math.cos(phi)
    y = centre - 12.0 * math.cos(phi) + 100.0 * math.sin(phi)
    result = find_order(*one_bend((x, y, 0.5)), SETTINGS)
    assert result.proven
    assert not result.feasible
    refusal = result.refusals[0]
    assert isinstance(refusal.reason, Hits)
    assert refusal.reason.piece.name == "rod"
    # First contact comes a little before the wing's middle gets there: 4.5 mm + 0.5 mm of 90 mm.
    assert math.radians(60.0) - 0.13 < refusal.reason.angle < math.radians(60.0)


def test_a_rod_out_of_reach_does_not_matter() -> None:
    free = find_order(*one_bend(None), SETTINGS)
    beyond = find_order(*one_bend((250.0, 150.0, 0.5)), SETTINGS)
    assert free.feasible
    assert beyond.feasible
    assert beyond.cost == free.cost == SETTINGS.costs.stop


@pytest.mark.parametrize(
    "corners",
    [
        ((100.0, 0.5), (101.0, 0.5), (101.0, 1.0), (100.0, 1.0)),  # wholly inside the bar
        ((-500.0, -300.0), (500.0, -300.0), (500.0, 500.0), (-500.0, 500.0)),  # the bar inside it
    ],
)
def test_overlap_counts_as_a_hit_where_a_distance_can_only_be_zero(
    corners: tuple[tuple[float, float], ...],
) -> None:
    _, part = one_bend(None)
    inside = Piece(name="lump", side="shoulders", polygon=corners)
    result = find_order(tooling(extra=(inside,)), part, SETTINGS)
    assert not result.feasible
    reason = result.refusals[0].reason
    assert isinstance(reason, Hits | TooNear)
    assert reason.piece is not None
    assert reason.piece.name == "lump"


def test_ends_that_overlap_are_refused() -> None:
    # By hand: a square of 100 mm sides closed at mid side; its end legs together are 2 mm longer
    # than the side, so they would stand in each other.
    ring = PartGeometry(
        straights=(51.0, 100.0, 100.0, 100.0, 51.0),
        angles=(math.radians(90.0),) * 4,
        radii=(9.5,) * 4,
        thickness=5.0,
    )
    result = find_order(tooling(), ring, SETTINGS)
    assert result.proven
    assert not result.feasible
    assert result.closes_on_itself


def test_a_clearance_that_every_distance_keeps_is_no_clearance() -> None:
    with pytest.raises(InputError, match=r"settings\.clearance: clearance 0 mm"):
        SearchSettings(clearance=0.0)
