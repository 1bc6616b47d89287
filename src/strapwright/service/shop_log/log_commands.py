"""The log as commands use it: by the path of a job file."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import UTC, datetime
from pathlib import Path

from attrs import frozen

from strapwright.bending.bend_values import Band
from strapwright.errors import InputError
from strapwright.motion.refused_bends import has_no_stop
from strapwright.planning.from_the_log.learned_job import LearnedJob
from strapwright.planning.plan import plan
from strapwright.service.load_job import load_job
from strapwright.service.search_clock import within
from strapwright.service.shop_log.corrected_line import asked_of_change, change_line
from strapwright.service.shop_log.learned_jobs import gather, learned_from, things_in
from strapwright.service.shop_log.log_files import shop_as_it_is, shop_of
from strapwright.service.shop_log.logged_push import Logged, log_push
from strapwright.service.shop_log.part_goes_on import Aim
from strapwright.shop.job import Job
from strapwright.store import LogEntry, Store
from strapwright.wording.reader import at_command
from strapwright.wording.telling import tell_all


def add_line(
    path: Path,
    folder: Path | None,
    typed: Mapping[str, str],
    *,
    bend: int,
    part: int | None,
    sure: bool,
    new_mounting: bool,
) -> Logged:
    """Keep one push of a job; see :func:`strapwright.service.shop_log.logged_push.log_push`.

    Raises
    ------
    InputError
        As there; or if the bend cannot be made as entered.
    """
    made = plan(load_job(path), keep_going=within())
    if any(one.bend == bend and has_no_stop(made, one) for one in made.steps):
        raise InputError(
            f"bend {bend}",
            "this bend cannot be made as entered, so there is nothing to compare a reading with",
            "plan the job again and fix what it refuses first",
        )
    with shop_of(path, folder) as shop:
        return log_push(
            shop.store,
            shop.job,
            typed,
            bend=bend,
            at=datetime.now(UTC),
            part=part,
            sure=sure,
            new_mounting=new_mounting,
        )


def lines_of(path: Path, folder: Path | None) -> tuple[LogEntry, ...]:
    """Return the log of a job as it is now, oldest first."""
    with shop_as_it_is(path, folder) as shop:
        return shop.store.log.lines(shop.job.item)


def correct_line(
    path: Path,
    folder: Path | None,
    line: int,
    typed: Mapping[str, str],
    *,
    counted: bool | None,
    why: str,
) -> tuple[LogEntry, ...]:
    """Correct a line of a job, or leave it out; return its states, the newest first.

    Raises
    ------
    InputError
        If nothing is to be changed, something cannot be read, or the line is of another job.
    Missing
        If there is no such line.
    """
    with shop_as_it_is(path, folder) as shop:
        return change_line(shop.store, shop.job, line, typed, counted=counted, why=why)


def asked_of_line(
    path: Path, folder: Path | None, line: int, typed: Mapping[str, str]
) -> tuple[str, ...]:
    """Return the questions about a corrected line before it is kept, a sentence each.

    Raises
    ------
    InputError
        If something typed cannot be read.
    Missing
        If there is no such line.
    """
    with shop_as_it_is(path, folder) as shop:
        asked = asked_of_change(shop.store, shop.job, line, typed)
        return tuple(one.sentence for one in tell_all(asked, at_command(load_job(path))))


@frozen(kw_only=True)
class Settled:
    """Where one bend stops [mm], and between which values its angle comes out [rad]."""

    bend: int
    before: Aim
    now: Aim
    free_before: Band
    free_now: Band


@frozen(kw_only=True)
class Known:
    """What the log says of a job.

    Attributes
    ----------
    job
        As it is now.
    learned
        From the log.
    left_out
        Lines that teach nothing, each with the reason.
    settings
        Where each bend stops, before any reading and now; none where nothing was learned.
    """

    job: Job
    learned: LearnedJob
    left_out: tuple[tuple[int, str], ...]
    settings: tuple[Settled, ...]


def known_of(path: Path, folder: Path | None) -> Known:
    """Learn what the log says of a job.

    Raises
    ------
    InputError
        If the job cannot be read.
    StoreError
        If the store cannot be opened.
    """
    job = load_job(path)
    with shop_as_it_is(path, folder) as shop:
        return known_in(shop.store, shop.job.text, job)


def known_in(store: Store, text: str, job: Job) -> Known:
    """Learn what the log of an opened store says of a job.

    Parameters
    ----------
    store
        Opened.
    text, job
        The job file and what it says.
    """
    found = gather(store, job, things_in(store, text, job))
    learned = learned_from(store, text, job)
    return Known(job=job, learned=learned, left_out=found.left_out, settings=_settled(job, learned))


def _settled(job: Job, learned: LearnedJob) -> tuple[Settled, ...]:
    if not learned.learned.entries:
        return ()
    before = {step.bend: step for step in plan(job, search=False).steps}
    now = {step.bend: step for step in plan(job, search=False, learned=learned).steps}
    return tuple(
        Settled(
            bend=bend,
            before=Aim(travel=before[bend].setting.travel, band=before[bend].bands.travel),
            now=Aim(travel=now[bend].setting.travel, band=now[bend].bands.travel),
            free_before=before[bend].bands.free_angle,
            free_now=now[bend].bands.free_angle,
        )
        for bend in sorted(before.keys() & now.keys())
    )
