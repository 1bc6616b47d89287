"""A bend of a plan in words: its name, its angles, force and radius, and what is around it."""

from __future__ import annotations

import math

from attrs import frozen

from strapwright.planning.plan_values import Plan, Step
from strapwright.shop.tooling import Tooling
from strapwright.wording.figures import Figures
from strapwright.wording.reader import Reader
from strapwright.wording.steps.step_figure import Labels, StepFigure

UNDER_LOAD: Labels = {"command": "Under load", "paper": "", "page": "under load"}
RELEASED: Labels = {"command": "Released", "paper": "", "page": "Angle after release"}
FORCE: Labels = {
    "command": "Force",
    "paper": "Force on the nose at full stroke",
    "page": "Force at full stroke",
}
NOT_PROMISED = "not predicted: it bottoms first"
_PAST_IT = "beyond that no angle can be predicted"


@frozen(kw_only=True)
class BendName:
    """What a bend is called.

    Attributes
    ----------
    name
        By its number.
    turn
        Way and angle, that of all hits of a row together.
    hits
        Of a row of hits how many, as it follows ``turn``, or on paper the included angle; of a bend
        that the bench finishes its whole angle; with several toolings which it is made on; empty of
        a single stroke.
    """

    name: str
    turn: str
    hits: str

    @property
    def title(self) -> str:
        """All of it on one line."""
        return f"{self.name}, {self.turn}{self.hits}"


def bend_name(plan: Plan, step: Step, reader: Reader) -> BendName:
    """Name a bend by its number, its way and its angle.

    Parameters
    ----------
    plan, step
        The plan and one of its steps.
    reader
        Who reads it.
    """
    show = reader.figures
    hits = {
        "command": f" in {step.hits} hits, each as follows",
        "paper": f"; in {step.hits} hits of {show.angle(step.wanted)}",
        "page": f" in {step.hits} hits",
    }
    way = "up" if plan.job.part.bends[step.bend - 1].side > 0 else "down"
    more = "" if step.hits == 1 else hits[reader.medium]
    if plan.job.part.finish_of(step.bend) is not None:
        whole = show.angle(plan.job.part.bends[step.bend - 1].angle)
        more = f", the rest up to {whole} {_later(plan, step.bend)}"
    more += _on_tooling(plan, step)
    return BendName(
        name=f"Bend {step.bend}",
        turn=f"{way} {show.angle(_whole(step))}",
        hits=more,
    )


def _later(plan: Plan, bend: int) -> str:
    """Say where the rest of a 1-based bend is made."""
    finish = plan.job.part.finish_of(bend)
    if finish is None or finish.tooling is None:
        return "at the bench"
    return f"on {finish.tooling}"


def tooling_name(plan: Plan, bend: int) -> str:
    """Name the tooling that a 1-based bend is made on."""
    tool = plan.job.part.tool_of(bend)
    return plan.job.part.others[tool - 1].name if tool else "the main tooling"


def tooling_words(plan: Plan, step: Step, reader: Reader) -> str:
    """Say which tooling to put in for a bend; empty where the one before is on it, or of only one.

    Parameters
    ----------
    plan, step
        The plan and one of its steps.
    reader
        Who reads it.
    """
    tooling = plan.on_tooling_of(step.bend).job.tooling
    several = plan.others or plan.second_strokes
    if not several or tooling is None or not _changes(plan, step):
        return ""
    name = tooling_name(plan, step.bend)
    first = step.order == 1
    sizes = tooling_sizes(tooling, reader)
    again = "" if first else " Find first contact again."
    return f"{'Put in' if first else 'Change the tooling to'} {name}: {sizes}.{again}"


def tooling_sizes(tooling: Tooling, reader: Reader) -> str:
    """Say the sizes by which a tooling is known."""
    show = reader.figures
    return (
        f"nose radius {show.stated(tooling.nose.radius)}, opening "
        f"{show.stated(tooling.shoulders.opening)}, shoulder radius "
        f"{show.stated(tooling.shoulders.radius)}"
    )


def _changes(plan: Plan, step: Step) -> bool:
    """Whether other tooling is put in for a bend."""
    before = next((one for one in plan.steps if one.order == step.order - 1), None)
    tool_of = plan.job.part.tool_of
    return before is None or tool_of(before.bend) != tool_of(step.bend)


def _on_tooling(plan: Plan, step: Step) -> str:
    """Say which tooling a bend is made on, and where it is changed for it; empty with only one."""
    if not plan.job.part.several_toolings:
        return ""
    name = tooling_name(plan, step.bend)
    return f", {'after a change to' if step.order > 1 and _changes(plan, step) else 'on'} {name}"


def included_angle(step: Step, reader: Reader) -> str:
    """Say the angle between the legs of a finished bend."""
    return f"included angle {reader.figures.angle(math.pi - _whole(step))}"


def _whole(step: Step) -> float:
    """Angle of a bend, all hits of a row together [rad]."""
    return step.wanted if step.total is None else step.total


def loaded_figure(step: Step, reader: Reader) -> StepFigure:
    """Return the angle under load, or that none is promised."""
    label = UNDER_LOAD[reader.medium]
    if step.bottoms_first:
        return _unpromised(label, step, reader)
    said = reader.figures.banded(step.loaded_angle, step.bands.loaded_angle, "rad")
    return StepFigure(label=label, value=said.shown, between=said.between)


def free_figure(step: Step, reader: Reader) -> StepFigure:
    """Return the angle after release, or that none is promised."""
    if step.bottoms_first:
        return _unpromised(RELEASED[reader.medium], step, reader)
    said = reader.figures.banded(step.free_angle, step.bands.free_angle, "rad")
    return StepFigure(label=RELEASED[reader.medium], value=said.shown, between=said.between)


def _unpromised(label: str, step: Step, reader: Reader) -> StepFigure:
    """What stands in for an angle past the travel at which bottoming starts."""
    if reader.medium == "command":
        return StepFigure(label=label, value=NOT_PROMISED)
    if reader.medium == "paper":
        why = "not predicted, because it bottoms first"
        return StepFigure(label=label, value="no angle", between=why)
    start = reader.figures.setting_below(step.bottoming_travel or 0.0)
    return StepFigure(label=label, value="not predicted", between=f"it bottoms at {start}")


def force_figure(step: Step, reader: Reader) -> StepFigure:
    """Return the force on the nose at full stroke; a terminal promises none past bottoming."""
    label = FORCE[reader.medium]
    if step.bottoms_first and reader.medium == "command":
        return StepFigure(label=label, value=NOT_PROMISED)
    said = reader.figures.banded(step.force, step.bands.force, "N")
    return StepFigure(label=label, value=said.shown, between=said.between)


def bottoming_words(step: Step, reader: Reader) -> str:
    """Say from where on nothing is promised; empty where no bottoming was found."""
    if step.bottoming_travel is None:
        return ""
    start = reader.figures.setting_below(step.bottoming_travel)
    if reader.medium == "paper":
        return f"The bar bottoms at {start} of travel; {_PAST_IT}."
    return f"at {start} of travel; {_PAST_IT}"


def radius_words(step: Step, reader: Reader) -> str:
    """Say which radius a radius gauge reads."""
    show = reader.figures
    if reader.medium == "command":
        return f"{show.on_bar(step.radii.gauge)} inside, by radius gauge"
    return (
        f"Inside radius by radius gauge: {show.on_bar(step.radii.gauge)}; at its tightest "
        f"{show.on_bar(step.radii.tightest)}."
    )


def straight_left_words(step: Step, reader: Reader) -> str:
    """Say how much straight bar is left between nose and shoulder."""
    left = reader.figures.on_bar(step.straight_left)
    return f"Straight bar left between nose and shoulder: {left}."


def end_stop_figure(step: Step, reader: Reader) -> StepFigure | None:
    """Return where the end stop is set; ``None`` where there is none."""
    if step.end_stop is None:
        return None
    show = reader.figures
    if reader.medium == "command":
        how = "to the left of the nose centre"
        return StepFigure(label="End stop", value=show.on_bar(step.end_stop), how=how)
    how = "from the centre of the nose to the end of the bar, on the left"
    return StepFigure(label="End stop", value=show.on_bar(step.end_stop), how=how)


def clear_words(step: Step, reader: Reader) -> str:
    """Say how near the bar comes to anything on the way; empty where that is not known."""
    if step.clearance is None or step.nearest is None:
        return ""
    if reader.medium == "command":
        near = reader.figures.clearance(step.clearance)
        return f"at least {near}, to the {step.nearest.name}"
    return f"During the bend the bar stays {nearest_words(step, reader.figures)}."


def nearest_words(step: Step, show: Figures) -> str:
    """Say the same where there is no room for a sentence, as beside a drawing."""
    if step.clearance is None or step.nearest is None:
        return ""
    return f"at least {show.clearance(step.clearance)} clear of the {step.nearest.name}"
