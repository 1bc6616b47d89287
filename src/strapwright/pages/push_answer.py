"""What a bend's page answers when the angle is typed at which the bend stands."""

from __future__ import annotations

import math

from strapwright.errors import InputError
from strapwright.motion.refused_bends import has_no_stop
from strapwright.pages.page_statements import on_page, told
from strapwright.planning.bench_work.opening_a_bend import open_bend
from strapwright.planning.plan_values import Plan, Step
from strapwright.planning.push_further import push_on, stroke_at
from strapwright.quantities import read_angle
from strapwright.wording.at_bench.opening_words import opening_words
from strapwright.wording.at_bench.second_stroke_words import only_there
from strapwright.wording.refused_words import NO_STOP
from strapwright.wording.relief_words import push_limits
from strapwright.wording.steps.staged_words import further_words

_LONGEST = 40  # characters of an angle


def push_answer(made: Plan, step: Step, stands: str) -> tuple[str, str]:
    """Return how much more to push as a sentence, and what is wrong with what was typed.

    Parameters
    ----------
    made, step
        The plan and the bend.
    stands
        The angle as typed; where nothing is typed, nothing is answered.
    """
    if not stands.strip():
        return "", ""
    if has_no_stop(made, step):
        return "", NO_STOP
    try:
        now = math.radians(float(read_angle(stands[:_LONGEST], "stands")))
        made, step, tooling = stroke_at(made, step, now)
        if now > step.wanted:
            opening = open_bend(made, step, now, step.wanted)
            return " ".join(opening_words(opening, on_page(made.job))), ""
        push = push_on(step, now)
    except InputError as error:
        return "", told(error)
    reader = on_page(made.job)
    said = further_words(push, reader)
    limits = push_limits(step, reader.figures)
    there = [only_there(tooling)] if tooling else []
    return " ".join([said.push, *there, said.stands, said.again, limits]), ""
