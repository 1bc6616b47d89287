"""What a plan says, complete: everything the page, the sheet and the command print."""

from __future__ import annotations

from typing import Literal

import numpy as np
from attrs import evolve, field, frozen

from strapwright.bending.bend_values import Band, Floats, StrokeCurve
from strapwright.blank.blank_values import Blank
from strapwright.findings import Finding
from strapwright.midline.pose_values import Point, StepPoses, Zone
from strapwright.ordering.order_values import Piece
from strapwright.planning.bar_hold import Hold
from strapwright.planning.bench_work.work_values import BenchWork
from strapwright.planning.hits_and_stacks.stack_values import StackBar
from strapwright.planning.limits_and_weights.handling_values import Handling
from strapwright.planning.limits_and_weights.weight_values import Weights
from strapwright.planning.remedy_values import Remedies
from strapwright.planning.several_toolings.tool_use import ToolUse
from strapwright.planning.surroundings.off_values import ComingOff
from strapwright.planning.uneven_legs.leg_bands import LegBand
from strapwright.quantities.inside_units import InsideUnit
from strapwright.shop.job import Job
from strapwright.shop.press import Stop

NoGauge = Literal["no press", "no bore"]  # why there is no reading


@frozen(kw_only=True)
class Gauge:
    """What the pressure gauge reads at full stroke [MPa].

    Attributes
    ----------
    value, peak
        At the end of the stroke, and the highest on the way.
    low, high
        Band of the end reading.
    ease_off
        Let off and look if the gauge passes this.
    """

    value: float
    peak: float
    low: float
    high: float
    ease_off: float


@frozen(kw_only=True)
class ReliefSetting:
    """What the relief valve may stand at for one bend.

    Attributes
    ----------
    kind
        ``set`` where one setting lies above the band and guards all that is known; else
        ``never above``.
    pressure
        [MPa]
    by
        What puts the limit there: the band of this bend, the weakest member of the tooling, or
        the setting of the valve as stated.
    """

    kind: Literal["set", "never above"]
    pressure: float
    by: Literal["band", "member", "relief"]


@frozen(kw_only=True)
class Setting:
    """Where the ram stops, three ways [mm].

    Attributes
    ----------
    travel
        From touch.
    faces
        Distance between ``faces_between`` at full stroke, or ``None`` with the reason in a finding.
    faces_between
        Names of the two faces.
    block
        Height of a stop block standing on ``block_between[0]``.
    """

    travel: float
    faces: float | None
    faces_between: tuple[str, str]
    block: float | None
    block_between: tuple[str, str]


@frozen(kw_only=True)
class StagedPush:
    """Push to about 85 %, let off, read, push on by a difference.

    Attributes
    ----------
    first_travel
        [mm]
    first_loaded, first_free
        Angle under the ram and after letting off at ``first_travel`` [rad].
    readings
        Free angles the protractor might show, shape (m,) [rad].
    extra
        Push beyond ``first_travel`` for each of ``readings`` to reach the wanted angle [mm].
    """

    first_travel: float
    first_loaded: float
    first_free: float
    readings: tuple[float, ...]
    extra: tuple[float, ...]


@frozen(kw_only=True)
class Radii:
    """The three radii of a made bend [mm].

    Attributes
    ----------
    wrap
        What the bar follows under the nose.
    gauge
        What a radius gauge reads on the inside over about two thicknesses.
    tightest
        Smallest local inside radius.
    """

    wrap: float
    gauge: float
    tightest: float


@frozen(kw_only=True)
class Speed:
    """How fast the ram closes; ``None`` without a flow.

    Attributes
    ----------
    ram
        [mm/s]
    angle
        Fastest turning of the bend during the stroke [rad/s].
    sensitivity
        Turning per travel at the end of the stroke [rad/mm].
    """

    ram: float | None
    angle: float | None
    sensitivity: float


@frozen(kw_only=True)
class CrossCheck:
    """A figure by another route, shown beside ours.

    Attributes
    ----------
    name, value, ours, unit, source
        ``value`` by the other route, ``ours`` the plan's own figure in the same unit.
    text
        One sentence saying why they differ.
    """

    name: str
    value: float
    ours: float
    unit: InsideUnit
    source: str
    text: str


@frozen(kw_only=True)
class StepBands:
    """Bands of what one bend comes to at its setting.

    Attributes
    ----------
    travel
        That meets the wanted angle, from touch as found [mm].
    loaded_angle, free_angle
        Under the ram and let go [rad].
    staged_angle
        Free angle after the step card's first push, reading and second push [rad].
    force
        On the nose at the end, all bars [N].
    gauge
        Reading at the end, ``None`` without a bore [MPa].
    """

    travel: Band
    loaded_angle: Band
    free_angle: Band
    staged_angle: Band
    force: Band
    gauge: Band | None = None


@frozen(kw_only=True)
class Step:
    """One bend at the press.

    Attributes
    ----------
    order
        1-based position in the order of making.
    bend
        1-based number of the bend along the bar.
    wanted
        Free angle wanted, of one hit where the bend is made by a row [rad].
    loaded_angle, free_angle
        Angle at full stroke and after letting go [rad].
    force, peak_force
        On the nose at the end, and the highest on the way, all bars [N].
    gauge, no_gauge
        The reading, or why there is none.
    relief
        ``None`` only where neither a bore nor a relief setting is stated.
    bottoming_travel
        Travel at which bottoming starts, or ``None`` where the bar meets nothing below it [mm].
    jam_angle
        Total loaded angle at which this tooling jams [rad].
    curve, curve_low, curve_high
        Stroke curve and the band of its force on ``curve.travel``.
    stop
        What the ram is stopped by.
    hits
        How many hits make the bend, all with this setting.
    total
        Free angle of the whole bend [rad]; ``None`` where that is ``wanted``.
    """

    order: int
    bend: int
    hold: Hold
    wanted: float
    setting: Setting
    loaded_angle: float
    free_angle: float
    force: float
    peak_force: float
    gauge: Gauge | None
    no_gauge: NoGauge | None
    relief: ReliefSetting | None
    radii: Radii
    bottoming_travel: float | None
    jam_angle: float
    straight_left: float
    speed: Speed
    staged: StagedPush | None
    bands: StepBands
    curve: StrokeCurve
    curve_low: Floats
    curve_high: Floats
    poses: StepPoses
    cross_checks: tuple[CrossCheck, ...]
    stop: Stop = "in stages"
    hits: int = 1
    total: float | None = None
    clearance: float | None = None
    nearest: Piece | None = None
    end_stop: float | None = None
    coming_off: ComingOff | None = None

    @property
    def bottoms_first(self) -> bool:
        """Whether bottoming starts before the stop: past it no angle can be predicted."""
        return self.bottoming_travel is not None and self.setting.travel > self.bottoming_travel


@frozen(kw_only=True)
class SecondStroke:
    """A bend that the press made part of the way is pushed on, on other tooling.

    Attributes
    ----------
    bend, tool
        1-based bend, and the place of the tooling as
        :meth:`~strapwright.shop.part.Part.tool_of` counts it.
    tooling
        What it is called.
    changed
        Whether it has to be put in first.
    begins, ends
        Angle after release before and after [rad].
    force
        Most that the nose may push with, the bar as hard as it may be [N].
    in_one_push
        Travel at which this tooling would bend a straight bar as far, from touch [mm].
    made
        The part by then with this bend as its last step; travel counts from where the nose touches
        the bent bar.
    """

    bend: int
    tool: int
    tooling: str
    changed: bool
    begins: float
    ends: float
    force: float
    in_one_push: float
    made: Plan

    @property
    def step(self) -> Step:
        """The stroke itself."""
        return self.made.steps[-1]


@frozen(kw_only=True)
class Plan:
    """Everything said about a job.

    Attributes
    ----------
    job
        As planned: where a leg takes up what a closed shape lacks, with its length as it became.
    finished
        Mid-line of the finished part, starting at end 1 and running right, shape (k, 2); of a
        part rolled out of one plane, all bends laid into one [mm].
    steps
        In the order of making; empty without tooling.
    cautions
        Sentences for the person at the press.
    length_band
        Band of the blank length [mm].
    handling
        Of the order; ``None`` without one.
    pieces
        What the bar was held against, assumed pieces included.
    dimension_points
        Points of the finished part between which each leg's dimension runs, one pair a leg, in
        the plane of ``finished`` [mm].
    finished_3d
        Mid-line in space, x right, y up, z towards the viewer, shape (k, 3) [mm].
    zones
        Every bend as it lies once it is made, shape (bends,).
    finished_zones
        The same of the finished part, where work at the bench changes one; else empty.
    stack
        Every bar of a stack, from the nose outwards; empty where no bars lie on each other.
    legs
        Band of every leg; empty without tooling.
    remedies
        What would make a refused part; ``None`` where nobody looked.
    bench_work
        What is done to the part after the press, in order.
    weights
        What bar, blank and part weigh; ``None`` where nobody weighed them.
    others
        Other tooling that some bends are made on.
    """

    job: Job
    blank: Blank | None
    length_band: Band | None
    finished: Floats
    steps: tuple[Step, ...]
    findings: tuple[Finding, ...]
    cautions: tuple[str, ...]
    dimension_points: tuple[tuple[Point, Point], ...] = ()
    finished_3d: Floats = field(factory=lambda: np.zeros((0, 3)))
    handling: Handling | None = None
    pieces: tuple[Piece, ...] = ()
    zones: tuple[Zone, ...] = ()
    finished_zones: tuple[Zone, ...] = ()
    stack: tuple[StackBar, ...] = ()
    legs: tuple[LegBand, ...] = ()
    remedies: Remedies | None = None
    bench_work: tuple[BenchWork | SecondStroke, ...] = ()
    weights: Weights | None = None
    others: tuple[ToolUse, ...] = ()

    @property
    def second_strokes(self) -> tuple[SecondStroke, ...]:
        """Bends that are pushed on after the last bend of ``steps``, in order."""
        return tuple(one for one in self.bench_work if isinstance(one, SecondStroke))

    def on_tooling_of(self, bend: int) -> Plan:
        """Return the plan with the tooling of a 1-based bend in the place of the job's own."""
        for one in self.others:
            if bend in one.bends:
                return evolve(self, job=evolve(self.job, tooling=one.tooling), pieces=one.pieces)
        return self
