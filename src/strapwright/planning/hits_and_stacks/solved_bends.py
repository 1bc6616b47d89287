"""Every bend of a job solved: of a row one hit, of a stack every bar."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial

from attrs import evolve

from strapwright.bending.bend_values import BendSetup
from strapwright.bending.shop_spreads import ShopSpreads
from strapwright.blank.hit_spacing import Row
from strapwright.errors import BendAt
from strapwright.planning.bend_setups import Known, bend_setup, spreads_of
from strapwright.planning.from_the_log.learned_job import LearnedJob
from strapwright.planning.from_the_log.pushed_bend import PushedBend
from strapwright.planning.hits_and_stacks.stacked_bars import Outer, stack_of, with_stack
from strapwright.planning.jammed_bends import as_far_as_it_goes
from strapwright.planning.made_bend import JamsError, MadeBend, make_bend
from strapwright.shop.job import Job

KeepGoing = Callable[[], bool]
Solved = tuple[MadeBend, tuple[Outer, ...]]


def make_all(
    job: Job,
    known: Known,
    rows: Sequence[Row | None],
    *,
    spreads: ShopSpreads,
    keep_going: KeepGoing,
    learned: LearnedJob | None,
) -> tuple[list[Solved], dict[int, JamsError]]:
    """Solve every bend on its tooling, of a row one hit; those of one angle are solved once.

    A bend that jams is solved as far as it goes and told.
    """
    toolings = job.toolings()
    solved: dict[tuple[int, float, bool], Solved] = {}
    jammed: dict[tuple[int, float, bool], JamsError] = {}
    jams: dict[int, JamsError] = {}
    made = []
    for number, (bend, row) in enumerate(zip(job.part.bends, rows, strict=True), start=1):
        angle = bend.angle if row is None else row.angle
        where, tool = BendAt(number), job.part.tool_of(number)
        key, tooling = (tool, angle, row is None), toolings[tool]
        # What the log taught is of the job's own tooling.
        taught = learned if tool == 0 else None
        if key not in solved:
            setup = bend_setup(job, known, tooling)
            keep_going()  # a bend is needed either way; only what it raises ends this
            stack = stack_of(setup, job.part.stacked, angle, where)
            inner = setup if stack is None else stack.inner
            spread = spreads_of(_seen_by(job, inner), known, tooling, spreads)
            if taught is not None:
                hits = 1 if row is None else row.hits
                inner, spread = taught.bend(
                    PushedBend(setup=inner, spreads=spread, angle=angle, hits=hits, stack=stack)
                )
            make = partial(
                make_bend, inner, spreads=spread, shoulders=tooling.shoulders, where=where
            )
            try:
                one = make(angle)
            except JamsError as error:
                one, jammed[key] = as_far_as_it_goes(error, make), error
            if stack is not None:
                one = with_stack(one, stack, setup.give)
            elif taught is not None and row is None and job.blank.method == "strain":
                one = taught.allowed(one)
            solved[key] = (one, () if stack is None else stack.outers)
        made.append(solved[key])
        if key in jammed:
            jams[number - 1] = jammed[key]
    return made, jams


def _seen_by(job: Job, inner: BendSetup) -> Job:
    """The job with the give of the machine as the bar at the nose of a stack sees it."""
    press = job.press
    return job if press is None else evolve(job, press=evolve(press, give=inner.give))
