"""An unknown bar and a trial bend, by the path of a job."""

from __future__ import annotations

import textwrap
from collections.abc import Iterable, Mapping, Sequence
from pathlib import Path
from typing import Any

from attrs import frozen

from strapwright.bending.bend_values import BendSetup
from strapwright.errors import InputError
from strapwright.learning.trial_bend import Trial, trials
from strapwright.planning.from_the_log.bend_now import BendNow, bend_now
from strapwright.planning.from_the_log.learned_job import (
    LearnedJob,
    LogLine,
    readings_of,
    step_of_gauge,
)
from strapwright.planning.from_the_log.pushed_bend import pushed_bend
from strapwright.planning.from_the_log.unknown_grade import Unknown, grades_that_fit
from strapwright.planning.natural_order import need_of
from strapwright.service.load_job import load_job
from strapwright.service.shop_log.learned_jobs import gather, learned_from, things_in
from strapwright.service.shop_log.log_files import shop_as_it_is
from strapwright.shop.job import Job
from strapwright.store import Store
from strapwright.wording.figures import figures_for
from strapwright.wording.shop_log.trial_words import trial_words
from strapwright.wording.shop_log.unknown_words import hard_words, unknown_words

WIDTH = 88  # columns


@frozen(kw_only=True)
class TrialPlan:
    """Which trial tells most.

    Attributes
    ----------
    off_cut
        Length of bar that it needs at least [mm].
    found
        Trials, the one that tells most first.
    """

    job: Job
    off_cut: float
    found: tuple[Trial, ...]


def what_it_may_be(path: Path, folder: Path | None, seen: Mapping[str, str]) -> Unknown:
    """Say which grades fit the bar of a job by its log and the tests of the bench.

    Raises
    ------
    InputError
        If the job cannot be read, or no grade bends as the log says.
    """
    job = load_job(path)
    with shop_as_it_is(path, folder) as shop:
        return bar_of_log(shop.store, shop.job.text, job, seen)


def bar_of_log(store: Store, text: str, job: Job, seen: Mapping[str, str]) -> Unknown:
    """Say which grades fit the bar of a job by the log of an opened store.

    Parameters
    ----------
    store
        Opened.
    text, job
        The job file and what it says.
    seen
        Name of a test of the bench -> what it showed.

    Raises
    ------
    InputError
        If no grade bends as the log says.
    """
    things = things_in(store, text, job)
    found = gather(store, job, things)
    lines = [
        line
        for line, entry in zip(found.lines, found.entries, strict=True)
        if entry.lot == things.lot
    ]
    return grades_that_fit(lines, seen, job.part.bar.thickness)


def trial_plan(path: Path, folder: Path | None, bend: int) -> TrialPlan:
    """Say which trial push tells most of a bend before the first good part.

    Raises
    ------
    InputError
        If the job cannot be read, there is no such bend, or the tooling jams before its angle or
        before every trial.
    """
    job = load_job(path)
    with shop_as_it_is(path, folder) as shop:
        known = learned_from(shop.store, shop.job.text, job)
        lines = gather(shop.store, job, things_in(shop.store, shop.job.text, job)).lines
    return trial_of(job, known, lines, bend)


def trial_of(job: Job, known: LearnedJob, lines: Sequence[LogLine], bend: int) -> TrialPlan:
    """Say which trial push tells most of a bend, by what is known of its job.

    Parameters
    ----------
    job
        With its tooling.
    known, lines
        What the log taught of it, and the lines that it rests on.
    bend
        Its number along the bar, from 1.

    Raises
    ------
    InputError
        If there is no such bend, or the tooling jams before its angle or before every trial.
    """
    now = bend_now(job, known, bend)
    pushed = pushed_bend(job, bend)
    push = pushed.push(known.places, job.press, now.travel)
    found = trials(push, now.travel, readings_of(lines), gauge_step=step_of_gauge(job.press))
    if not found:
        raise InputError(
            f"bend {bend}",
            "the tooling jams before this bend, so no trial tells anything of it",
            "check nose, shoulders and bar in the job, and the travels in its log",
        )
    return TrialPlan(job=job, off_cut=_off_cut(pushed.setup, now), found=found)


def _off_cut(setup: BendSetup, now: BendNow) -> float:
    loaded = float(now.curve.loaded_angle[-1])
    return 2.0 * need_of(setup, loaded, now.travel, setup.nose_radius).straight


def unknown_to_text(found: Unknown) -> str:
    """Write what a bar may be."""
    return _wrapped(unknown_words(found))


def hard_to_text() -> str:
    """Write what holds of a bar that a file does not bite."""
    return _wrapped([hard_words()])


def _wrapped(said: Iterable[str]) -> str:
    return "\n".join(line for one in said for line in textwrap.wrap(one, WIDTH)) + "\n"


def unknown_to_data(found: Unknown, *, skates: bool) -> dict[str, Any]:
    """Turn what a bar may be into plain data."""
    return {
        "format": 1,
        "hardened": skates,
        "pushes": found.bends,
        "odds": {name: round(share, 4) for name, share in found.odds.odds},
        "stated": list(found.odds.stated),
        "next_test": found.odds.next_test,
        "no_weld": list(found.no_weld),
        "smallest_radius_in_thicknesses": found.sharpest,
        "brittle": list(found.brittle),
    }


def trial_to_text(found: TrialPlan) -> str:
    """Write which trial tells most."""
    said = trial_words(found.found[0], found.off_cut, figures_for(found.job))
    return "\n".join(textwrap.wrap(said, WIDTH)) + "\n"


def trial_to_data(found: TrialPlan) -> dict[str, Any]:
    """Turn trials into plain data: mm and rad."""
    return {
        "format": 1,
        "off_cut_mm": found.off_cut,
        "trials": [
            {
                "travel_mm": one.travel,
                "gauge": one.gauge,
                "deviation_before_rad": one.before,
                "deviation_after_rad": one.after,
            }
            for one in found.found
        ],
    }
