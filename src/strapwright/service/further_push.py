"""A bend stands short: how much further to push, as a difference from the last push."""

from __future__ import annotations

import math
import textwrap
from typing import Any

from attrs import frozen

from strapwright.errors import InputError
from strapwright.motion.refused_bends import has_no_stop
from strapwright.planning.bench_work.opening_a_bend import Opening, open_bend
from strapwright.planning.plan_values import Plan, Step
from strapwright.planning.push_further import Push, push_on, stroke_at
from strapwright.quantities import Units
from strapwright.shop_files.quantity_fields import ANGLE, LENGTH, PI, exact, quantity
from strapwright.shop_files.toml_table import Table
from strapwright.wording.at_bench.opening_words import opening_words
from strapwright.wording.at_bench.second_stroke_words import only_there
from strapwright.wording.figures import Figures, figures_for
from strapwright.wording.reader import Reader
from strapwright.wording.relief_words import push_limits
from strapwright.wording.steps.staged_words import further_words

WIDTH = 88  # columns


@frozen(kw_only=True)
class Further:
    """How much more to push.

    Attributes
    ----------
    stands, wanted
        Free angles [rad].
    push
        Beyond the last push [mm].
    pushed
        Last push as told, ``None`` where not [mm].
    limits
        How far it may be pushed, whatever it measures.
    tooling
        That a bend is pushed on in, where another began it; else empty.
    """

    units: Units
    bend: int
    stands: float
    wanted: float
    push: Push
    pushed: float | None
    limits: str
    tooling: str = ""


def push_further(
    made: Plan, bend: int, *, stands: str, wanted: str | None, pushed: str | None
) -> Further | Opening:
    """Work out the further push for a bend of a job.

    Parameters
    ----------
    made
        The job, planned.
    bend
        Its number along the bar, from 1.
    stands, wanted, pushed
        As typed; ``wanted`` is the job's angle where ``None``.

    Returns
    -------
    Further or Opening
        A push with its band, or how a bend is opened that measures too much.

    Raises
    ------
    InputError
        If something cannot be read, there is no such bend, the job has no tooling, the angle
        cannot be reached, or a bend that measures too much must not be opened.
    """
    typed = {"--stands": stands, "--wanted": wanted, "--pushed": pushed}
    given = {name: text for name, text in typed.items() if text is not None}
    step = _step(made, bend)
    table = Table(data=given, path="", units=made.job.units, lines={})
    # Without springback out of the way a bend may stand at 0: that is still a reading.
    now = float(exact(table, "--stands", stands, ANGLE, zero=True) * PI / 180)
    planned, begun = made, step
    made, step, tooling = stroke_at(made, step, now)
    if has_no_stop(planned, begun):
        raise InputError(
            f"bend {bend}",
            "this bend cannot be made as entered, so there is no push to add to",
            "plan the job again and fix what it refuses first",
        )
    aim = quantity(table, "--wanted", ANGLE)
    target = step.wanted if aim is None else math.radians(aim)
    if now == target:
        raise InputError(
            "--stands",
            f"it already measures {math.degrees(target):.4g}°",
            "there is nothing to push",
            value=stands,
        )
    if now > target:
        return open_bend(made, step, now, target)
    return Further(
        units=made.job.units,
        bend=bend,
        stands=now,
        wanted=target,
        push=push_on(step, now, target),
        pushed=quantity(table, "--pushed", LENGTH),
        limits=push_limits(step, figures_for(made.job)),
        tooling=tooling,
    )


def _step(made: Plan, bend: int) -> Step:
    for step in made.steps:
        if step.bend == bend:
            return step
    count = len(made.job.part.bends)
    if 1 <= bend <= count:
        raise InputError(
            "--bend",
            "this bend has no stroke in the plan",
            "see strapwright plan for the reason",
            value=str(bend),
        )
    raise InputError(
        "--bend", "there is no such bend", f"give a number from 1 to {count}", value=str(bend)
    )


def opening_to_data(found: Opening) -> dict[str, Any]:
    """Turn how a bend is opened into plain data: mm, degrees, N, MPa."""
    press = found.press
    return {
        "format": 1,
        "bend": found.bend,
        "stands_deg": math.degrees(found.stands),
        "wanted_deg": math.degrees(found.wanted),
        "open_deg": math.degrees(found.stands - found.wanted),
        "first_deg": math.degrees(found.first),
        "springs_back_deg": {"low": math.degrees(found.least), "high": math.degrees(found.most)},
        "arm_mm": found.arm,
        "force_N": found.force,
        "press": None
        if press is None
        else {"travel_mm": press.travel, "force_N": press.force, "gauge_MPa": press.gauge},
    }


def opening_to_text(found: Opening, units: Units) -> str:
    """Write how a bend is opened in a few sentences."""
    show = Figures(units=units, reading="decimal" if units == "inch" else "mm")
    stands, wanted = show.angle(found.stands), show.angle(found.wanted)
    head = f"Bend {found.bend} measures {stands} and should be {wanted}."
    lines = [head, *opening_words(found, Reader(figures=show))]
    return "".join(f"{line}\n" for text in lines for line in textwrap.wrap(text, WIDTH))


def further_to_data(found: Further) -> dict[str, Any]:
    """Turn the answer into plain data: mm and degrees."""
    push = found.push
    return {
        "format": 1,
        "bend": found.bend,
        "tooling": found.tooling or None,
        "stands_deg": math.degrees(found.stands),
        "wanted_deg": math.degrees(found.wanted),
        "extra_mm": push.extra,
        "low_mm": push.low,
        "high_mm": push.high,
        "loaded_angle_deg": math.degrees(push.loaded),
        "limits": found.limits,
        "to_travel_mm": None if found.pushed is None else found.pushed + push.extra,
    }


def further_to_text(found: Further) -> str:
    """Write the answer in a few sentences, the limits last."""
    show = Figures(units=found.units, reading="decimal" if found.units == "inch" else "mm")
    said = further_words(found.push, Reader(figures=show))
    stands, wanted = show.angle(found.stands), show.angle(found.wanted)
    lines = [
        f"Bend {found.bend} measures {stands} and should be {wanted}.",
        said.push,
    ]
    if found.tooling:
        lines += textwrap.wrap(only_there(found.tooling), WIDTH)
    lines.append(said.stands)
    if found.pushed is not None:
        reached = show.setting(found.pushed + found.push.extra)
        lines.append(f"That is {reached} from the first contact you counted from.")
    lines.append(said.again)
    lines += textwrap.wrap(found.limits, WIDTH)
    return "\n".join(lines) + "\n"
