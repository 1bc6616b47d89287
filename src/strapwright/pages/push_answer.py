"""What a bend's page answers when the angle is typed at which the bend stands."""

from __future__ import annotations

import math

from strapwright.bending.bend_values import Band
from strapwright.errors import InputError
from strapwright.motion.refused_bends import has_no_stop
from strapwright.pages.page_statements import told
from strapwright.planning.plan_values import Plan, Step
from strapwright.planning.push_further import push_on
from strapwright.quantities import read_angle
from strapwright.wording.caution_words import READ_LOADED
from strapwright.wording.figures import figures_for
from strapwright.wording.refused_words import NO_STOP
from strapwright.wording.relief_words import push_limits

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
    show = figures_for(made.job)
    try:
        now = math.radians(float(read_angle(stands[:_LONGEST], "stands")))
        push = push_on(step, now)
    except InputError as error:
        return "", told(error)
    band = Band(low=push.low, high=push.high)
    further = (
        f"Push {show.setting(push.extra)} further than before, "
        f"{show.between(band, 'mm')}. It then stands at {show.angle(push.loaded)} under the ram; "
        f"{READ_LOADED}. Let off and read again before you push once more. "
        f"{push_limits(step, show)}"
    )
    return further, ""
