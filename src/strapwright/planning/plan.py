"""``plan(job) -> Plan``: the place where part, bar, press and tooling meet."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np
from attrs import evolve

from strapwright.bending.cross_checks import cross_checks
from strapwright.bending.values import Band
from strapwright.blank.band import length_band
from strapwright.blank.layout import lay_out
from strapwright.blank.values import Blank
from strapwright.findings import Finding, Severity
from strapwright.planning.making_order import natural_order, need_of, order_findings
from strapwright.planning.poses import (
    Zone,
    arc_zone,
    finished_line,
    half_bent,
    pose,
    released_zone,
)
from strapwright.planning.remarks import (
    CAUTIONS,
    bend_findings,
    hole_findings,
    metal_findings,
    press_findings,
    tooling_findings,
)
from strapwright.planning.setups import Known, bend_setup, known_bar
from strapwright.planning.steps import (
    MadeBend,
    bands_of,
    gauge_of,
    make_bend,
    pressures,
    staged_push,
)
from strapwright.planning.stopping import (
    ease_off,
    relief_to_set,
    setting,
    speed,
    weakest_pressure,
)
from strapwright.planning.values import (
    CrossCheck,
    Gauge,
    Hold,
    Plan,
    Radii,
    Step,
)
from strapwright.shop.job import Job
from strapwright.shop.tooling import Tooling


def plan(job: Job) -> Plan:
    """Plan a job: blank, marks and every bend, as far as what is stated allows.

    What is missing limits what is said, and a finding names it.

    Raises
    ------
    InputError
        Where the job cannot be meant: unknown metal, a leg shorter than its bends, a bend past
        the jam, a nose that does not pass between the shoulders.
    """
    known = known_bar(job)
    findings = metal_findings(known) + tooling_findings(job)
    if job.tooling is None:
        return _plan_without_tooling(job, known, findings)
    made = _make_all(job, known, job.tooling)
    part = job.part
    shoulders = job.tooling.shoulders
    sight = shoulders.outer_edge
    if sight is None:
        sight = 0.5 * shoulders.opening + shoulders.radius
    radii = [m.released.wrap_radius for m in made]
    bends = [m.released for m in made]
    blank = lay_out(part, bends, job.blank, inside_radii=radii, sight_offset=sight)
    zones = [
        released_zone(*_zone_ends(blank, i, m), m.shape, part.bends[i].side)
        for i, m in enumerate(made)
    ]
    needs = [need_of(m.setup, m.state.loaded_angle, m.state.travel, m.radii.wrap) for m in made]
    stated = part.order is not None
    order = (
        tuple(b - 1 for b in part.order) if part.order is not None else natural_order(blank, needs)
    )
    if order is None:
        order = tuple(range(len(made)))
    depth = shoulders.depth if shoulders.floor != "vee" else None
    findings += order_findings(blank, order, needs, stated, depth)
    steps = []
    for place, bend in enumerate(order):
        step, remarks = _step(job, job.tooling, blank, zones, made, order, place)
        steps.append(step)
        findings += remarks
        findings += bend_findings(made[bend], known, f"bend {bend + 1}")
    findings += hole_findings(blank, known.thickness)
    findings += press_findings(job.press, [m.state.travel for m in made])
    return Plan(
        job=job,
        blank=blank,
        length_band=_length_band(job, known, blank, made),
        finished=finished_line(blank, zones),
        steps=tuple(steps),
        findings=_sorted(findings),
        cautions=CAUTIONS,
    )


def _make_all(job: Job, known: Known, tooling: Tooling) -> list[MadeBend]:
    """Solve every bend; bends of one angle are solved once."""
    setup = bend_setup(job, known, tooling)
    solved: dict[float, MadeBend] = {}
    made = []
    for number, bend in enumerate(job.part.bends, start=1):
        if bend.angle not in solved:
            solved[bend.angle] = make_bend(job, known, tooling, setup, bend.angle, f"bend {number}")
        made.append(solved[bend.angle])
    return made


def _zone_ends(blank: Blank, bend: int, made: MadeBend) -> tuple[float, float]:
    """Where a bend's curved zone lies in the flat, about its nose mark."""
    half = 0.5 * made.released.flat_length
    middle = blank.marks[bend].nose
    return middle - half, middle + half


def _step(
    job: Job,
    tooling: Tooling,
    blank: Blank,
    zones: Sequence[Zone],
    made: Sequence[MadeBend],
    order: Sequence[int],
    place: int,
) -> tuple[Step, list[Finding]]:
    bend = order[place]
    this = made[bend]
    side = job.part.bends[bend].side
    where = f"bend {bend + 1}"
    state = this.state
    press = job.press
    give = this.setup.give * state.force
    stop, remarks = setting(
        travel=state.travel,
        give_travel=give,
        tooling=tooling,
        thickness=this.setup.thickness,
        where=where,
    )
    findings = list(remarks)
    rate, remarks = speed(
        curve=this.curve,
        travel=state.travel,
        flow=None if press is None else press.flow,
        bore=None if press is None else press.bore,
        where=where,
    )
    findings += remarks
    gauge, reason, relief, remarks = _gauge(job, this, tooling, where)
    findings += remarks
    held = {
        "rest": (None, False),
        "stroke": (this.shape, False),
        "released": (this.shape, True),
    }
    poses = {}
    for name, (shape, released) in held.items():
        line = half_bent(blank, zones, set(order[:place]), bend, side, 1, shape, released=released)
        poses[name] = pose(
            line,
            thickness=this.setup.thickness,
            nose_radius=this.setup.nose_radius,
            shoulder_radius=this.setup.shoulder_radius,
            slope=None
            if shape is None
            else 0.5 * (this.released.angle if released else state.loaded_angle),
        )
    wanted = job.part.bends[bend].angle
    return Step(
        order=place + 1,
        bend=bend + 1,
        hold=Hold(face="top" if side > 0 else "bottom", end_left=1),
        wanted=wanted,
        setting=stop,
        loaded_angle=state.loaded_angle,
        free_angle=state.free_angle,
        force=state.force,
        peak_force=this.peak,
        gauge=gauge,
        gauge_reason=reason,
        relief_to_set=relief,
        radii=Radii(wrap=this.radii.wrap, gauge=this.radii.gauge, tightest=this.radii.tightest),
        bottoming_travel=this.bottoming,
        jam_angle=2.0 * this.model.jam,
        straight_left=state.straight_left,
        speed=rate,
        staged=staged_push(this, wanted),
        bands=bands_of(this, press),
        curve=this.curve,
        curve_low=this.force_low,
        curve_high=this.force_high,
        poses=poses,
        cross_checks=_cross_checks(job, this),
    ), findings


def _gauge(
    job: Job, made: MadeBend, tooling: Tooling, where: str
) -> tuple[Gauge | None, str, float | None, tuple[Finding, ...]]:
    press = job.press
    if press is None:
        return None, "gauge: state bore and relief in [press]", None, ()
    if press.bore is None:
        return None, "gauge: state press.bore", None, ()
    found = pressures(made, press)
    weakest = None
    if tooling.rating is not None:
        weakest = weakest_pressure(tooling.rating, press.bore)
    limit, remarks = ease_off(
        upper=found.upper, peak=found.peak, weakest=weakest, relief=press.relief, where=where
    )
    relief = relief_to_set(upper=found.upper, weakest=weakest, relief=press.relief)
    return gauge_of(found, limit), "", relief, remarks


def _cross_checks(job: Job, made: MadeBend) -> tuple[CrossCheck, ...]:
    """Set each rule of the trade beside the plan's own figure."""
    setup, state = made.setup, made.state
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
    return tuple(
        CrossCheck(
            name=check.name,
            value=check.value,
            ours=ours[check.name],
            unit=check.unit,
            source=check.source,
            text=f"The rule leaves out {check.leaves_out}.",
        )
        for check in cross_checks(setup, tensile, state.loaded_angle, state.free_angle)
    )


def _length_band(job: Job, known: Known, blank: Blank, made: Sequence[MadeBend]) -> Band:
    """Band of the blank from the sample's thickness and a share of the radius not known."""
    spread = float(np.quantile([m.sample.thickness for m in made], 0.95)) - 1.0
    low, high = length_band(
        job.part,
        [m.released for m in made],
        job.blank,
        inside_radii=[m.released.wrap_radius for m in made],
        thickness_tolerance=spread * known.thickness,
        radius_tolerance=0.05 * max(m.setup.nose_radius for m in made),
    )
    return Band(low=min(low, blank.length), high=max(high, blank.length))


def _plan_without_tooling(job: Job, known: Known, findings: list[Finding]) -> Plan:
    part = job.part
    if part.inside_radius is None:
        findings.append(
            Finding(
                code="radius-unknown",
                severity=Severity.WARNING,
                where="part.inside_radius",
                text="Neither tooling nor an inside radius is stated, so the blank is not given.",
                remedy="State [tooling], or part.inside_radius.",
            )
        )
        return Plan(
            job=job,
            blank=None,
            length_band=None,
            finished=np.zeros((0, 2)),
            steps=(),
            findings=_sorted(findings),
            cautions=CAUTIONS,
        )
    settings = job.blank
    if settings.method == "strain":
        settings = evolve(settings, method="book medium")
        findings.append(
            Finding(
                code="blank-by-book",
                severity=Severity.NOTE,
                where="blank.method",
                text="Without tooling the blank follows the handbook line for half-hard metal and "
                "soft steel, 0.64 T + 1.57 R for 90 deg.",
                remedy="State [tooling] for the blank of your own tooling, or blank.method.",
            )
        )
    radii = [part.inside_radius] * len(part.bends)
    blank = lay_out(part, None, settings, inside_radii=radii, sight_offset=0.0)
    low, high = length_band(
        part,
        None,
        settings,
        inside_radii=radii,
        thickness_tolerance=0.03 * known.thickness,
        radius_tolerance=0.05 * part.inside_radius,
    )
    zones = [
        arc_zone(
            *mark.tangents,
            angle=bend.angle,
            radius=part.inside_radius + 0.5 * known.thickness,
            side=bend.side,
        )
        for mark, bend in zip(blank.marks, part.bends, strict=True)
    ]
    findings += hole_findings(blank, known.thickness)
    findings += press_findings(job.press, [])
    return Plan(
        job=job,
        blank=blank,
        length_band=Band(low=min(low, blank.length), high=max(high, blank.length)),
        finished=finished_line(blank, zones),
        steps=(),
        findings=_sorted(findings),
        cautions=CAUTIONS,
    )


def _sorted(findings: Sequence[Finding]) -> tuple[Finding, ...]:
    """What forbids first, then what warns; one sentence for all bends that it is true of."""
    rank = {Severity.REFUSAL: 0, Severity.WARNING: 1, Severity.NOTE: 2}
    groups: dict[tuple[str, str, str], list[Finding]] = {}
    for finding in sorted(findings, key=lambda f: rank[f.severity]):
        groups.setdefault((finding.code, finding.text, finding.remedy), []).append(finding)
    merged = []
    for group in groups.values():
        places = list(dict.fromkeys(f.where for f in group))
        bends = sorted(int(p.removeprefix("bend ")) for p in places if p.startswith("bend "))
        if len(bends) > 1 and len(bends) == len(places):
            listed = ", ".join(str(b) for b in bends[:-1])
            merged.append(evolve(group[0], where=f"bends {listed} and {bends[-1]}"))
        else:
            merged += [evolve(group[0], where=place) for place in places]
    return tuple(merged)
