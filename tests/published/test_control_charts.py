"""Control charts against published factors, a worked example and run lengths."""

from __future__ import annotations

import math

import numpy as np
import pytest

from strapwright.learning.control_chart import D2, D4, INDIVIDUALS, chart, first_off, shift


def test_the_factors_are_those_of_ranges_of_two() -> None:
    # The range of two normal values is |N(0, 2)|: mean 2/sqrt(pi), deviation sqrt(2 - 4/pi).
    mean, deviation = 2.0 / math.sqrt(math.pi), math.sqrt(2.0 - 4.0 / math.pi)
    assert pytest.approx(mean, abs=5e-4) == D2
    assert pytest.approx(1.0 + 3.0 * deviation / mean, abs=1e-3) == D4
    assert pytest.approx(3.0 / mean, abs=2e-3) == INDIVIDUALS


def test_a_worked_example_of_flow_rates() -> None:
    # NIST/SEMATECH e-Handbook, 6.3.2.2: batches of 49.6 to 51.3, mean 50.81, mean range 1.8778,
    # limits 45.8 and 55.8 (from memory, its ten values typed in).
    values = [49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1]
    found = chart(values)
    assert found is not None
    assert found.centre == pytest.approx(50.81, abs=0.005)
    assert found.mean_range == pytest.approx(1.8778, abs=5e-4)
    assert (found.low, found.high) == pytest.approx((45.81, 55.80), abs=0.02)
    assert found.range_high == pytest.approx(3.267 * 1.8778, abs=0.01)
    assert found.marked == ()


def run_length(rng: np.random.Generator, moved: float) -> int:
    values = rng.standard_normal(4000) + moved
    found = shift(list(values), 0.0, 1.0)
    return 4000 if found is None else found.seen + 1


# Average run lengths of a cumulative sum with allowance 0.5 and limit 5 deviations: Montgomery,
# Introduction to Statistical Quality Control, table of tabular cusum (from memory).
@pytest.mark.parametrize(
    ("moved", "published", "runs", "within"),
    [(0.0, 465.0, 120, 0.25), (1.0, 10.4, 400, 0.08), (2.0, 4.01, 400, 0.05)],
)
def test_false_alarms_and_delay_are_as_published(
    moved: float, published: float, runs: int, within: float
) -> None:
    rng = np.random.default_rng(5)
    mean = np.mean([run_length(rng, moved) for _ in range(runs)])
    assert mean == pytest.approx(published, rel=within)


def test_a_shift_is_dated_and_sized() -> None:
    rng = np.random.default_rng(3)
    values = np.concatenate([rng.normal(90.0, 0.25, 12), rng.normal(90.8, 0.25, 6)])
    found = shift(list(values), 90.0, 0.25)
    assert found is not None
    assert 11 <= found.since <= 13
    assert found.seen <= 15
    assert found.size == pytest.approx(0.8, abs=0.3)
    back = shift([180.0 - value for value in values], 90.0, 0.25)
    assert back is not None
    assert back.size == pytest.approx(-found.size)


def test_a_wild_piece_a_jump_and_a_run_are_marked() -> None:
    wild = chart([90.0, 90.1, 89.9, 90.05, 92.5, 90.0, 89.95, 90.1, 90.0, 89.9])
    assert wild is not None
    assert (4, "beyond the limits") in wild.marked
    run = chart([89.8, 89.9, 89.7, 89.8, *[90.2, 90.3] * 4])
    assert run is not None
    assert run.marked[-1] == (11, "run on one side")
    assert chart([90.0]) is None


@pytest.mark.parametrize(
    ("measured", "verdict"),
    [
        (90.0, "approved"),
        (90.6, "approved"),
        (90.7, "too close to tell"),
        (88.7, "too close to tell"),
        (88.5, "not approved"),
    ],
)
def test_the_first_piece_is_judged_with_how_well_it_was_measured(
    measured: float, verdict: str
) -> None:
    assert first_off(measured, 90.0, 1.0, 0.38) == verdict


def test_parts_that_read_alike_break_no_rule() -> None:
    # The mean of equal figures rounds to beside them: three times 0.1 over three is not 0.1.
    beside = 0
    for value in (0.1, math.radians(45.1), math.radians(44.8), 3.3):
        for count in range(2, 15):
            found = chart([value] * count)
            assert found is not None
            assert found.marked == ()
            beside += found.centre != value
    assert beside > 0


def test_eight_or_more_in_a_row_on_one_side_are_marked_from_the_eighth_on() -> None:
    # Western Electric, Statistical Quality Control Handbook (1956), test 4: eight successive
    # points on one side of the centreline (from memory).  Mean 0; seven above are no run.
    above = [0.1, 0.9, 0.2, 0.8, 0.3, 0.7, 0.2, 0.9, 0.1]
    found = chart([*above, *(-one for one in above)])
    assert found is not None
    assert [place for place, rule in found.marked if rule == "run on one side"] == [7, 8, 16, 17]
    seven = chart([*above[:7], *(-one for one in above[:7])])
    assert seven is not None
    assert not [place for place, rule in seven.marked if rule == "run on one side"]
