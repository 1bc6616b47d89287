"""One bend by all that is known now, without the rest of its job: quick enough at the press."""

from __future__ import annotations

from attrs import frozen

from strapwright.bending.bend_band import band_of
from strapwright.bending.bend_values import Band, StrokeCurve
from strapwright.errors import BendAt
from strapwright.planning.from_the_log.learned_job import LearnedJob
from strapwright.planning.from_the_log.pushed_bend import pushed_bend, times, with_tooling
from strapwright.planning.made_bend import make_bend
from strapwright.shop.job import Job


@frozen(kw_only=True)
class BendNow:
    """One bend as it is set now.

    Attributes
    ----------
    wanted
        Free angle, of a series of hits that of the whole bend [rad].
    hits
        Pushes that make it.
    travel, travel_band
        Setting from first contact as found, and what meets the angle nine times in ten [mm].
    free_band
        Angle that the setting gives, nine times in ten [rad].
    jam
        Loaded angle of one push at which the tooling jams [rad].
    curve
        The stroke of one push, as read at the press.
    """

    wanted: float
    hits: int
    travel: float
    travel_band: Band
    free_band: Band
    jam: float
    curve: StrokeCurve


def bend_now(job: Job, learned: LearnedJob, bend: int) -> BendNow:
    """Return a bend of a job by what the log taught.

    Parameters
    ----------
    job
        With its tooling.
    learned
        From the log; from no line, the bend is as planned.
    bend
        Its number along the bar, from 1.

    Raises
    ------
    InputError
        If there is no such bend, no tooling, or the tooling jams before the angle.
    """
    pushed = pushed_bend(job, bend)
    setup, spreads = pushed.setup, pushed.spreads
    if job.part.tool_of(bend) == 0:  # what the log taught is of the job's own tooling
        setup, spreads = learned.bend(pushed)
    shoulders = with_tooling(job.on_tooling_of(bend)).shoulders
    made = make_bend(setup, pushed.angle, spreads, shoulders, BendAt(bend))
    return BendNow(
        wanted=job.part.pressed_angle(bend),
        hits=pushed.hits,
        travel=made.state.travel,
        travel_band=band_of(made.sample.travel),
        free_band=times(band_of(made.sample.free), pushed.hits),
        jam=made.jam,
        curve=made.curve,
    )
