"""A plan with what the bench does after the press: the part is planned as the press leaves it."""

from __future__ import annotations

from functools import partial

from attrs import evolve

from strapwright.blank.trimmed_ends import is_trimmed, left_long
from strapwright.planning.bench_work.closing import closed_after, part_way_job
from strapwright.planning.bench_work.sawing import sawn_off
from strapwright.planning.bench_work.second_strokes import (
    AtPress,
    on_its_tooling,
    second_strokes,
)
from strapwright.planning.bench_work.twisting import twisted
from strapwright.planning.bench_work.work_values import Drilling
from strapwright.planning.plan_values import Plan
from strapwright.planning.several_toolings.tool_uses import sighted_by_own
from strapwright.shop.job import Job


def with_bench_work(job: Job, at_press: AtPress, unordered: AtPress) -> Plan:
    """Plan the part as the press makes it, then what the bench makes of it.

    Parameters
    ----------
    job
        As stated.
    at_press
        Plans a part that the press finishes; with ``again`` one of its bends is pushed on last.
    unordered
        The same, without looking for its order.

    Raises
    ------
    InputError
        As the plan at the press does.
    """
    made = _worked(job, at_press, unordered)
    if made.blank is None:
        return made
    drilled = tuple(
        Drilling(
            hole=hole.hole,
            place=job.part.holes[hole.hole - 1],
            near=hole.bend,
            away=hole.edge_to_zone,
        )
        for hole in made.blank.holes
        if hole.after
    )
    return evolve(made, bench_work=(*made.bench_work, *drilled))


def _worked(job: Job, at_press: AtPress, unordered: AtPress) -> Plan:
    """Plan the part with its bends finished, its legs twisted and its ends sawn off."""
    if is_trimmed(job.part):
        long = evolve(job, part=left_long(job.part))
        return sawn_off(_worked(long, at_press, unordered), job.part)
    if job.part.twists:
        return twisted(job, lambda flat: _worked(flat, at_press, unordered), unordered)
    if job.part.finishes:
        return _finished(job, at_press, unordered)
    return at_press(job)


def _finished(job: Job, at_press: AtPress, unordered: AtPress) -> Plan:
    """Plan the part with some of its bends made part of the way first."""
    again = [one for one in job.part.finishes if one.by == "tooling"]
    # A bend ends as the tooling leaves it that finishes it.
    others = on_its_tooling(job, again)
    whole = unordered(evolve(job, part=evolve(job.part, finishes=(), others=others)))
    pressed = at_press(part_way_job(whole, job, unordered))
    if not again or not pressed.steps:
        return closed_after(whole, pressed, job)
    if whole.blank is not None:  # it is laid in for its first stroke by a sight line
        whole = evolve(whole, blank=sighted_by_own(whole.blank, job))
    placed = partial(part_way_job, whole, job, unordered)
    strokes, remarks = second_strokes(pressed, job, placed, at_press, unordered)
    return closed_after(whole, pressed, job, strokes, remarks)
