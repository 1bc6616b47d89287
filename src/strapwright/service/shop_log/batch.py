"""One bend over the pieces of a batch: chart, tolerance, first piece, and a set-up that moved."""

from __future__ import annotations

import math
from pathlib import Path
from typing import Literal

import numpy as np
from attrs import frozen

from strapwright.bending.bend_band import NINETY
from strapwright.learning.control_chart import (
    Chart,
    Shift,
    Verdict,
    chart,
    first_off,
    shift,
    steady_deviation,
)
from strapwright.learning.log_spreads import USUAL_LOG
from strapwright.planning.from_the_log.bend_now import BendNow, bend_now
from strapwright.service.load_job import load_job
from strapwright.service.shop_log.learned_jobs import learned_from
from strapwright.service.shop_log.log_files import shop_as_it_is
from strapwright.service.shop_log.logged_push import JobText
from strapwright.service.shop_log.typed_readings import angles_read, free_angle
from strapwright.shop.job import Job
from strapwright.shop.part_limits import bend_limit
from strapwright.store import LogEntry, Store

# A pressure that has gone with the angle by more than this says that the bar has changed and not
# the set-up; common practice, no source.
_BAR = 0.05

Cause = Literal["harder bar", "softer bar", "set-up"]


@frozen(kw_only=True)
class Piece:
    """One piece of a batch.

    Attributes
    ----------
    part, line
        Its number, and the line of the log with its last reading.
    free
        Angle after release [rad].
    at_one_stop
        The same as if every piece had been pushed to the first one's stop [rad].
    gauge
        Pressure, or ``None`` [MPa].
    inside
        Whether it is in tolerance as read.
    """

    part: int
    line: int
    free: float
    at_one_stop: float
    gauge: float | None
    inside: bool


@frozen(kw_only=True)
class Batch:
    """One bend over the pieces.

    Attributes
    ----------
    wanted, tolerance
        Angle, and how far off it may be [rad].
    chart
        Of the angles at one stop; ``None`` of fewer than two pieces.
    moved
        A lasting shift from the wanted angle, or ``None``.
    cause
        What it looks like; ``None`` where nothing moved.
    first
        Verdict on the first piece; ``None`` where none was read.
    """

    job: Job
    bend: int
    wanted: float
    tolerance: float
    pieces: tuple[Piece, ...]
    chart: Chart | None
    moved: Shift | None
    cause: Cause | None
    first: Verdict | None


def batch_of_file(path: Path, folder: Path | None, bend: int) -> Batch:
    """Return one bend of a job over its pieces; see :func:`batch_of`."""
    job = load_job(path)
    with shop_as_it_is(path, folder) as shop:
        return batch_of(shop.store, shop.job, job, bend)


def batch_of(
    store: Store, opened: JobText, job: Job, bend: int, now: BendNow | None = None
) -> Batch:
    """Return one bend of a job over the pieces that were logged.

    Parameters
    ----------
    store, opened, job
        The job in its store, and what it says.
    bend
        Its number along the bar, from 1.
    now
        The bend by what is known of it, where that was worked out already.

    Raises
    ------
    InputError
        If there is no such bend, or it cannot be made.
    """
    if now is None:
        now = bend_now(job, learned_from(store, opened.text, job), bend)
    last: dict[int, LogEntry] = {}
    for one in store.log.lines(opened.item):
        # A trial is logged as a part past the last one: it is none of the batch.
        of_batch = one.part <= job.part.quantity
        if of_batch and one.bend == bend and one.counted and angles_read(one.figures):
            last[one.part] = one
    tolerance, _ = bend_limit(job.part, bend)
    entries = [last[part] for part in sorted(last)]
    stop = entries[0].figures["travel"] if entries else 0.0
    measured = [free_angle(one.figures) or 0.0 for one in entries]
    slope = _slope(now)
    pieces = tuple(
        Piece(
            part=one.part,
            line=one.line,
            free=free,
            at_one_stop=free - slope * (one.figures["travel"] - stop),
            gauge=one.figures.get("gauge"),
            inside=abs(free - now.wanted) <= tolerance,
        )
        for one, free in zip(entries, measured, strict=True)
    )
    angles = [one.at_one_stop for one in pieces]
    found = chart(angles)
    # Single pieces differ at least by what a protractor and a stop leave open.
    least = math.hypot(USUAL_LOG.protractor, slope * USUAL_LOG.stop)
    moved = shift(angles, now.wanted, steady_deviation(found, least))
    looks = len(angles_read(entries[0].figures)) if entries else 1
    reading = NINETY * USUAL_LOG.protractor / math.sqrt(looks)
    return Batch(
        job=job,
        bend=bend,
        wanted=now.wanted,
        tolerance=tolerance,
        pieces=pieces,
        chart=found,
        moved=moved,
        cause=None if moved is None else _cause(pieces, moved),
        first=first_off(pieces[0].free, now.wanted, tolerance, reading) if pieces else None,
    )


def _slope(now: BendNow) -> float:
    """Turning of the whole bend's free angle with the travel about the setting [rad/mm]."""
    curve, at = now.curve, now.travel
    ends = np.interp([0.95 * at, 1.05 * at], curve.travel, curve.free_angle)
    return now.hits * float(ends[1] - ends[0]) / (0.1 * at)


def _cause(pieces: tuple[Piece, ...], moved: Shift) -> Cause:
    """Say what a shift looks like: a pressure that went with it means another bar."""
    before = [one.gauge for one in pieces[: moved.since] if one.gauge is not None]
    after = [one.gauge for one in pieces[moved.since :] if one.gauge is not None]
    if not before or not after:
        return "set-up"
    change = float(np.mean(after)) / float(np.mean(before)) - 1.0
    if abs(change) < _BAR:
        return "set-up"
    return "harder bar" if change > 0.0 else "softer bar"
