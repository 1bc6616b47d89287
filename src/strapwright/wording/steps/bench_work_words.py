"""Words for what is done to a part at the bench after the press."""

from __future__ import annotations

from attrs import frozen

from strapwright.planning.bench_work.work_values import BenchWork, Sawing
from strapwright.planning.plan_values import Plan
from strapwright.wording.blank_words import how_measured
from strapwright.wording.reader import Reader

HEAD = "At the bench, after the last bend"


@frozen(kw_only=True)
class WorkWords:
    """One piece of work at the bench in words.

    Attributes
    ----------
    title
        What is done, to which end or bend.
    text
        How, with its figures.
    """

    title: str
    text: str


def bench_work_words(plan: Plan, reader: Reader) -> tuple[WorkWords, ...]:
    """Say what is done at the bench, in order.

    Parameters
    ----------
    plan
        As planned.
    reader
        Who reads it.
    """
    return tuple(work_words(plan, one, reader) for one in plan.bench_work)


def work_words(plan: Plan, work: BenchWork, reader: Reader) -> WorkWords:
    """Say one piece of work at the bench."""
    return _sawing(plan, work, reader)


def saw_words(end: int, position: float, reader: Reader) -> str:
    """Say where an end is sawn off, as a mark of the flat blank."""
    return f"saw line at end {end}: {reader.figures.on_bar(position)}, after bending"


def _sawing(plan: Plan, work: Sawing, reader: Reader) -> WorkWords:
    show = reader.figures
    return WorkWords(
        title=f"Saw end {work.end} to length",
        text=f"Saw off {show.on_bar(work.length)}, along the saw line "
        f"{show.on_bar(work.position)} from end 1 of the flat blank. Leg {work.leg} then measures "
        f"{show.on_bar(work.finished)} {how_measured(plan.job.part)}.",
    )
