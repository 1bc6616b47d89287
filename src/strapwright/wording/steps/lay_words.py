"""How the bar is laid in for a bend, in words: the roll, what to do with it, the marks to set."""

from __future__ import annotations

import math

from strapwright.midline.pose_values import End
from strapwright.planning.plan_values import Plan, Step
from strapwright.shop.part import Part
from strapwright.wording.reader import Reader
from strapwright.wording.steps import hold_words
from strapwright.wording.steps.step_figure import StepFigure


def roll_words(roll: float, end_left: End = 1) -> str:
    """Say a turn of the bar about itself, e.g. ``roll 90° towards you``; empty for none.

    Parameters
    ----------
    roll
        Positive turns the top towards the viewer where end 1 is on the left [rad].
    end_left
        Which end points left; from behind, the same turn goes the other way.
    """
    degrees = math.degrees(roll)
    if abs(degrees) < 1e-6:
        return ""
    if abs(abs(degrees) - 180.0) < 1e-6:
        return "roll 180°, top face down"
    towards = (degrees > 0.0) == (end_left == 1)
    return f"roll {abs(degrees):.4g}° {'towards' if towards else 'away from'} you"


def turned_and_laid(plan: Plan, step: Step) -> str:
    """Say how the bar is laid in, with the roll before it where there is one."""
    roll = roll_words(step.hold.roll, step.hold.end_left)
    turned = f"{roll} from the drawn face, then " if roll else ""
    return f"{turned}{hold_words.laid(plan, step)}"


def roll_figure(step: Step, reader: Reader) -> StepFigure | None:
    """Return how the bar is turned about itself before its face is spoken of."""
    roll = step.hold.roll
    if roll == 0.0:
        return None
    way = "towards" if roll > 0.0 else "away from"
    return StepFigure(
        label=f"First roll the bar from how it is drawn, end 1 on the left, top {way} you:",
        value=reader.figures.angle(abs(roll)),
    )


def lay_figure(plan: Plan, index: int) -> StepFigure:
    """Return what to do with the bar since the bend before, and how it then lies.

    Parameters
    ----------
    plan
        The whole plan.
    index
        0-based place in the order of making.
    """
    return StepFigure(
        label=f"{_verb(plan, index)}:", value=hold_words.laid(plan, plan.steps[index])
    )


def _verb(plan: Plan, index: int) -> str:
    hold, part = plan.steps[index].hold, plan.job.part
    if index == 0:
        beside = side_by_side(part) if part.at_once > 1 else ""
        stacked = f"{part.stacked} on each other" if part.stacked > 1 else ""
        return f"Place {', '.join(filter(None, (beside, stacked))) or 'the bar'}"
    before = plan.steps[index - 1].hold
    if hold.roll != before.roll:
        # The face is said of the bar as rolled, so it cannot be compared with the last.
        return "Take it out and place it again"
    flip, swap = hold.face != before.face, hold.end_left != before.end_left
    return {
        (False, False): "Leave it as it is",
        (True, False): "Turn it over, same end on the left",
        (False, True): "Swap the ends, same face",
        (True, True): "Turn it over and swap the ends",
    }[flip, swap]


def side_by_side(part: Part) -> str:
    """Say how many bars lie under the nose at one time."""
    return f"{part.at_once} bars side by side"


def mark_figures(plan: Plan, step: Step, reader: Reader) -> tuple[StepFigure, ...]:
    """Return which marks come under the nose, and which sight lines to set to the shoulders.

    Parameters
    ----------
    plan, step
        The plan and one of its steps; nothing is said where there is no blank.
    reader
        Who reads it.
    """
    if plan.blank is None:
        return ()
    show = reader.figures
    marks = plan.blank.marks_of(step.bend)
    first, last = marks[0], marks[-1]
    # The line lies off the mark towards one end; that end's side of the tooling is meant.
    end = 2 if first.sight > first.nose else 1
    side = "left" if step.hold.end_left == end else "right"
    edge = f"the outer edge of the {side} shoulder, from end 1:"
    seen = [mark for mark in marks if plan.blank.carries_sight(mark)]
    nose = "under the centre of the nose"
    if len(marks) == 1:
        said = [
            StepFigure(
                label=f"Put mark {first.label} {nose}, from end 1:",
                value=show.on_bar(first.nose),
            )
        ]
    else:
        said = [
            StepFigure(
                label=f"Put marks {first.label} to {last.label} {nose}, one hit at each, from end "
                "1:",
                value=f"{show.on_bar(first.nose)} to {show.on_bar(last.nose)}",
            )
        ]
    if len(seen) == 1:
        said.append(
            StepFigure(
                label=f"Line up sight line {seen[0].label} with {edge}",
                value=show.on_bar(seen[0].sight),
            )
        )
    elif seen:
        said.append(
            StepFigure(
                label=f"Line up sight lines {seen[0].label} to {seen[-1].label} in turn with "
                f"{edge}",
                value=f"{show.on_bar(seen[0].sight)} to {show.on_bar(seen[-1].sight)}",
            )
        )
    return tuple(said)
