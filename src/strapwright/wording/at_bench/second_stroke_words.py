"""Words for a bend that is pushed on to its angle on other tooling."""

from __future__ import annotations

from strapwright.planning.plan_values import SecondStroke
from strapwright.wording.reader import Reader
from strapwright.wording.relief_words import relief_words
from strapwright.wording.steps import hold_words
from strapwright.wording.steps.gauge_words import ease_off_figure, gauge_figure
from strapwright.wording.steps.staged_words import staged_words
from strapwright.wording.steps.step_words import free_figure, loaded_figure, tooling_sizes
from strapwright.wording.steps.stop_words import FROM_CONTACT, block_figure, travel_figure

# In a plan that is refused, in place of how it is pushed on.
NOT_TO_PUSH = "The part is refused, so no travel, block or gauge reading is given."
NOT_TESTED = (
    "How a bar bends on that was bent there before is not tested: push a little at a time, release "
    "it and measure."
)


def stroke_title(stroke: SecondStroke, reader: Reader) -> str:
    """Say which bend is pushed on, how far and on what."""
    show = reader.figures
    return (
        f"Push bend {stroke.bend} on from {show.angle(stroke.begins)} to "
        f"{show.angle(stroke.ends)} on {stroke.tooling}"
    )


def change_text(stroke: SecondStroke, reader: Reader) -> str:
    """Say which tooling to put in; empty where it is in already."""
    if not stroke.changed:
        return ""
    tooling = stroke.made.job.toolings()[stroke.tool]
    return (
        f"Change the tooling to {stroke.tooling}: {tooling_sizes(tooling, reader)}. Find first "
        "contact again, on the bent bar."
    )


def lay_text(stroke: SecondStroke) -> str:
    """Say how the part is laid in."""
    return f"Its inside under the nose, {hold_words.laid(stroke.made, stroke.step)}"


def only_there(tooling: str) -> str:
    """Say on which tooling a further push is meant, where that is not the one that began a bend."""
    return f"That is on {tooling}: on the tooling that began the bend do not push it any further."


def stroke_text(stroke: SecondStroke, reader: Reader) -> str:
    """Say how a bend is pushed on, in a few sentences.

    Parameters
    ----------
    stroke
        Of the plan.
    reader
        Who reads it.
    """
    step, show = stroke.step, reader.figures
    travel = travel_figure(step, reader)
    said = [change_text(stroke, reader)]
    relief = relief_words(step.relief, show)
    if relief is not None:
        said.append(relief.sentence)
    said.append(f"{lay_text(stroke)}.")
    said.append(f"Push {travel.value} {FROM_CONTACT} ({travel.between}).")
    block = block_figure(step, reader)
    if step.stop == "on a block" and block.value:
        said.append(f"Stop block {block.value}: {block.how.removeprefix('high: ')}.")
    if step.stop == "in stages" and step.staged is not None:
        staged = staged_words(step.staged, reader)
        said.append(
            f"In stages: {staged.first} first, release it and measure; expect {staged.free}."
        )
    if step.gauge is not None:
        limit = ease_off_figure(step.gauge, reader).value
        said.append(
            f"Expect {gauge_figure(step.gauge, reader).between} on the gauge; stop and check "
            f"above {limit}."
        )
    said.append(f"The nose pushes with up to {show.force(stroke.force)}.")
    loaded, free = loaded_figure(step, reader), free_figure(step, reader)
    said.append(
        f"It measures {loaded.value} under load, {free.value} after release"
        f"{f' ({free.between})' if free.between else ''}."
    )
    return " ".join([*filter(None, said), NOT_TESTED])
