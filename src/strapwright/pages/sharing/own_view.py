"""In which units one device is shown figures: what the job says stays as it is."""

from __future__ import annotations

from typing import Literal, cast, get_args

from attrs import evolve, frozen

from strapwright.planning.plan_values import Plan
from strapwright.quantities import Reading, Units
from strapwright.shop.job import Job
from strapwright.wording.figures import reading_of

Lengths = Literal["fractions", "decimals"]
_NAMES = {"inch": "inches and psi", "metric": "mm and bar"}


@frozen(kw_only=True)
class OwnView:
    """How a device is shown figures; ``None`` is as each job says.

    Attributes
    ----------
    units
        Of every figure.
    lengths
        How lengths on the bar are read in inches; what the ram is set to is always in decimals.
    """

    units: Units | None = None
    lengths: Lengths | None = None

    @property
    def text(self) -> str:
        """It as a browser keeps it."""
        return f"{self.units or ''}.{self.lengths or ''}"


AS_EACH_JOB = OwnView()


def read_view(units: str, lengths: str) -> OwnView:
    """Read what a person chose; anything else is as each job says."""
    return OwnView(
        units=cast("Units", units) if units in get_args(Units) else None,
        lengths=cast("Lengths", lengths) if lengths in get_args(Lengths) else None,
    )


def kept_view(text: str) -> OwnView:
    """Read what a browser kept."""
    units, _, lengths = text[:40].partition(".")
    return read_view(units, lengths)


def seen_job(job: Job, view: OwnView) -> Job:
    """Return a job as a device is told of it: for words and drawings alone.

    Nothing is worked out from it, nothing it says is kept, and no sheet is made of it: its units
    are not those of its file.
    """
    units, reading = view.units or job.units, _reading(job, view)
    if units == job.units and reading == reading_of(job):
        return job
    return evolve(job, units=units, blank=evolve(job.blank, reading=reading))


def seen(made: Plan, view: OwnView) -> Plan:
    """Return a plan as a device is told of it, see :func:`seen_job`."""
    job = seen_job(made.job, view)
    return made if job is made.job else evolve(made, job=job)


def _reading(job: Job, view: OwnView) -> Reading:
    units, own = view.units or job.units, reading_of(job)
    if units == "metric" or (own == "mm" and view.units is None):
        return "mm"
    if view.lengths == "decimals":
        return "decimal"
    fraction = own not in ("mm", "decimal")
    if view.lengths == "fractions" or own == "mm":
        return own if fraction else "1/64"
    return own


def shown_words(job: Job, view: OwnView) -> str:
    """Say that figures are shown in other units than those of the job; else nothing."""
    units = view.units or job.units
    if units == job.units:
        return ""
    return (
        f"Figures are shown in {_NAMES[units]} on this device. "
        f"The job and its sheets are in {_NAMES[job.units]}."
    )
