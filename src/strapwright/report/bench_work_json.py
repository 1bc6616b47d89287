"""Work at the bench after the press, as plain data: lengths in mm."""

from __future__ import annotations

from typing import Any

from strapwright.planning.bench_work.work_values import BenchWork
from strapwright.planning.plan_values import Plan
from strapwright.wording.reader import at_command
from strapwright.wording.steps.bench_work_words import work_words


def bench_work_data(plan: Plan, work: BenchWork) -> dict[str, Any]:
    """Turn one piece of work into plain data.

    Parameters
    ----------
    plan
        Whose work it is.
    work
        One of its ``bench_work``.
    """
    said = work_words(plan, work, at_command(plan.job))
    return {
        "kind": "saw",
        "end": work.end,
        "leg": work.leg,
        "length_mm": work.length,
        "position_mm": work.position,
        "finished_mm": work.finished,
        "title": said.title,
        "text": said.text,
    }
