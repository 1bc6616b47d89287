"""One bend by all that is known now, without the rest of its job: quick enough at the press."""

from __future__ import annotations

from attrs import frozen

from strapwright.bending.bend_band import band_of
from strapwright.bending.bend_values import Band, StrokeCurve
from strapwright.bending.shop_spreads import USUAL_SPREADS
from strapwright.errors import BendAt, InputError
from strapwright.planning.bend_setups import bend_setup, known_bar, spreads_of
from strapwright.planning.from_the_log.learned_job import LearnedJob, with_tooling
from strapwright.planning.hits_and_stacks.hit_rows import rows_of
from strapwright.planning.made_bend import make_bend
from strapwright.shop.job import Job


@frozen(kw_only=True)
class BendNow:
    """One bend as it is set now; of a row of hits, one hit.

    Attributes
    ----------
    wanted
        Free angle [rad].
    travel, travel_band
        Setting from first contact as found, and what meets the angle nine times in ten [mm].
    free_band
        Angle that the setting gives, nine times in ten [rad].
    jam
        Loaded angle at which the tooling jams [rad].
    curve
        The stroke, as read at the press.
    """

    wanted: float
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
    tooling, count = with_tooling(job), len(job.part.bends)
    if not 1 <= bend <= count:
        raise InputError(
            "bend", "there is no such bend", f"give a number from 1 to {count}", value=str(bend)
        )
    known = known_bar(job, USUAL_SPREADS.bar)
    row = rows_of(job, known)[bend - 1]
    angle = job.part.bends[bend - 1].angle if row is None else row.angle
    setup = bend_setup(job, known, tooling)
    spreads = spreads_of(job, known, tooling, USUAL_SPREADS)
    setup, spreads = learned.bend(job, setup, spreads, angle)
    made = make_bend(setup, angle, spreads, tooling.shoulders, BendAt(bend))
    return BendNow(
        wanted=angle,
        travel=made.state.travel,
        travel_band=band_of(made.sample.travel),
        free_band=band_of(made.sample.free),
        jam=made.jam,
        curve=made.curve,
    )
