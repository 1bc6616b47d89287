"""Work at the bench after the press, as a page lists it."""

from __future__ import annotations

from strapwright.pages.page_statements import on_page
from strapwright.planning.plan_values import Plan, Step
from strapwright.wording.steps.bench_work_words import (
    bench_head,
    bench_work_words,
    saw_words,
    twist_words,
)
from strapwright.wording.steps.step_words import bend_name, tooling_words


def work_head(made: Plan) -> str:
    """Heading of that work.

    Parameters
    ----------
    made
        The plan.
    """
    return bench_head(made)


def work_lines(made: Plan) -> tuple[tuple[str, str], ...]:
    """Title and sentences of each piece of work, in order.

    Parameters
    ----------
    made
        The plan.
    """
    return tuple((one.title, one.text) for one in bench_work_words(made, on_page(made.job)))


def saw_lines(made: Plan) -> tuple[str, ...]:
    """Where the ends of the blank are sawn off after bending, and where it is twisted.

    Parameters
    ----------
    made
        The plan.
    """
    if made.blank is None:
        return ()
    reader = on_page(made.job)
    return (
        *(saw_words(saw.end, saw.position, reader) for saw in made.blank.saws),
        *(twist_words(one.leg, one.begin, one.end, reader) for one in made.blank.twists),
    )


def bend_lines(made: Plan, step: Step) -> dict[str, str]:
    """What is done beside the push of a bend: tooling to put in, and what is left for later.

    Parameters
    ----------
    made
        The plan.
    step
        One of its steps.
    """
    reader = on_page(made.job)
    return {
        "tool_change": tooling_words(made, step, reader),
        "left_for_later": bend_name(made, step, reader).hits.removeprefix(",").strip(),
    }
