"""Sizes of the tooling that may be changed, and how far."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from types import MappingProxyType

from attrs import evolve

from strapwright.planning.remedy_values import What
from strapwright.remedies.levers import (
    Lever,
    coarse_step,
    fine_step,
    of_nose,
    of_shoulders,
    of_tooling,
)
from strapwright.shop.job import Job
from strapwright.shop.tooling import Tooling

# A shoulder is not made rounder than the bar is thick, nor under this (common practice, no source).
LEAST_RADIUS = 3.0  # mm
# A web is not made slimmer than this share of the nose (common practice, no source).
LEAST_WEB = 0.4
WIDEST = 2.0  # opening over the one stated, as far as a jam makes it be looked for

Levers = Callable[[Job, Tooling], Lever | None]


def _longest(job: Job) -> float:
    """Nothing of the bar lies further from the nose than this [mm]."""
    return sum(job.part.legs)


def _opening(job: Job, tooling: Tooling, *, wider: bool) -> Lever | None:
    now = tooling.shoulders.opening

    def put(tooling: Tooling, opening: float) -> Tooling:
        shoulders = tooling.shoulders
        edge = shoulders.outer_edge
        if edge is not None:  # a block moves with its round
            edge += 0.5 * (opening - shoulders.opening)
        moved = evolve(shoulders, opening=opening, outer_edge=edge)
        return evolve(tooling, shoulders=moved)

    # A step wider than the nose is passed through.
    least = 2.0 * (tooling.nose.radius + tooling.shoulders.radius) + fine_step(job)
    return Lever(
        what="opening",
        now=now,
        start=now,
        end=WIDEST * now if wider else min(least, now),
        step=fine_step(job),
        put=of_tooling(put),
    )


def _narrower(job: Job, tooling: Tooling) -> Lever | None:
    return _opening(job, tooling, wider=False)


def _wider(job: Job, tooling: Tooling) -> Lever | None:
    return _opening(job, tooling, wider=True)


def _sharper(job: Job, tooling: Tooling) -> Lever | None:
    now = tooling.shoulders.radius
    end = min(now, max(LEAST_RADIUS, job.part.bar.thickness))
    return Lever(
        what="shoulder radius",
        now=now,
        start=now,
        end=end,
        step=fine_step(job),
        put=of_shoulders("radius"),
    )


def _higher(job: Job, tooling: Tooling) -> Lever | None:
    now = tooling.shoulders.height
    if now is None:
        return None  # how high they stand is not known, so no figure would say by how much
    return Lever(
        what="shoulder height",
        now=now,
        start=now,
        end=now + _longest(job),
        step=coarse_step(job),
        put=of_shoulders("height"),
    )


def _slimmer_blocks(job: Job, tooling: Tooling) -> Lever | None:
    shoulders = tooling.shoulders
    least = 0.5 * shoulders.opening + shoulders.radius
    if shoulders.outer_edge is None or shoulders.outer_edge <= least:
        return None  # they end where the round does
    return Lever(
        what="outer edge",
        now=shoulders.outer_edge,
        start=shoulders.outer_edge,
        end=least,
        step=fine_step(job),
        put=of_shoulders("outer_edge"),
    )


def _deeper(job: Job, tooling: Tooling) -> Lever | None:
    now = tooling.shoulders.depth
    if now is None:
        return None

    def put(tooling: Tooling, depth: float) -> Tooling:
        shoulders = tooling.shoulders
        higher = None if shoulders.height is None else shoulders.height + depth - now
        return evolve(tooling, shoulders=evolve(shoulders, depth=depth, height=higher))

    return Lever(
        what="depth",
        now=now,
        start=now,
        end=3.0 * now,
        step=fine_step(job),
        put=of_tooling(put),
    )


def _smaller_nose(job: Job, tooling: Tooling) -> Lever | None:
    now = tooling.nose.radius
    # Whether the bar stands a smaller radius the plan says.
    return Lever(
        what="nose radius",
        now=now,
        start=now,
        end=0.4 * now,
        step=0.5 * fine_step(job),
        put=of_nose("radius"),
    )


def _slimmer_web(job: Job, tooling: Tooling) -> Lever | None:
    now = tooling.nose.web_thickness
    if now is None:
        return None
    end = min(now, max(LEAST_WEB * 2.0 * tooling.nose.radius, LEAST_RADIUS))
    return Lever(
        what="web thickness",
        now=now,
        start=now,
        end=end,
        step=fine_step(job),
        put=of_nose("web_thickness"),
    )


def _least_reach(tooling: Tooling) -> float:
    nose = tooling.nose
    return nose.reach or 2.0 * nose.radius + (nose.web_height or 0.0)


def _no_web(job: Job, tooling: Tooling) -> Lever | None:
    if tooling.nose.web_thickness is None:
        return None
    reach = _least_reach(tooling)
    step = coarse_step(job)

    def put(tooling: Tooling, reach: float) -> Tooling:
        free = evolve(
            tooling.nose, web_thickness=None, web_height=None, held="both ends", reach=reach
        )
        return evolve(tooling, nose=free)

    return Lever(
        what="no web",
        now=tooling.nose.reach,
        start=reach - step,
        end=reach + _longest(job),
        step=step,
        put=of_tooling(put),
    )


def _longer_nose(job: Job, tooling: Tooling) -> Lever | None:
    if tooling.nose.reach is None:
        return None
    step = coarse_step(job)

    def put(tooling: Tooling, reach: float) -> Tooling:
        nose = tooling.nose
        longer = reach - (nose.reach or reach)
        web = None if nose.web_height is None else nose.web_height + longer
        return evolve(tooling, nose=evolve(nose, reach=reach, web_height=web))

    return Lever(
        what="reach",
        now=tooling.nose.reach,
        start=tooling.nose.reach,
        end=tooling.nose.reach + _longest(job),
        step=step,
        put=of_tooling(put),
    )


def _narrower_plate(job: Job, tooling: Tooling) -> Lever | None:
    now = tooling.plate_width
    if now is None:
        return None
    return Lever(
        what="plate width",
        now=now,
        start=now,
        end=min(now, 2.0 * tooling.nose.radius),
        step=coarse_step(job),
        put=of_tooling(lambda t, value: evolve(t, plate_width=value)),
    )


# What is in the way -> what is tried against it, what costs least to change first.
AGAINST: Mapping[str, tuple[tuple[What, Levers], ...]] = MappingProxyType(
    {
        "short leg": (("opening", _narrower),),
        "shoulder": (
            ("opening", _narrower),
            ("outer edge", _slimmer_blocks),
            ("shoulder radius", _sharper),
        ),
        "nose web": (("web thickness", _slimmer_web), ("no web", _no_web)),
        "push plate": (("reach", _longer_nose), ("plate width", _narrower_plate)),
        "plate mount": (("reach", _longer_nose),),
        "ram": (("reach", _longer_nose),),
        "bed": (("shoulder height", _higher),),
        "floor": (("depth", _deeper),),
        "shallow": (("depth", _deeper), ("opening", _narrower)),
        "travel": (("opening", _narrower),),
        "jam": (
            ("opening", _wider),
            ("shoulder radius", _sharper),
            ("nose radius", _smaller_nose),
        ),
        "small radius": (("nose radius", _smaller_nose),),
    }
)
