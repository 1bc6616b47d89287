"""How long a job takes: what is done once for a lot, and what for each part."""

from __future__ import annotations

import math
from itertools import pairwise
from typing import Literal

from attrs import frozen

from strapwright.bending.hydraulics import retract_speed
from strapwright.planning.bench_work.work_values import Closing, Sawing, Twisting
from strapwright.planning.plan_values import Plan, Step
from strapwright.shop.bar import Bar
from strapwright.shop.press import DAYLIGHT
from strapwright.shop.shop_rates import TimeRates

Work = Literal[
    "cut", "square", "lay out", "drill", "set up", "bend", "turn over", "take off", "check",
    "finish", "twist", "saw to length",
]  # fmt: skip
_MINUTE = 60.0  # s


@frozen(kw_only=True)
class WorkTime:
    """One kind of work.

    Attributes
    ----------
    work
        What is done.
    lot, part
        Once for a lot, and for each part [min].
    """

    work: Work
    lot: float
    part: float


@frozen(kw_only=True)
class JobHours:
    """Hours of a job.

    Attributes
    ----------
    works
        In the order of working.
    spread
        How far the real time may lie off, as a share.
    no_tooling
        Whether bending is left out, because nothing is known of the tooling.
    """

    works: tuple[WorkTime, ...]
    spread: float
    no_tooling: bool

    @property
    def lot(self) -> float:
        """Once for a lot [min]."""
        return sum(one.lot for one in self.works)

    @property
    def part(self) -> float:
        """For each part [min]."""
        return sum(one.part for one in self.works)

    def minutes(self, made: float) -> float:
        """Return the time of a lot of so many parts made, with those that are lost [min]."""
        return self.lot + made * self.part


def section_area(bar: Bar) -> float:
    """Return the area that is sawn through [mm2]."""
    area = bar.thickness * bar.width
    return math.pi / 4 * area if bar.section == "round" else area


def hours_of(made: Plan, rates: TimeRates) -> JobHours:
    """Return the hours of a plan.

    Parameters
    ----------
    made
        With its blank; without tooling the bending is left out.
    rates
        Of the shop.
    """
    part = made.job.part
    blanks = max(len(made.stack), 1)
    marks = 0
    if made.blank is not None:
        lines = len(made.blank.saws) + len(made.blank.twist_lines)
        marks = len(made.blank.marks) + lines
    sawn = rates.cut + section_area(part.bar) / rates.sawing
    works = [
        WorkTime(work="cut", lot=rates.set_stop * blanks, part=sawn * blanks),
        WorkTime(work="square", lot=0.0, part=rates.square * blanks),
        WorkTime(work="lay out", lot=0.0, part=rates.lay_out * marks * blanks),
    ]
    if part.holes:
        works.append(WorkTime(work="drill", lot=0.0, part=rates.drill * len(part.holes)))
    if made.steps:
        works += _bending(made, rates)
    works += _at_bench(made, rates, sawn)
    return JobHours(works=tuple(works), spread=rates.spread, no_tooling=not made.steps)


def _at_bench(made: Plan, rates: TimeRates, sawn: float) -> list[WorkTime]:
    """Work after the press; what is drilled then takes as long as in the flat.

    Parameters
    ----------
    sawn
        One cut of the saw [min].
    """
    works = made.bench_work
    each: tuple[tuple[Work, float, int], ...] = (
        ("finish", rates.finish, sum(isinstance(one, Closing) for one in works)),
        ("twist", rates.twist, sum(isinstance(one, Twisting) for one in works)),
        ("saw to length", sawn, sum(isinstance(one, Sawing) for one in works)),
    )
    bars = max(len(made.stack), 1)
    return [
        WorkTime(work=work, lot=0.0, part=minutes * count * bars)
        for work, minutes, count in each
        if count
    ]


def _bending(made: Plan, rates: TimeRates) -> list[WorkTime]:
    steps = (*made.steps, *(one.step for one in made.second_strokes))
    bends = len(steps)
    together = made.job.part.at_once  # bars under one stroke
    strokes = sum(step.hits * _stroke(made, step, rates) for step in steps)
    holds = [(step.hold.face, step.hold.end_left, step.hold.roll) for step in steps]
    again = sum(one.changed for one in made.second_strokes)
    turns = sum(before != after for before, after in pairwise(holds))
    found = [
        # All parts of a lot go through one tooling before the next is put in.
        WorkTime(
            work="set up",
            lot=rates.set_tooling * (1 + len(made.others) + again) + rates.set_bend * bends,
            part=0.0,
        ),
        WorkTime(work="bend", lot=0.0, part=rates.handle * bends + strokes / together),
    ]
    if turns:
        found.append(WorkTime(work="turn over", lot=0.0, part=rates.turn * turns))
    return [
        *found,
        WorkTime(work="take off", lot=0.0, part=rates.take_off * bends),
        # The first part is checked at every bend, then one in so many.
        WorkTime(
            work="check",
            lot=rates.check * bends,
            part=rates.check * bends / rates.check_every,
        ),
    ]


def _stroke(made: Plan, step: Step, rates: TimeRates) -> float:
    """One stroke of the ram, out and back [min]."""
    press, closing = made.job.press, step.speed.ram
    if press is None or press.flow is None or press.bore is None or not closing:
        return rates.ram
    way = step.setting.travel + (DAYLIGHT if press.daylight is None else press.daylight)
    back = retract_speed(press.flow, press.bore, press.rod) if press.rod else closing
    return (way / closing + way / back) / _MINUTE
