"""From a job and the shop's log to what is known of its bends."""

from __future__ import annotations

from collections.abc import Iterable

from attrs import evolve, frozen

from strapwright.bending.bend_band import NINETY, Spreads
from strapwright.bending.bend_values import BendSetup
from strapwright.bending.hydraulics import pressure_for
from strapwright.bending.shop_spreads import USUAL_SPREADS, ShopSpreads
from strapwright.errors import InputError
from strapwright.findings import Count, Finding, Length, Severity, Yes
from strapwright.learning.blank_legs import LearnedBlank
from strapwright.learning.foretelling import Foretold, foretell
from strapwright.learning.learn import Learned
from strapwright.learning.learned_figures import LearnedFigure, learned_figures
from strapwright.learning.log_readings import Places, Push, Reading
from strapwright.planning.bend_setups import bend_setup, known_bar, spreads_of
from strapwright.planning.made_bend import MadeBend
from strapwright.shop.job import Job
from strapwright.shop.press import Press
from strapwright.shop.tooling import Tooling

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
        """Say that measured parts went into the blank, and by how much they moved it."""
        if self.blank is None:
            return []
        turned = sum(bend.angle for bend in job.part.bends)
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

    def foretold(self, job: Job, angle: float, travel: float) -> Foretold | None:
        """Foretell a push of a bend of the job to a travel; ``None`` where it jams before.

        Parameters
        ----------
        job
            With its tooling.
        angle
            Of the bend, wanted [rad].
        travel
            From first contact as found [mm].

        Raises
        ------
        InputError
            If the job has no tooling.
        """
        push = self.push(job)
        known = self.learned.spread(push, _UNDER_LOAD * angle)
        return foretell(push, known, travel)

    def figures(self, job: Job, angle: float) -> tuple[LearnedFigure, ...]:
        """Return what was learned of the job's lot, press and tooling, figure by figure.

        Raises
        ------
        InputError
            If the job has no tooling.
        """
        return learned_figures(self.learned, self.push(job), _UNDER_LOAD * angle)

    def push(self, job: Job) -> Push:
        """Return a bend of the job as the shop states it.

        Raises
        ------
        InputError
            If the job has no tooling.
        """
        tooling = with_tooling(job)
        known = known_bar(job, USUAL_SPREADS.bar)
        setup = bend_setup(job, known, tooling)
        spreads = spreads_of(job, known, tooling, USUAL_SPREADS)
        return push_of(setup, spreads, self.places, job.press)

    def bend(
        self, job: Job, setup: BendSetup, spreads: Spreads, angle: float
    ) -> tuple[BendSetup, Spreads]:
        """Return a bend and how well it is known, both by what was learned.

        Parameters
        ----------
        setup, spreads
            As the shop states them.
        angle
            Free angle wanted [rad].
        """
        if not self.learned.entries:
            return setup, spreads
        push = push_of(setup, spreads, self.places, job.press)
        known = self.learned.spread(push, _UNDER_LOAD * angle)
        return known.middle(setup), evolve(spreads, learned=known)


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


def push_of(setup: BendSetup, spreads: Spreads, places: Places, press: Press | None) -> Push:
    """Return a bend as it is learned from and foretold."""
    if press is None or press.bore is None:
        return Push(setup=setup, spreads=spreads, places=places)
    return Push(
        setup=setup,
        spreads=spreads,
        places=places,
        per_force=pressure_for(1.0, press.bore, press.efficiency),
        no_load=press.no_load,
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
    """

    entry: str
    job: Job
    places: Places
    travel: float
    free: float | None
    loaded: float | None
    gauge: float | None

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
        job, tooling = line.job, line.job.tooling
        if tooling is None:
            continue  # nothing is foretold without one, so there is nothing to compare
        if not line.compared:
            continue  # measured legs alone say nothing of how it was pushed
        known = known_bar(job, shop.bar)
        setup = bend_setup(job, known, tooling)
        spreads = spreads_of(job, known, tooling, shop)
        press = job.press
        found.append(
            Reading(
                entry=line.entry,
                push=push_of(setup, spreads, line.places, press),
                travel=line.travel,
                free=line.free,
                loaded=line.loaded,
                gauge=line.gauge,
                gauge_step=0.0 if press is None or press.gauge_step is None else press.gauge_step,
            )
        )
    return found
