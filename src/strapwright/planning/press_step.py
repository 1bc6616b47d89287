"""One step at the press: hold, setting, gauge, limits and pictures of one bend."""

from __future__ import annotations

import math
from collections.abc import Sequence

from attrs import evolve, frozen

from strapwright.bending.bar_shape import HalfShape
from strapwright.bending.cross_checks import cross_checks
from strapwright.bending.springback_causes import springback_parts, springback_sentence
from strapwright.blank.blank_values import Blank
from strapwright.blank.hit_spacing import Row
from strapwright.findings import (
    BendAt,
    Finding,
    Place,
)
from strapwright.midline.bar_poses import half_bent, pose
from strapwright.midline.pose_values import DrawnPose, End, StepPoses, Zone
from strapwright.planning.bar_hold import hold_of
from strapwright.planning.hits_and_stacks.hit_rows import hit_pose, row_findings
from strapwright.planning.hits_and_stacks.stacked_bars import Outer, stack_findings
from strapwright.planning.made_bend import (
    MadeBend,
    bands_of,
    bottoms_first,
    gauge_of,
    pressures,
    staged_push,
)
from strapwright.planning.plan_values import (
    CrossCheck,
    Gauge,
    NoGauge,
    Radii,
    ReliefSetting,
    Step,
)
from strapwright.planning.ram_stop import (
    ease_off,
    relief_setting,
    setting,
    speed,
    stopped_by,
    too_weak,
    weakest_pressure,
)
from strapwright.planning.uneven_legs.nose_off_middle import off_middle_findings
from strapwright.shop.job import Job
from strapwright.shop.tooling import Tooling

__all__ = ["Bench", "nose_drop", "step_of"]


@frozen(kw_only=True)
class Bench:
    """Everything known of a job before its bends are put in order.

    Attributes
    ----------
    toolings, made, rows, outers, zones, turned, ends
        One a bend: what it is made on, solved, its row of hits or ``None``, the other bars of a
        stack, its zone once made, how far the bar is turned about itself for it [rad], and which
        end points left.
    """

    job: Job
    toolings: Sequence[Tooling]
    blank: Blank
    made: Sequence[MadeBend]
    rows: Sequence[Row | None]
    outers: Sequence[tuple[Outer, ...]]
    zones: Sequence[Zone]
    turned: Sequence[float]
    ends: Sequence[End]

    @property
    def beneath(self) -> float:
        """Thickness of the bars under the one at the nose [mm]."""
        return (self.job.part.stacked - 1) * self.made[0].setup.thickness


def step_of(bench: Bench, order: Sequence[int], place: int) -> tuple[Step, list[Finding]]:
    """Say one bend of an order of 0-based bends."""
    job, bend = bench.job, order[place]
    tooling = bench.toolings[bend]
    this, row = bench.made[bend], bench.rows[bend]
    side = job.part.bends[bend].side
    about = (BendAt(bend + 1),)
    state, press = this.state, job.press
    poses = _poses(bench, order[:place], bend)
    drop = nose_drop(bench, bend, poses.rest)
    findings = stack_findings(this, bench.outers[bend], bend + 1)
    stop, remarks = setting(
        travel=state.travel + drop,
        give_travel=this.setup.give * state.force,
        tooling=tooling,
        thickness=job.part.stacked * this.setup.thickness,
        about=about,
    )
    if row is None:
        findings += remarks
    else:
        stop = evolve(stop, travel=state.travel, faces=None, block=None)
        findings += [one for one in remarks if one.code == "stop-unreachable"]
    wanted = job.part.bends[bend].angle if row is None else row.angle
    # Past bottoming the curve holds no longer, so there is no difference to take from it.
    staged = None if bottoms_first(this) else staged_push(this, wanted)
    chosen = stopped_by(
        "in stages" if press is None else press.stop, block=stop.block, staged=staged
    )
    rate, remarks = speed(
        curve=this.curve,
        travel=state.travel,
        flow=None if press is None else press.flow,
        bore=None if press is None else press.bore,
        about=about,
    )
    if chosen == "by eye":
        findings += remarks
    findings += off_middle_findings(this, press, bend + 1)
    gauge, reason, relief, remarks = _gauge(job, this, tooling, about)
    findings += remarks
    bands = bands_of(this, press)
    if row is not None:
        zone = bench.blank.zone(bend + 1)
        findings += row_findings(row, zone, drop, bands.free_angle, bend + 1)
    return Step(
        order=place + 1,
        bend=bend + 1,
        hold=hold_of(
            job,
            face="top" if side > 0 else "bottom",
            end_left=bench.ends[bend],
            roll=bench.turned[bend],
            rest=poses.rest,
            shoulders=0.5 * tooling.shoulders.opening,
        ),
        wanted=wanted,
        setting=stop,
        loaded_angle=state.loaded_angle,
        free_angle=state.free_angle,
        force=state.force,
        peak_force=this.peak,
        gauge=gauge,
        no_gauge=reason,
        relief=relief,
        radii=Radii(wrap=this.radii.wrap, gauge=this.radii.gauge, tightest=this.radii.tightest),
        bottoming_travel=this.bottoming,
        jam_angle=this.jam,
        straight_left=state.straight_left,
        speed=rate,
        staged=staged,
        stop=chosen,
        bands=bands,
        curve=this.curve,
        curve_low=this.force_low,
        curve_high=this.force_high,
        poses=poses,
        cross_checks=_cross_checks(job, this),
        hits=1 if row is None else row.hits,
        total=None if row is None else job.part.bends[bend].angle,
    ), findings


def nose_drop(bench: Bench, bend: int, rest: DrawnPose) -> float:
    """How much lower the nose touches at the middle hit of a row than on straight bar [mm].

    Parameters
    ----------
    bend
        0-based.
    rest
        Its pose before it is made.
    """
    if bench.rows[bend] is None:
        return 0.0
    setup = bench.made[bend].setup
    return max(setup.thickness + setup.nose_radius - rest.nose_y, 0.0)


def _poses(bench: Bench, before: Sequence[int], bend: int) -> StepPoses:
    this, row = bench.made[bend], bench.rows[bend]
    side, turned = bench.job.part.bends[bend].side, bench.turned[bend]
    length = bench.blank.length
    others = [bench.zones[one] for one in sorted(before)]
    if row is not None:
        zone = bench.blank.zone(bend + 1)

        def hit(angle: float | None) -> DrawnPose:
            return hit_pose(
                length,
                others,
                zone,
                row,
                this.setup,
                hit=row.hits // 2,
                side=side,
                turned=turned,
                end_left=bench.ends[bend],
                loaded=angle,
            )

        return StepPoses(
            rest=hit(None), stroke=hit(this.state.loaded_angle), released=hit(row.angle)
        )

    def posed(shape: HalfShape | None, *, released: bool = False) -> DrawnPose:
        # Flat beyond where it stays bent, the stretch out to the shoulder is as long as it lies.
        beyond = 0.0 if shape is None else float(shape.arc[-1] - this.settled.arc[-1])
        half = 0.5 * this.released.flat_length + beyond
        line = half_bent(
            length,
            others,
            middle=bench.blank.marks_of(bend + 1)[0].nose,
            half_flat=half,
            side=side,
            turned=turned,
            end_left=bench.ends[bend],
            shape=shape,
            released=released,
        )
        loaded = this.released.angle if released else this.state.loaded_angle
        return pose(
            line,
            thickness=this.setup.thickness,
            nose_radius=this.setup.nose_radius,
            shoulder_radius=this.setup.shoulder_radius,
            slope=None if shape is None else 0.5 * loaded,
            beneath=bench.beneath,
        )

    return StepPoses(
        rest=posed(None), stroke=posed(this.shape), released=posed(this.shape, released=True)
    )


def _gauge(
    job: Job, made: MadeBend, tooling: Tooling, about: tuple[Place, ...]
) -> tuple[Gauge | None, NoGauge | None, ReliefSetting | None, tuple[Finding, ...]]:
    press = job.press
    if press is None or press.bore is None:
        known = relief_setting(
            upper=None, weakest=None, relief=None if press is None else press.relief
        )
        remarks = too_weak(made.peak_to_carry, made.upper, tooling.rating, about)
        return None, "no press" if press is None else "no bore", known, remarks
    found = pressures(made, press)
    weakest = None
    if tooling.rating is not None:
        weakest = weakest_pressure(tooling.rating, press.bore)
    limit, remarks = ease_off(
        upper=found.upper, peak=found.most, weakest=weakest, relief=press.relief, about=about
    )
    relief = relief_setting(upper=found.upper, weakest=weakest, relief=press.relief)
    return gauge_of(found, limit), None, relief, remarks


def _cross_checks(job: Job, made: MadeBend) -> tuple[CrossCheck, ...]:
    """Set each rule of the trade beside the plan's own figure."""
    state, part = made.state, job.part
    setup = evolve(made.setup, bars=part.at_once * part.stacked)
    tensile = job.part.lot.tensile_strength
    if tensile is None:
        flow = setup.flow
        # Considere: the tensile point of the flow curve that the plan itself uses.
        true_peak = flow.strength * flow.exponent**flow.exponent
        tensile = true_peak * math.exp(-(flow.exponent - flow.offset + true_peak / flow.modulus))
    ours = {
        "handbook force": made.peak,
        "force of a plastic hinge": made.peak,
        "classical springback": state.loaded_angle - state.free_angle,
        "smallest leg": 0.5 * setup.opening,
        "eight times thickness": setup.opening,
    }
    words = {}
    if setup.section != "round" and part.stacked == 1:
        words["classical springback"] = springback_sentence(springback_parts(setup, state))
    return tuple(
        CrossCheck(
            name=check.name,
            value=check.value,
            ours=ours[check.name],
            unit=check.unit,
            source=check.source,
            text=words.get(check.name, f"The rule leaves out {check.leaves_out}."),
        )
        for check in cross_checks(setup, tensile, state.loaded_angle, state.free_angle)
    )
