"""Handling of a part with bends that are pushed on after the last one."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from attrs import evolve

from strapwright.planning.limits_and_weights.handling_values import Handling
from strapwright.planning.plan_values import Plan, SecondStroke


def with_second_strokes(pressed: Plan, strokes: Sequence[SecondStroke]) -> Handling | None:
    """Return the handling of a plan with that of its second strokes.

    Changes of tooling are paid once a part where parts are finished one by one, and once for all
    parts where all are given one bend before the next; turning and taking again are paid a part.

    Parameters
    ----------
    pressed, strokes
        Plan of the first strokes, and the second ones in order.
    """
    handling = pressed.handling
    if handling is None or not strokes:
        return handling
    more = evolve(handling, bends=handling.bends + len(strokes), tool_change=handling.weights.tool)
    by_part, by_bend = handling.part_by_part, handling.bend_by_bend
    if handling.cost is None or by_part is None or by_bend is None:
        return more
    weights, parts = handling.weights, handling.parts
    holds = [step.hold for step in (pressed.steps[-1], *(one.step for one in strokes))]
    turns = sum(
        weights.move(flip=a.face != b.face, swap=a.end_left != b.end_left)
        for a, b in pairwise(holds)
    )
    changes = weights.tool * sum(one.changed for one in strokes)
    return evolve(
        more,
        cost=handling.cost + turns + changes,
        part_by_part=by_part + parts * (turns + changes),
        bend_by_bend=by_bend + changes + parts * (turns + weights.pick * len(strokes)),
    )
