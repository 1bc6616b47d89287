"""The end stop says the same as the marks: what lies flat is as long as it is on the blank."""

from __future__ import annotations

import pytest

from strapwright.planning.plan import plan
from strapwright.planning.plan_values import Plan, Step
from strapwright.shop_files.reading_job import read_job

INCH = 25.4
JOB = """\
format = 1
units = "inch"
[part]
name = "dock step"
bar = "flat 3/16 x 1-1/2"
material = "1018 HR"
shape = ["8", "up 90", "6", "down 90", "6", "up 90", "8"]
order = {order}
[tooling]
nose = {{ shaft = "3/4", web = {{ thick = "1/2", height = "9" }} }}
shoulders = {{ radius = "3/8", opening = "2-1/4", height = "9", outer_edge = "1-7/8" }}
"""


def made(*order: int) -> tuple[Plan, dict[int, Step]]:
    found = plan(read_job(JOB.format(order=list(order))))
    return found, {step.bend: step for step in found.steps}


def left_of(found: Plan, step: Step) -> float:
    """How far the mark of a bend is from the end that points left [mm]."""
    blank = found.blank
    assert blank is not None
    mark = blank.marks_of(step.bend)[0].nose
    return mark if step.hold.end_left == 1 else blank.length - mark


def test_over_bends_that_are_not_made_yet_the_stop_is_where_the_mark_is() -> None:
    found, steps = made(3, 2, 1)
    for step in steps.values():
        if step.hold.end_left == 1:
            assert step.end_stop == pytest.approx(left_of(found, step), abs=1e-6)
    assert sum(step.hold.end_left == 1 for step in steps.values()) >= 2
    first = steps[3]
    assert first.end_stop == pytest.approx(left_of(found, first), abs=1e-6)


def test_over_made_bends_it_is_their_legs_less_half_of_what_the_bend_takes_off() -> None:
    found, steps = made(1, 2, 3)
    blank = found.blank
    assert blank is not None
    last = steps[3]
    assert last.hold.end_left == 1
    # Leg 3 is 6 in outside when it is done, of which bend 3 takes half of its share; leg 1 goes on
    # beyond leg 2 by 8 in, less the thickness of leg 2 that both count.
    far = (6 + 8 - 3 / 16) * INCH - 0.5 * blank.deductions[2]
    assert last.end_stop == pytest.approx(far, abs=1e-6)


def test_with_an_unmade_bend_on_the_way_its_whole_allowance_lies_between() -> None:
    found, steps = made(1, 3, 2)
    blank = found.blank
    assert blank is not None
    second = steps[3]
    assert second.hold.end_left == 1
    # Mark to mark, and beyond the mark of bend 1 half of what that bend takes off.
    apart = blank.marks_of(3)[0].nose - blank.marks_of(1)[0].nose
    assert second.end_stop == pytest.approx(apart + 0.5 * blank.deductions[0], abs=1e-6)


@pytest.mark.parametrize("turn", ["up 90", "up 110", "up 135", "up 90 radius 2"])
def test_past_a_right_angle_or_beyond_a_series_of_hits_it_stands_at_the_round_of_the_bend(
    turn: str,
) -> None:
    # Leg 2 is measured from the farthest point of that round, 6 in, of which bend 2 takes half of
    # its share.  Where the round of 135 degrees ends it is 0.29 of its outer radius nearer.
    text = JOB.replace(
        '["8", "up 90", "6", "down 90", "6", "up 90", "8"]', f'["5", "{turn}", "6", "down 60", "4"]'
    )
    found = plan(read_job(text.format(order=[1, 2])))
    assert found.blank is not None
    last = found.steps[1]
    assert (last.bend, last.hold.end_left) == (2, 1)
    far = 6 * INCH - 0.5 * found.blank.deductions[1]
    assert last.end_stop == pytest.approx(far, abs=0.01)
