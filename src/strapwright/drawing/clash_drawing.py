"""A bend that cannot be made, as it stands where it clashes, or where it is laid in."""

from __future__ import annotations

from attrs import evolve

from strapwright.drawing.bend_drawing import bend_scene
from strapwright.drawing.off_drawing import off_scene
from strapwright.motion.clash_pose import clash_pose
from strapwright.motion.refused_bends import clash_of
from strapwright.planning.plan_values import Plan, Step
from strapwright.scene.frame import WIDE, Frame
from strapwright.scene.primitives import Scene
from strapwright.wording.reader import at_command
from strapwright.wording.refused_words import NO_STOP, clash_words
from strapwright.wording.steps.way_off_words import VERDICTS


def clash_scene(plan: Plan, step: Step, frame: Frame = WIDE) -> Scene:
    """Draw a bend that cannot be made, without any figure to stop at.

    Parameters
    ----------
    plan, step
        The step belongs to the plan.
    frame
        Room for the picture.

    Returns
    -------
    Scene
        To scale: bar and tooling at the angle at which they clash, what is hit hatched and named,
        the place ringed; a part that does not come off, locked on; else the bar as it is laid in.

    Raises
    ------
    InputError
        Where the job has no tooling.
    """
    clash = clash_of(plan, step)
    off = step.coming_off
    if clash is None and off is not None and off.verdict == "locked on":
        return evolve(off_scene(plan, step, frame), title=_title(plan, step, VERDICTS[off.verdict]))
    if clash is None:
        scene = bend_scene(plan, step, "rest", frame, clash=())
        return evolve(scene, title=_title(plan, step, "as it is placed"), description=NO_STOP)
    found = clash_pose(plan, step, clash)
    shown = evolve(
        step,
        hold=evolve(step.hold, end_left=found.end_left),
        poses=evolve(step.poses, stroke=found.pose, released=found.pose),
        nearest=found.pieces[0] if found.pieces else None,
        clearance=None,
    )
    scene = bend_scene(plan, shown, "stroke", frame, clash=found.pieces)
    words = clash_words(plan, step, at_command(plan.job))
    return evolve(
        scene,
        title=_title(plan, step, "where it clashes"),
        description=f"{words[:1].upper()}{words[1:]}. {NO_STOP}",
    )


def _title(plan: Plan, step: Step, what: str) -> str:
    return f"{plan.job.part.name}: bend {step.bend}, {what}"
