"""A plan made by hand: a fender hanger with three bends in 1/4 x 2 flat.

Poses follow plain geometry (straight legs tangent to the nose and the shoulders); forces, bands
and findings are invented round figures, for drawings and sheets only.
"""

import math
from typing import Literal

import numpy as np
from attrs import evolve

from strapwright.bending.bend_values import Band, Floats, Solved, StrokeCurve
from strapwright.blank.blank_values import Alternative, Blank, FlatHole, Mark
from strapwright.midline.pose_values import DrawnPose, StepPoses
from strapwright.planning.plan_values import (
    Gauge,
    Hold,
    Plan,
    Radii,
    ReliefSetting,
    Setting,
    Speed,
    StagedPush,
    Step,
    StepBands,
)
from strapwright.shop.bar import Bar, Lot
from strapwright.shop.job import Job, Units
from strapwright.shop.part import Bend, Hole, Part
from strapwright.shop.press import Press
from strapwright.shop.tooling import Nose, Shoulders, Tooling

INCH = 25.4
T = INCH / 4
NOSE = Nose(radius=12.7, reach=4.5 * INCH, web_thickness=12.7, web_height=3 * INCH, drawable=True)
SHOULDERS = Shoulders(
    radius=9.525, opening=63.5, depth=44.45, height=3 * INCH, outer_edge=2.25 * INCH
)
R_MID = NOSE.radius + T / 2


def fender_hanger() -> Part:
    return Part(
        name="fender hanger",
        quantity=12,
        bar=Bar(section="flat", thickness=T, width=2 * INCH),
        material="A36 hot rolled",
        lot=Lot(),
        measured="outside",
        legs=(6 * INCH, 3.5 * INCH, 4 * INCH, 2.5 * INCH),
        bends=(
            Bend(angle=math.radians(90), side=1),
            Bend(angle=math.radians(45), side=-1),
            Bend(angle=math.radians(60), side=-1),
        ),
        holes=(
            Hole(leg=1, from_bend=None, distance=INCH, diameter=9 / 16 * INCH),
            Hole(leg=4, from_bend=3, distance=1.75 * INCH, diameter=3 / 8 * INCH),
        ),
    )


def straights(part: Part) -> list[float]:
    """Straight part of each leg, between tangent points [mm]."""
    shift = {"outside": T / 2, "centre": 0.0, "inside": -T / 2}[part.measured]
    left = [0.0, *((R_MID + shift) * math.tan(bend.angle / 2) for bend in part.bends), 0.0]
    return [leg - left[i] - left[i + 1] for i, leg in enumerate(part.legs)]


def walk(
    start: tuple[float, float],
    heading: float,
    pieces: list[tuple[float, float]],
    step: float = 0.05,
) -> Floats:
    """Points along pieces (length, turn); a piece that turns is an arc of even curvature."""
    x, y = start
    points = [(x, y)]
    for length, turn in pieces:
        parts = 1 if turn == 0 else max(2, math.ceil(abs(turn) / step))
        chord = length / parts
        if abs(turn) > 1e-9:
            chord *= math.sin(turn / parts / 2) / (turn / parts / 2)
        for _ in range(parts):
            middle = heading + turn / parts / 2
            x, y = x + chord * math.cos(middle), y + chord * math.sin(middle)
            heading += turn / parts
            points.append((x, y))
    return np.array(points)


def mid_line(part: Part) -> Floats:
    pieces: list[tuple[float, float]] = []
    for index, straight in enumerate(straights(part)):
        pieces.append((straight, 0.0))
        if index < len(part.bends):
            bend = part.bends[index]
            pieces.append((R_MID * bend.angle, bend.side * bend.angle))
    return walk((0.0, 0.0), 0.0, pieces)


def blank(part: Part) -> Blank:
    at = 0.0
    marks = []
    for index, straight in enumerate(straights(part)[:-1]):
        zone = R_MID * part.bends[index].angle
        at += straight
        nose = at + zone / 2
        edge = SHOULDERS.outer_edge or 0.0
        marks.append(Mark(bend=index + 1, nose=nose, sight=nose - edge, tangents=(at, at + zone)))
        at += zone
    length = at + straights(part)[-1]
    holes = []
    for number, hole in enumerate(part.holes, 1):
        place = hole.distance if hole.leg == 1 else length - part.legs[-1] + hole.distance
        near = 1 if hole.leg == 1 else len(part.bends)
        holes.append(
            FlatHole(
                hole=number,
                position=place,
                across=hole.across,
                diameter=hole.diameter,
                bend=near,
                edge_to_zone=20.0,
            )
        )
    allowances = tuple(R_MID * bend.angle for bend in part.bends)
    return Blank(
        length=length,
        method="strain",
        allowances=allowances,
        deductions=tuple((sum(part.legs) - length) / len(part.bends) for _ in part.bends),
        alternatives=(Alternative(method="din 6935", length=length + 0.6),),
        marks=tuple(marks),
        holes=tuple(holes),
    )


def nose_height(half: float) -> float:
    """Nose centre over the shoulder tops, with straight legs tangent to nose and shoulders."""
    reach = NOSE.radius + SHOULDERS.radius + T
    sloped = SHOULDERS.opening / 2 * math.sin(half)
    return (reach - sloped) / math.cos(half) - SHOULDERS.radius


def pose(part: Part, bend: int, made: set[int], angle: float, hold: Hold, up: float) -> DrawnPose:
    """Bar about one bend at a total angle; ``made`` bends are bent already."""
    half = angle / 2
    nose_y = nose_height(half)
    lengths = straights(part)
    flipped = part.bends[bend - 1].side

    def wing(numbers: range, first: int) -> list[tuple[float, float]]:
        # Half of the zone in hand, wrapped, then straight legs and the bends beyond.
        zone = R_MID * part.bends[bend - 1].angle / 2
        pieces = [(R_MID * half, half)] if half else []
        spare = zone - R_MID * half
        pieces.append((lengths[first] + spare, 0.0))
        for number in numbers:
            other = part.bends[number - 1]
            turn = other.side * flipped * other.angle if number in made else 0.0
            pieces.append((R_MID * other.angle, turn))
            pieces.append((lengths[number if numbers.step > 0 else number - 1], 0.0))
        return pieces

    right = walk((0.0, 0.0), 0.0, wing(range(bend + 1, len(part.bends) + 1), bend))
    left = walk((0.0, 0.0), 0.0, wing(range(bend - 1, 0, -1), bend - 1))
    if hold.end_left == 2:
        left, right = right, left
    left[:, 0] *= -1
    line = np.vstack((left[::-1], right[1:]))
    line[:, 1] += nose_y - R_MID
    return DrawnPose(x=line[:, 0].copy(), y=line[:, 1].copy(), nose_y=nose_y + up)


def curve_to(top: float, force: float) -> StrokeCurve:
    travel = np.linspace(0.0, top, 60)
    half = np.interp(
        travel,
        [nose_height(0) - nose_height(a) for a in np.linspace(0, 1.15, 200)],
        np.linspace(0, 1.15, 200),
    )
    share = (1 - np.exp(-travel / 1.6)) * (1 + 0.12 * np.sin(travel / top * 3.0))
    return StrokeCurve(
        travel=travel,
        force=force * share,
        loaded_angle=2 * half,
        free_angle=np.maximum(2 * half - math.radians(3), 0),
        nose_curvature=np.full(60, 1 / R_MID),
        wrap_length=R_MID * half,
        jam_angle=math.radians(150),
        jammed=False,
        solved=Solved(converged=True, iterations=8, residual=1e-9),
    )


def step(part: Part, order: int, bend: int, made: set[int], *, gauge: bool = True) -> Step:
    wanted = part.bends[bend - 1].angle
    loaded = wanted + math.radians(3.6)
    travel = nose_height(0) - nose_height(loaded / 2)
    side = part.bends[bend - 1].side
    left: Literal[1, 2] = 1 if order % 2 else 2
    hold = Hold(face="top" if side > 0 else "bottom", end_left=left)
    force = 21_000.0
    curve = curve_to(travel * 1.2, force)
    first = 0.85 * travel
    return Step(
        order=order,
        bend=bend,
        hold=hold,
        wanted=wanted,
        setting=Setting(
            travel=travel,
            faces=58.0,
            faces_between=("push plate", "bed"),
            block=58.0,
            block_between=("bed", "push plate"),
        ),
        loaded_angle=loaded,
        free_angle=wanted,
        force=float(np.interp(travel, curve.travel, curve.force)),
        peak_force=float(curve.force.max()),
        gauge=Gauge(value=4.9, peak=5.0, low=4.3, high=5.6, ease_off=6.4) if gauge else None,
        no_gauge=None if gauge else "no press",
        relief=ReliefSetting(kind="set", pressure=6.9, by="band") if gauge else None,
        radii=Radii(wrap=12.7, gauge=13.1, tightest=12.4),
        bottoming_travel=None,
        jam_angle=math.radians(150),
        straight_left=11.0,
        speed=Speed(ram=35.0, angle=3.5, sensitivity=0.1),
        staged=StagedPush(
            first_travel=first,
            first_loaded=0.8 * loaded,
            first_free=0.75 * loaded,
            readings=(1.2, 1.25),
            extra=(3.0, 2.6),
        ),
        bands=StepBands(
            travel=Band(low=travel - 0.8, high=travel + 0.8),
            loaded_angle=about(loaded, math.radians(1.6)),
            free_angle=about(wanted, math.radians(1.8)),
            staged_angle=about(wanted, math.radians(0.9)),
            force=Band(low=18_500.0, high=23_500.0),
            gauge=Band(low=4.3, high=5.6),
        ),
        curve=curve,
        curve_low=curve.force * 0.88,
        curve_high=curve.force * 1.13,
        poses=StepPoses(
            rest=pose(part, bend, made, 0.0, hold, up=0.0),
            stroke=pose(part, bend, made, loaded, hold, up=0.0),
            released=pose(part, bend, made, wanted, hold, up=20.0),
        ),
        cross_checks=(),
    )


def about(middle: float, half: float) -> Band:
    return Band(low=middle - half, high=middle + half)


def make_plan(units: Units = "inch", *, part: Part | None = None, gauge: bool = True) -> Plan:
    part = part or fender_hanger()
    press = Press(bore=3.5 * INCH, rod=1.75 * INCH, relief=13.8, stroke=8 * INCH)
    job = Job(
        units=units,
        part=part,
        press=press if gauge else None,
        tooling=Tooling(nose=NOSE, shoulders=SHOULDERS),
    )
    flat = blank(part)
    made: set[int] = set()
    steps = []
    for order, bend in enumerate(part.order or tuple(range(1, len(part.bends) + 1)), 1):
        steps.append(step(part, order, bend, set(made), gauge=gauge))
        made.add(bend)
    return Plan(
        job=job,
        blank=flat,
        length_band=Band(low=flat.length - 0.5, high=flat.length + 0.5),
        finished=mid_line(part),
        steps=tuple(steps),
        findings=(),
        cautions=("Keep hands clear of the shoulders while the ram moves.",),
    )


def long_plan(bends: int = 9) -> Plan:
    """A long strip with many bends close together near one end."""
    short = tuple(1.9 * INCH for _ in range(bends - 1))
    turns = tuple(Bend(angle=math.radians(30), side=1 if i % 2 else -1) for i in range(bends))
    part = evolve(
        fender_hanger(),
        name="cable ladder rung",
        legs=(30 * INCH, *short, 20 * INCH),
        bends=turns,
        holes=tuple(
            Hole(leg=1, from_bend=None, distance=(1 + i) * INCH, diameter=7.0) for i in range(4)
        ),
    )
    return make_plan(part=part)
