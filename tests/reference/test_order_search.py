"""What the search says beside the order: alternatives, refusals, proof, handling costs."""

from __future__ import annotations

import math
from itertools import count

import numpy as np
import pytest
from attrs import evolve
from order_referee import SETTINGS, random_part, tooling

from strapwright.errors import InputError
from strapwright.ordering.order_search import find_order
from strapwright.ordering.order_values import PartGeometry, Piece, SearchSettings, StepCosts
from strapwright.ordering.refusal_values import Jams, Reason, ShortLeg, SmallRadius, TooShallow


def part_of(straights: tuple[float, ...], degrees: tuple[float, ...]) -> PartGeometry:
    return PartGeometry(
        straights=straights,
        angles=tuple(math.radians(a) for a in degrees),
        radii=(9.5,) * len(degrees),
        thickness=5.0,
    )


ZED = part_of((80.0, 70.0, 80.0), (90.0, -90.0))
LADDER = part_of((70.0, 60.0, 80.0, 50.0, 90.0, 75.0), (30.0, -45.0, 30.0, 60.0, -30.0))


@pytest.mark.parametrize(
    ("half_turn", "cost"),
    [
        # First stop 1; then flip 3 and a moved stop 1 beat flip and swap (3 + 2), after which the
        # symmetric part reaches equally far.
        (None, 5),
        # A half turn lays it with the same reach: first stop 1, half turn 1.
        (1, 2),
    ],
)
def test_a_half_turn_costs_what_the_shop_says(half_turn: int | None, cost: int) -> None:
    settings = evolve(SETTINGS, costs=StepCosts(flip=3, swap=2, stop=1, half_turn=half_turn))
    assert find_order(tooling(), ZED, settings).cost == cost


def test_each_last_bend_has_its_own_best_order_and_the_least_of_them_is_the_answer() -> None:
    result = find_order(tooling(), LADDER, SETTINGS, alternatives=True)
    assert [a.last_bend for a in result.alternatives] == [1, 2, 3, 4, 5]
    costs = [a.cost for a in result.alternatives if a.cost is not None]
    assert min(costs) == result.cost
    for other in result.alternatives:
        assert (other.cost is None) == (other.refusal is not None)
        if other.cost is not None:
            assert other.order[-1] == other.last_bend


@pytest.mark.parametrize("seed", range(8))
def test_without_tables_the_answer_is_the_same(seed: int) -> None:
    part = random_part(np.random.default_rng(500 + seed), 5)
    tabled = find_order(tooling(), part, SETTINGS)
    plain = find_order(tooling(), part, SETTINGS, table_bends=0)
    assert (plain.feasible, plain.cost, plain.proven) == (tabled.feasible, tabled.cost, True)


@pytest.mark.parametrize("looks", [0, 3, 12])
def test_out_of_time_it_gives_an_order_and_does_not_call_it_the_best(looks: int) -> None:
    asked = count()
    best = find_order(tooling(), LADDER, SETTINGS)
    rushed = find_order(tooling(), LADDER, SETTINGS, keep_going=lambda: next(asked) < looks)
    assert best.proven
    assert not rushed.proven
    assert rushed.feasible
    assert (rushed.cost or 0) >= (best.cost or 0)
    assert sorted(s.bend for s in rushed.steps) == [1, 2, 3, 4, 5]


@pytest.mark.parametrize(
    ("part", "changes", "kind", "figure", "value"),
    [
        (part_of((80.0, 80.0), (150.0,)), {"opening": 40.0}, Jams, "had", math.radians(136)),
        (part_of((80.0, 80.0), (90.0,)), {"depth": 20.0}, TooShallow, "had", 20.0),
        (part_of((80.0, 80.0), (90.0,)), {"nose_radius": 12.0}, SmallRadius, "needed", 12.0),
        (part_of((20.0, 80.0), (90.0,)), {}, ShortLeg, "towards", 1),
        # The later bend sees the made one 30 mm off; neither order works.
        (part_of((80.0, 20.0, 80.0), (45.0, -45.0)), {}, ShortLeg, "towards", 2),
    ],
)
def test_what_a_bend_lacks_is_named(
    part: PartGeometry, changes: dict[str, float], kind: type[Reason], figure: str, value: float
) -> None:
    result = find_order(tooling(**changes), part, SETTINGS)
    assert result.proven
    assert not result.feasible
    reason = result.refusals[0].reason
    assert isinstance(reason, kind)
    assert getattr(reason, figure) == pytest.approx(value, abs=math.radians(0.5))


def test_of_two_neighbours_the_one_that_needs_the_longer_leg_comes_first() -> None:
    # By hand, from the middle of a bend: the right angle needs 33.7 mm at 92 deg under load and 3
    # more, the small bend half the opening and 3 more.  Made second, the right angle has
    # 31 + 9.4 mm up to the small bend, which is enough; the small bend has 31 + 1.6, which is not.
    result = find_order(tooling(), part_of((80.0, 31.0, 80.0), (90.0, 15.0)), SETTINGS)
    assert [s.bend for s in result.steps] == [2, 1]


def test_a_piece_beside_the_bar_along_the_nose_is_no_obstacle() -> None:
    part = evolve(part_of((120.0, 120.0), (90.0,)), z=(0.0, 50.0))
    lump = ((60.0, 20.0), (90.0, 20.0), (90.0, 50.0), (60.0, 50.0))
    for z, feasible in (((40.0, 90.0), False), ((50.0, 90.0), True), (None, False)):
        rod = Piece(name="rod", side="shoulders", polygon=lump, z=z)
        assert find_order(tooling(extra=(rod,)), part, SETTINGS).feasible is feasible


@pytest.mark.parametrize(
    ("make", "words"),
    [
        (lambda: SearchSettings(tolerance=2.0), "give a tolerance above 0 and a clearance above"),
        (lambda: StepCosts(flip=-1), "costs: a weight is negative"),
        (lambda: part_of((1.0, 2.0), (180.0,)), "give angles between 0 and 180"),
        (lambda: part_of((1.0,), (90.0,)), "do not form a chain"),
        (
            lambda: Piece(name="x", side="nose", polygon=((0, 0), (9, 0), (1, 1), (0, 9))),
            "piece x: its corners do not form a convex polygon",
        ),
        (lambda: Piece(name="x", side="nose", centre=(0, 0)), "a circle has a positive radius"),
        (
            lambda: find_order(tooling(opening=10.0), ZED, SETTINGS),
            "give an opening above two shoulder radii",
        ),
        (
            lambda: find_order(tooling(), ZED, evolve(SETTINGS, springback=(0.1, 0.1, 0.1))),
            "3 figures for 2 bends",
        ),
    ],
)
def test_what_cannot_be_used_is_refused_with_a_sentence(make: object, words: str) -> None:
    with pytest.raises(InputError) as caught:
        make()  # type: ignore[operator]
    assert words in caught.value.sentence
