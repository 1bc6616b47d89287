"""One bend as it is pushed: of a series of hits one hit, of stacked bars the one at the nose."""

from __future__ import annotations

import math

import numpy as np
from attrs import evolve, frozen

from strapwright.bending.bend_band import Spreads
from strapwright.bending.bend_values import Band, BendSetup
from strapwright.bending.hydraulics import pressure_for
from strapwright.bending.shop_spreads import USUAL_SPREADS, ShopSpreads
from strapwright.bending.solver import curve_of
from strapwright.bending.solver_model import build
from strapwright.errors import BendAt, InputError
from strapwright.learning.foretelling import Figure, Foretold
from strapwright.learning.log_readings import Places, Push
from strapwright.planning.bend_setups import bend_setup, known_bar, spreads_of
from strapwright.planning.hits_and_stacks.hit_rows import rows_of
from strapwright.planning.hits_and_stacks.rubbing_bars import rubbing
from strapwright.planning.hits_and_stacks.stacked_bars import Stack, stack_of
from strapwright.shop.job import Job
from strapwright.shop.press import Press
from strapwright.shop.tooling import Tooling

# Bars that slide freely are at one end of what friction between them adds, bars that stick at the
# other, and anything between is as likely: the root of the mean square of an even distribution
# from nothing to the most is the most over this; exact.
_EVENLY = math.sqrt(3.0)
_POINTS = 100  # of a stroke; numerical


@frozen(kw_only=True)
class PushedBend:
    """One bend as the solver sees one push of it.

    Attributes
    ----------
    setup, spreads
        Of the bar at the nose, as the shop states it, and how well that is known.
    angle
        Free angle of one push [rad].
    hits
        Pushes that make the bend: more than 1 for a series of hits.
    stack
        The other bars; ``None`` for one alone.
    """

    setup: BendSetup
    spreads: Spreads
    angle: float
    hits: int
    stack: Stack | None

    @property
    def way(self) -> str:
        """What tells its own error of the solver from that of a plain bend; empty for one."""
        if self.stack is not None:
            return f"{len(self.stack.outers) + 1} bars"
        return "hits" if self.hits > 1 else ""

    def push(self, places: Places, press: Press | None, travel: float | None = None) -> Push:
        """Return it as it is learned from and foretold.

        Parameters
        ----------
        places
            What it is made with.
        press
            Of the job.
        travel
            Where a stack's share of the force is taken; ``None`` at its angle [mm].
        """
        share, more = (1.0, 0.0) if self.stack is None else self._stacked(self.stack, travel)
        plain = Push(
            setup=self.setup, spreads=self.spreads, places=places, way=self.way, more_force=more
        )
        if press is None or press.bore is None:
            return plain
        per_force = share * pressure_for(1.0, press.bore, press.efficiency)
        return evolve(plain, per_force=per_force, no_load=press.no_load)

    def _stacked(self, stack: Stack, travel: float | None) -> tuple[float, float]:
        """Force of the whole stack over that of the bar at the nose; what friction adds."""
        curve = curve_of(build(stack.inner), _POINTS)
        if travel is None:
            loaded = float(np.interp(self.angle, curve.free_angle, curve.loaded_angle))
        else:
            loaded = float(np.interp(travel, curve.travel, curve.loaded_angle))
        at = np.array([loaded])
        most = float(rubbing(stack.inner, len(stack.outers) + 1, at)[0])
        return float(stack.share(at)[0]), (most - 1.0) / _EVENLY


def pushed_bend(job: Job, bend: int, shop: ShopSpreads = USUAL_SPREADS) -> PushedBend:
    """Return a bend of a job as it is pushed.

    Parameters
    ----------
    job
        With its tooling.
    bend
        Its number along the bar, from 1.

    Raises
    ------
    InputError
        If there is no such bend, no tooling, or a stack jams before its angle.
    """
    tooling, count = with_tooling(job), len(job.part.bends)
    if not 1 <= bend <= count:
        raise InputError(
            "bend", "there is no such bend", f"give a number from 1 to {count}", value=str(bend)
        )
    tooling = with_tooling(job.on_tooling_of(bend))
    known = known_bar(job, shop.bar)
    row = rows_of(job, known)[bend - 1]
    angle = job.part.pressed_angle(bend) if row is None else row.angle
    setup = bend_setup(job, known, tooling)
    stack = stack_of(setup, job.part.stacked, angle, BendAt(bend))
    press = job.press
    if stack is not None:
        setup = stack.inner
        # The bar at the nose sees the machine give way to all of the stack.
        job = job if press is None else evolve(job, press=evolve(press, give=setup.give))
    return PushedBend(
        setup=setup,
        spreads=spreads_of(job, known, tooling, shop),
        angle=angle,
        hits=1 if row is None else row.hits,
        stack=stack,
    )


def with_tooling(job: Job) -> Tooling:
    """Return the tooling of a job.

    Raises
    ------
    InputError
        If it has none: nothing is foretold then.
    """
    if job.tooling is None:
        raise InputError(
            "tooling",
            "this job has no tooling, so no reading can be compared with anything",
            "write [tooling] with nose and shoulders into the job",
        )
    return job.tooling


def whole_bend(found: Foretold, hits: int) -> Foretold:
    """Return what is read of a whole series of hits, of which one was foretold."""
    if hits == 1:
        return found
    others = hits - 1
    free, loaded = found.free, found.loaded
    return evolve(
        found,
        free=Figure(value=hits * free.value, band=times(free.band, hits)),
        # All but the last hit are let go.
        loaded=Figure(
            value=loaded.value + others * free.value,
            band=Band(
                low=loaded.band.low + others * free.band.low,
                high=loaded.band.high + others * free.band.high,
            ),
        ),
    )


def times(band: Band, count: int) -> Band:
    """Return the band of so many pushes that are off alike."""
    return Band(low=count * band.low, high=count * band.high)
