"""What speaks against a plan that was accepted: its strokes, its pictures, its ways off."""

from __future__ import annotations

import shapely
from shapely.affinity import translate

from job_bars import band, distances, half_angles, overlap, own_gap
from job_sight import CLEARANCE, DRAWN, ROW_DRAWN, Sight
from job_things import FAR
from strapwright.planning.plan_values import Step


def check_accepted(sight: Sight) -> list[str]:
    """What speaks against a plan that was accepted."""
    wrong = []
    made: frozenset[int] = frozenset()
    for step in sight.plan.steps:
        bend = step.bend - 1
        wrong += _row(sight, step, made) if bend in sight.rows else _stroke(sight, step, made)
        wrong += _off(sight, step, made)
        wrong += _drawn(sight, step)
        made |= {bend}
    return wrong


def _stroke(sight: Sight, step: Step, made: frozenset[int]) -> list[str]:
    bend, end = step.bend - 1, step.hold.end_left
    least = FAR
    wrong = []
    for number in range(sight.bars):
        for k, phi in enumerate(half_angles(sight.one, bend, 60)):
            pose = sight.pose(made, bend, end, float(phi), number)
            for thing in sight.near:
                up = pose.nose if thing.side == "nose" else 0.0
                if overlap(pose.whole, translate(thing.outline, 0.0, up), 0.3):
                    wrong.append(f"accepted: bend {bend + 1} runs into {thing.name}")
            held = distances(pose, sight.near, resting=k == 0, daylight=sight.daylight)
            least = min([least, *(d for _, d in held)])
            if own_gap(pose.line, sight.one.thick, sight.reach()) < 0.0:
                wrong.append(f"accepted: bend {bend + 1} runs into itself")
    if least < CLEARANCE - 0.25 - 0.1:
        wrong.append(f"accepted: bend {bend + 1} keeps only {least:.2f} mm")
    if any(sight.lacks(made, bend, -0.5)):
        wrong.append(f"accepted: bend {bend + 1} jams, sinks too deep or lacks straight bar")
    # What is said to be kept: of a stack it is that of the stack as one bar.
    said = step.clearance
    if sight.bars == 1 and said is not None and least < 900.0 and said > least + 0.3:
        wrong.append(f"accepted: bend {bend + 1} says {said:.2f} mm clear, it is {least:.2f}")
    return list(dict.fromkeys(wrong))


def _row(sight: Sight, step: Step, made: frozenset[int]) -> list[str]:
    """Every hit of a row, closed and bent in small steps."""
    row = sight.rows[step.bend - 1]
    wrong = []
    for hit in range(row.hits):
        for k in range(13):
            pose = sight.hit(made, row, hit, step.hold.end_left, step.loaded_angle * k / 12.0)
            for thing in sight.near:
                up = pose.nose if thing.side == "nose" else 0.0
                if overlap(pose.whole, translate(thing.outline, 0.0, up), ROW_DRAWN):
                    wrong.append(
                        f"accepted: hit {hit + 1} of bend {step.bend} runs into {thing.name}"
                    )
            held = sight.hit_distances(pose, resting=k == 0)
            name = min(held, key=lambda one: held[one], default="")
            if held.get(name, FAR) < CLEARANCE - 0.25 - ROW_DRAWN:
                wrong.append(f"accepted: hit {hit + 1} of bend {step.bend} is too near {name}")
    return list(dict.fromkeys(wrong))


def _drawn(sight: Sight, step: Step) -> list[str]:
    """The plan's own pictures: the bar as solved, against what stands about it."""
    wrong = []
    for name, pose in (("rest", step.poses.rest), ("stroke", step.poses.stroke)):
        line = shapely.get_coordinates(shapely.linestrings(pose.x, pose.y))
        bar = band(line, sight.one.thick)
        for thing in sight.near:
            up = pose.nose_y if thing.side == "nose" else 0.0
            if overlap(bar, translate(thing.outline, 0.0, up), DRAWN):
                wrong.append(f"accepted: drawn {name} of bend {step.bend} lies in {thing.name}")
    return wrong


def _off(sight: Sight, step: Step, made: frozenset[int]) -> list[str]:
    """The way off that the plan gives, walked finely past both halves, as they open too."""
    off, bend = step.coming_off, step.bend - 1
    if off is None:
        return [f"accepted: nothing is said of coming off after bend {step.bend}"]
    if off.verdict != "free":
        plainly = sight.comes_off_plainly(made, bend, step.hold.end_left)
        return [f"accepted: bend {step.bend} is said to lock on and does not"] if plainly else []
    within = ROW_DRAWN if bend in sight.rows else 0.4
    bar, closed = sight.let_go(made, bend, step.hold.end_left)
    return [
        f"accepted: the way off bend {step.bend} {why}"
        for why in sight.halves.against(bar, closed, off.motion, within)
    ]
