"""From a job and the shop's log to what is known of its bends."""

from __future__ import annotations

from collections.abc import Iterable

from attrs import evolve, frozen

from strapwright.bending.bend_band import NINETY, Spreads
from strapwright.bending.bend_values import BendSetup
from strapwright.bending.shop_spreads import USUAL_SPREADS, ShopSpreads
from strapwright.findings import Count, Finding, Length, Severity, Yes
from strapwright.learning.blank_legs import LearnedBlank
from strapwright.learning.foretelling import Foretold, foretell
from strapwright.learning.learn import Learned, learn
from strapwright.learning.learned_figures import LearnedFigure, learned_figures
from strapwright.learning.log_readings import Places, Reading
from strapwright.planning.from_the_log.pushed_bend import PushedBend, pushed_bend, whole_bend
from strapwright.planning.made_bend import MadeBend
from strapwright.shop.job import Job
from strapwright.shop.press import Press

# A bend is bent about this much further under load than it keeps; only says how well the solver
# does there (numerical).
_UNDER_LOAD = 1.04


@frozen(kw_only=True, eq=False)
class LearnedJob:
    """What the log says of the things that a job is made with.

    Attributes
    ----------
    learned
        From every line of the log that shares the lot, the press or the tooling.
    places
        What the job is made with.
    blank
        What measured legs of this lot and tooling say; ``None`` of none.
    """

    learned: Learned
    places: Places
    blank: LearnedBlank | None = None

    @property
    def says_anything(self) -> bool:
        """Whether the log says anything of bends or blank."""
        return bool(self.learned.entries) or self.blank is not None

    @property
    def has_bent(self) -> bool:
        """Whether the log has a push of this very lot on this tooling."""
        owners = {(latent.owner, latent.key) for latent in self.learned.latents}
        return {("lot", self.places.lot), ("tooling", self.places.tooling)} <= owners

    def allowed(self, made: MadeBend) -> MadeBend:
        """Return a bend with the length in the flat that measured parts say it takes up."""
        if self.blank is None:
            return made
        bend = made.released
        more = self.blank.per_rad * bend.angle
        return evolve(made, released=evolve(bend, flat_length=bend.flat_length + more))

    def findings(self) -> list[Finding]:
        """Say that the log was used, and which of its lines do not fit the others."""
        owners = {(latent.owner, latent.key) for latent in self.learned.latents}
        at = self.places
        shared = {
            "lot": ("lot", at.lot) in owners,
            "press": ("press", at.press) in owners,
            "tooling": ("tooling", at.tooling) in owners,
        }
        if not any(shared.values()):
            return []
        found = [
            Finding(
                code="learned-from-log",
                severity=Severity.NOTE,
                about=(),
                facts={
                    "readings": Count(len(self.learned.entries)),
                    **{name: Yes(there) for name, there in shared.items()},
                },
            )
        ]
        found += [
            Finding(
                code="log-line-does-not-fit",
                severity=Severity.WARNING,
                about=(),
                facts={"line": Count(int(line))},
            )
            for line in dict.fromkeys(one.entry for one in self.learned.outliers)
        ]
        return found

    def blank_findings(self, job: Job) -> list[Finding]:
        """Say that measured parts went into the blank, and by how much they moved it.

        Nothing is said of a job whose bends :meth:`allowed` leaves as they are.
        """
        turned = turned_alone(job)
        if self.blank is None or turned <= 0.0:
            return []
        return [
            Finding(
                code="blank-from-measured-parts",
                severity=Severity.NOTE,
                about=(),
                facts={
                    "parts": Count(self.blank.parts),
                    "more": Length(self.blank.per_rad * turned),
                    "half": Length(NINETY * self.blank.spread * turned),
                },
            )
        ]

    def foretold(self, job: Job, bend: int, travel: float) -> Foretold | None:
        """Foretell a push of a bend of the job to a travel; ``None`` where it jams before.

        Parameters
        ----------
        job
            With its tooling.
        bend
            Its number along the bar, from 1; of a series of hits the whole bend is foretold.
        travel
            From first contact as found [mm].

        Raises
        ------
        InputError
            If there is no such bend, no tooling, or a stack jams before its angle.
        """
        pushed = pushed_bend(job, bend)
        push = pushed.push(self.places, job.press, travel)
        # What the log taught is of the job's own tooling.
        learned = self.learned if job.part.tool_of(bend) == 0 else learn([])
        known = learned.spread(push, _UNDER_LOAD * pushed.angle)
        found = foretell(push, known, travel)
        return None if found is None else whole_bend(found, pushed.hits)

    def figures(self, job: Job) -> tuple[LearnedFigure, ...]:
        """Return what was learned of the job's lot, press and tooling, figure by figure.

        Nothing of a job whose bends are all made on other tooling than its own.

        Raises
        ------
        InputError
            If the job has no tooling.
        """
        bend = own_bend(job)
        if bend is None:
            return ()
        pushed = pushed_bend(job, bend)
        push = pushed.push(self.places, job.press)
        return learned_figures(self.learned, push, _UNDER_LOAD * pushed.angle)

    def bend(self, pushed: PushedBend) -> tuple[BendSetup, Spreads]:
        """Return a bend and how well it is known, both by what was learned."""
        if not self.learned.entries:
            return pushed.setup, pushed.spreads
        known = self.learned.spread(pushed.push(self.places, None), _UNDER_LOAD * pushed.angle)
        return known.middle(pushed.setup), evolve(pushed.spreads, learned=known)


def own_bend(job: Job) -> int | None:
    """Return the first bend, from 1, that is made on the job's own tooling; ``None`` of none."""
    part = job.part
    numbers = range(1, len(part.bends) + 1)
    return next((number for number in numbers if part.tool_of(number) == 0), None)


def turned_alone(job: Job) -> float:
    """Sum of the bends of a job whose take-up measured parts correct [rad].

    Those are bends of one bar by one push on the job's own tooling, in a blank that is worked out
    from the strain.
    """
    if job.blank.method != "strain" or job.part.stacked > 1 or job.tooling is None:
        return 0.0
    part = job.part
    return sum(
        bend.angle
        for number, bend in enumerate(part.bends, start=1)
        if bend.radius is None and part.tool_of(number) == 0
    )


@frozen(kw_only=True)
class LogLine:
    """One push as the log has it, with the job it was of; mm, MPa, rad.

    Attributes
    ----------
    entry
        Its name.
    job
        As it is known now: with the lot, press and tooling that it was made with.
    free, loaded
        Of the whole bend, where it is made by a series of hits.
    bend
        Its number along the bar, from 1.
    looks
        How often the angle after release was measured; ``free`` is the mean.
    """

    entry: str
    job: Job
    places: Places
    travel: float
    free: float | None
    loaded: float | None
    gauge: float | None
    bend: int = 1
    looks: int = 1

    @property
    def compared(self) -> bool:
        """Whether anything was read that a push is compared by."""
        return any(one is not None for one in (self.free, self.loaded, self.gauge))


def readings_of(lines: Iterable[LogLine], shop: ShopSpreads = USUAL_SPREADS) -> list[Reading]:
    """Turn lines of the log into what is learned from.

    Raises
    ------
    InputError
        If a job has no tooling, or something in it contradicts itself.
    """
    found = []
    for line in lines:
        if line.job.tooling is None:
            continue  # nothing is foretold without one, so there is nothing to compare
        if not line.compared:
            continue  # measured legs alone say nothing of how it was pushed
        press, pushed = line.job.press, pushed_bend(line.job, line.bend, shop)
        found.append(
            Reading(
                entry=line.entry,
                push=pushed.push(line.places, press, line.travel),
                travel=line.travel,
                free=None if line.free is None else line.free / pushed.hits,
                # Under load only the last hit is; the others have sprung back already.
                loaded=line.loaded if pushed.hits == 1 else None,
                gauge=line.gauge,
                gauge_step=step_of_gauge(press),
                hits=pushed.hits,
                looks=line.looks,
            )
        )
    return found


def step_of_gauge(press: Press | None) -> float:
    """Return the smallest division of a press's gauge, 0 where it is not stated [MPa]."""
    return 0.0 if press is None or press.gauge_step is None else press.gauge_step
