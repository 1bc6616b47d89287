"""What fits until when: jobs by due date against the hours that are left."""

from __future__ import annotations

import heapq
from collections.abc import Sequence

from attrs import frozen

from strapwright.errors import InputError
from strapwright.quantities.day_numbers import weekday
from strapwright.shop.shop_rates import WorkHours

_NEARLY = 1e-9  # h


@frozen(kw_only=True)
class DueJob:
    """A job with its hours.

    Attributes
    ----------
    name
        Of the part.
    hours
        Left to do [h].
    due
        Day number that it must be finished on.
    no_tooling
        Whether its bending is not in the hours.
    """

    name: str
    hours: float
    due: int
    no_tooling: bool = False


@frozen(kw_only=True)
class Placed:
    """A job on its days.

    Attributes
    ----------
    job
        What is done.
    days
        Day number and hours of each day it is worked on.
    fits
        Whether it is finished by its due date.
    """

    job: DueJob
    days: tuple[tuple[int, float], ...]
    fits: bool

    @property
    def finished(self) -> int:
        """Day number of the last day."""
        return self.days[-1][0]


@frozen(kw_only=True)
class WeekPlan:
    """Jobs in the order to do them.

    Attributes
    ----------
    placed
        Those that are done in time by due date, then those to move.
    today
        Day number of the first day.
    by_date_late
        How many would be late if all were simply done by due date.
    a_day
        Hours at the bench on a working day [h].
    undated
        Names of the jobs that are not in it, because they have no due date.
    """

    placed: tuple[Placed, ...]
    today: int
    by_date_late: int
    a_day: float
    undated: tuple[str, ...] = ()

    @property
    def without_bending(self) -> tuple[str, ...]:
        """Names of the jobs whose hours lack the bending, for want of a tooling."""
        return tuple(one.job.name for one in self.placed if one.job.no_tooling)

    @property
    def moved(self) -> tuple[Placed, ...]:
        """Jobs that do not fit: talk to whoever waits for them."""
        return tuple(one for one in self.placed if not one.fits)


def plan_week(
    jobs: Sequence[DueJob], work: WorkHours, today: int, undated: Sequence[str] = ()
) -> WeekPlan:
    """Say what fits, with the fewest jobs late, and on which days each is worked on.

    Moore, Management Science 15, 1968, 102-109 (recalled, not looked up): go through the jobs by
    due date; where one would be late, put off the longest so far.

    Parameters
    ----------
    jobs
        With their hours and due dates.
    work
        When the shop works.
    today
        Day number; today's hours are all still there.
    undated
        Names of jobs without a due date, to be told of.

    Raises
    ------
    InputError
        If there are none, two have one name, or a due date lies in the past.
    """
    _refuse(jobs, today)
    in_turn = sorted(jobs, key=lambda job: (job.due, job.hours))
    kept: list[tuple[float, int]] = []
    total, late = 0.0, 0
    simply = 0.0
    for number, job in enumerate(in_turn):
        simply += job.hours
        late += simply > hours_until(job.due, work, today) + _NEARLY
        heapq.heappush(kept, (-job.hours, number))
        total += job.hours
        if total > hours_until(job.due, work, today) + _NEARLY:
            longest, _ = heapq.heappop(kept)
            total += longest
    in_time = sorted(number for _, number in kept)
    put_off = [number for number in range(len(in_turn)) if number not in set(in_time)]
    placed, at = [], 0.0
    for number in (*in_time, *put_off):
        job = in_turn[number]
        days = _days(at, job.hours, work, today)
        at += job.hours
        placed.append(Placed(job=job, days=days, fits=days[-1][0] <= job.due))
    return WeekPlan(
        placed=tuple(placed),
        today=today,
        by_date_late=late,
        a_day=work.a_day,
        undated=tuple(undated),
    )


def hours_until(day: int, work: WorkHours, today: int) -> float:
    """Return the hours at the bench from today to the end of a day [h]."""
    whole, rest = divmod(max(day - today + 1, 0), 7)
    more = sum(weekday(today + 7 * whole + one) < work.days for one in range(rest))
    return work.a_day * (whole * work.days + more)


def _days(begin: float, hours: float, work: WorkHours, today: int) -> tuple[tuple[int, float], ...]:
    """The days on which work is done that begins after so many hours at the bench."""
    found: list[tuple[int, float]] = []
    day, left = today, hours
    skipped = begin
    while left > _NEARLY:
        room = work.a_day if weekday(day) < work.days else 0.0
        used = min(room, skipped)
        skipped -= used
        done = min(room - used, left)
        if done > _NEARLY:
            found.append((day, done))
            left -= done
        day += 1
    return tuple(found)


def _refuse(jobs: Sequence[DueJob], today: int) -> None:
    if not jobs:
        raise InputError(
            "week", "no job has a due date", 'write for example due = "2026-12-04" into [part]'
        )
    names: set[str] = set()
    for job in jobs:
        if job.name.casefold() in names:
            raise InputError(
                "part.name", "two jobs have this name", "give one of them another name",
                value=job.name,
            )  # fmt: skip
        names.add(job.name.casefold())
        if job.due < today:
            raise InputError(
                job.name, "its due date is in the past", "give the day it is wanted now"
            )
