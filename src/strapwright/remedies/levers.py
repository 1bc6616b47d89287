"""What can be changed about a refused job: each quantity with its range and its steps."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any

from attrs import evolve, field, frozen

from strapwright.planning.remedy_values import Change, Named, Tried, What
from strapwright.quantities.inside_units import INCH_MM
from strapwright.shop.job import Job
from strapwright.shop.tooling import Tooling

EVEN = 1e-6  # mm, below which two lengths are the same

Put = Callable[[Job, float], Job]


@frozen(kw_only=True)
class Lever:
    """One quantity of a job that may be changed.

    Attributes
    ----------
    what, numbers
        As for a :class:`~strapwright.planning.remedy_values.Change`.
    now
        As stated; ``None`` where it is not [mm or rad].
    start, end
        Values lie between them, ``end`` furthest from what is stated [mm or rad].
    step
        Of the shop [mm or rad].
    put
        Returns the job with the quantity at a value.
    tooling
        As for a :class:`~strapwright.planning.remedy_values.Change`.
    """

    what: What
    numbers: tuple[int, ...] = ()
    now: float | None
    start: float
    end: float
    step: float
    put: Put = field(eq=False)
    tooling: Named | None = None

    def values(self) -> tuple[float, ...]:
        """Whole steps from the stated value to the end, nearest first, neither start nor past."""
        if self.end >= self.start:
            first = math.floor(self.start / self.step + EVEN) + 1
            last = math.floor(self.end / self.step + EVEN)
            return tuple(self._value(k) for k in range(first, last + 1))
        first = math.ceil(self.start / self.step - EVEN) - 1
        last = math.ceil(self.end / self.step - EVEN)
        return tuple(self._value(k) for k in range(first, last - 1, -1))

    def _value(self, steps: int) -> float:
        return round(steps * self.step, 9)

    def tried(self) -> Tried:
        """Return what was varied, and from where to where."""
        return Tried(
            what=self.what,
            numbers=self.numbers,
            old=self.now,
            end=self.end,
            tooling=self.tooling,
        )

    def change(self, new: float, furthest: float) -> Change:
        """Return the change to a value."""
        return Change(
            what=self.what,
            numbers=self.numbers,
            old=self.now,
            new=new,
            furthest=furthest,
            step=self.step,
            tooling=self.tooling,
        )


def fine_step(job: Job) -> float:
    """Step of sizes that are set or cut [mm]: 1/16 in, or 1 mm."""
    return INCH_MM / 16 if job.units == "inch" else 1.0


def coarse_step(job: Job) -> float:
    """Step of heights and of plates [mm]: 1/4 in, or 5 mm."""
    return INCH_MM / 4 if job.units == "inch" else 5.0


def of_tooling(change: Callable[[Tooling, float], Tooling]) -> Put:
    """Return what puts a size into the tooling of a job."""

    def put(job: Job, value: float) -> Job:
        return job if job.tooling is None else evolve(job, tooling=change(job.tooling, value))

    return put


def of_nose(name: str) -> Put:
    """Return what puts a size of the nose by its name."""

    def change(tooling: Tooling, value: float) -> Tooling:
        sizes: dict[str, Any] = {name: value}
        return evolve(tooling, nose=evolve(tooling.nose, **sizes))

    return of_tooling(change)


def of_shoulders(name: str) -> Put:
    """Return what puts a size of the shoulders by its name."""

    def change(tooling: Tooling, value: float) -> Tooling:
        sizes: dict[str, Any] = {name: value}
        return evolve(tooling, shoulders=evolve(tooling.shoulders, **sizes))

    return of_tooling(change)
