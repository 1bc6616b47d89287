"""A search that runs out of time says so; it never passes for a proof."""

from __future__ import annotations

from pathlib import Path

from strapwright.planning import plan
from strapwright.service.load_job import load_job
from strapwright.service.search_clock import within

EXAMPLES = Path(__file__).parents[2] / "docs" / "examples"


def test_the_question_says_no_once_the_time_is_up() -> None:
    assert within(3600.0)()
    assert not within(-1.0)()


def test_a_plan_out_of_time_says_nothing_false() -> None:
    """The box is locked on once its end legs are longer: out of time that is not decided."""
    job = load_job(EXAMPLES / "winch-drum-ring.toml")
    decided = plan(job)
    hurried = plan(job, keep_going=within(-1.0))
    assert decided.steps[-1].coming_off is not None
    assert decided.steps[-1].coming_off.verdict == "locked on"
    for step in hurried.steps:
        free = step.coming_off is not None and step.coming_off.verdict == "free"
        same = [one for one in decided.steps if one.bend == step.bend and one.order == step.order]
        if free and same:
            assert same[0].coming_off is not None
            assert same[0].coming_off.verdict == "free"
