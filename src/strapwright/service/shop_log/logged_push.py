"""What a person reads at the press: asked about where it cannot be, kept, and answered."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from datetime import datetime

from attrs import frozen

from strapwright.errors import InputError
from strapwright.findings import Finding
from strapwright.learning.doubts import Limits, Typed, doubts, leg_doubts
from strapwright.learning.foretelling import Foretold
from strapwright.planning.from_the_log.bend_now import bend_now
from strapwright.planning.from_the_log.learned_job import LearnedJob
from strapwright.planning.from_the_log.pushed_bend import with_tooling
from strapwright.planning.made_bend import JamsError
from strapwright.planning.plan import plan
from strapwright.service.shop_log.learned_jobs import (
    last_mounting,
    learned_from,
    part_name,
    things_in,
)
from strapwright.service.shop_log.part_goes_on import Aim, Onward, is_short, onward
from strapwright.service.shop_log.typed_readings import (
    angles_read,
    free_angle,
    read_legs,
    read_typed,
    refuse_unread,
)
from strapwright.shop.job import Job
from strapwright.shop.part_limits import bend_limit
from strapwright.shop_files.reading_job import read_job
from strapwright.store import LogEntry, Store


@frozen(kw_only=True)
class Logged:
    """What came of a reading.

    Attributes
    ----------
    job
        Of the reading.
    part, bend
        Which piece and which bend.
    entry
        As kept; ``None`` where it is asked about first.
    asked
        What is asked about.
    travel
        Of the push [mm].
    assumed
        Whether nobody typed it, so that the stop that was shown is taken.
    free, wanted
        Angle read and wanted [rad]; ``None`` where it was not read.
    expected
        What the push was foretold to show; ``None`` where the tooling jams before.
    onward
        What follows for this part; ``None`` before it is kept.
    next_part
        Setting for this bend of the next part, by what is known now; ``None`` where it cannot be
        made, or was not asked for.
    """

    job: Job
    part: int
    bend: int
    entry: LogEntry | None
    asked: tuple[Finding, ...]
    travel: float
    assumed: bool
    free: float | None
    wanted: float
    expected: Foretold | None
    onward: Onward | None
    next_part: Aim | None


@frozen(kw_only=True)
class JobText:
    """A job of the store as it is now."""

    item: str
    version: int
    text: str


def log_push(
    store: Store,
    opened: JobText,
    typed: Mapping[str, str],
    *,
    bend: int,
    at: datetime,
    part: int | None = None,
    sure: bool = False,
    new_mounting: bool = False,
    stop: float | None = None,
    ahead: bool = True,
    counted: bool = True,
    why: str = "",
) -> Logged:
    """Keep one reading, or ask about it.

    Parameters
    ----------
    store
        Opened.
    opened
        The job.
    typed
        Names of ``FIELDS``, ``legs``, ``minutes`` and ``note`` -> as typed.
    bend
        Its number along the bar, from 1.
    at
        Now, with its time zone.
    part
        Which piece; ``None`` is the one that has not had this bend yet.
    sure
        Whether the person was asked already.
    new_mounting
        Whether the tooling was put in again since the last line.
    stop
        Travel that a screen showed and that holds where none is typed [mm]; ``None``: the setting
        by what is known now.
    ahead
        Whether the setting for the next part is worked out; the screen that follows does that.
    counted, why
        Whether anything is learned from it, and the reason as another log has it.  One that does
        not count may have no reading, and nothing is asked about it.

    Raises
    ------
    InputError
        If something typed cannot be read, there is no such bend, or the job cannot be planned.
    """
    job = read_job(opened.text, beside=store.beside(opened.text))
    with_tooling(job)
    lines = store.log.lines(opened.item)
    piece = next_part(lines, bend) if part is None else part
    if piece < 1:
        raise InputError("part", "parts count from 1", "enter the number of the part")
    if counted:
        refuse_unread(typed)
    figures = read_typed(typed, job)
    known = _known(store, opened, job, piece, new_mounting=new_mounting)
    before = bend_now(job, known, bend)
    assumed = "travel" not in figures
    if assumed:
        figures["travel"] = before.travel if stop is None else stop
    if "leg 1" in figures and "blank" not in figures:
        # Cut as the plan says now; later it may say otherwise.
        planned = plan(job, search=False, learned=known if known.says_anything else None).blank
        if planned is not None:
            figures["blank"] = planned.length
    push = typed_push(piece, bend, figures)
    expected = known.foretold(job, bend, figures["travel"])
    asked = () if sure or not counted else asked_about(job, known, push, figures, lines)
    entry = None
    then = onto = None
    if not asked:
        things = things_in(store, opened.text, job)
        mounting = last_mounting(store, things.tooling) + (1 if new_mounting else 0)
        entry = store.log.add(
            LogEntry(
                line=1,
                revision=1,
                item=opened.item,
                version=opened.version,
                part=piece,
                bend=bend,
                lot=things.lot,
                press=things.press,
                tooling=things.tooling,
                mounting=mounting,
                typed={name: text for name, text in typed.items() if text.strip()},
                figures=figures,
                counted=counted,
                why=why,
                kept_at=at,
            )
        )
        if counted:
            then = _onward(store, opened, job, push)
        if ahead:
            onto = _aim(job, learned_from(store, opened.text, job), bend)
    return Logged(
        job=job,
        part=piece,
        bend=bend,
        entry=entry,
        asked=asked,
        travel=figures["travel"],
        assumed=assumed,
        free=push.free,
        wanted=before.wanted,
        expected=expected,
        onward=then,
        next_part=onto,
    )


def asked_about(
    job: Job,
    known: LearnedJob,
    push: Typed,
    figures: Mapping[str, float],
    lines: Iterable[LogEntry],
) -> tuple[Finding, ...]:
    """Return what is to be asked about a push before it is kept.

    Parameters
    ----------
    job, known
        Of the push, and what the other lines say of it.
    push, figures
        As typed.
    lines
        The other lines of the job.

    Raises
    ------
    InputError
        If there is no such bend, or it cannot be worked out.
    """
    before, press = bend_now(job, known, push.bend), job.press
    expected = None if push.travel is None else known.foretold(job, push.bend, push.travel)
    limits = Limits(
        relief=None if press is None else press.relief,
        no_load=0.0 if press is None else press.no_load,
        stroke=None if press is None else press.stroke,
        jam=before.jam,
        planned=before.travel,
    )
    earlier = [typed_push(one.part, one.bend, one.figures) for one in lines]
    return (
        *doubts(push, expected, limits, earlier, _others(job, known, push.bend)),
        *leg_doubts(read_legs(figures, job), job.part.bar.thickness),
    )


@frozen(kw_only=True)
class Turn:
    """Which bend of which part is at the press.

    Attributes
    ----------
    part, bend
        From 1.
    further
        How much further to push it, where its last line left it short.
    pushed
        Travel of that line [mm]; ``None`` where it has none.
    """

    part: int
    bend: int
    further: Aim | None = None
    pushed: float | None = None


def turn_of(store: Store, opened: JobText, job: Job, order: Sequence[int]) -> Turn | None:
    """Return what comes next: the bend left short, else the next one; ``None`` after the last part.

    Parameters
    ----------
    order
        Bends in the order they are made.
    """
    lines = store.log.lines(opened.item)
    last = lines[-1] if lines else None
    # A trial is logged under a number past the last part; it need not come to its angle.
    if last is not None and last.part <= job.part.quantity:
        found = turn_at(store, opened, job, last.part, last.bend)
        if found.further is not None:
            return found
    done = {(one.part, one.bend) for one in lines}
    for part in range(1, job.part.quantity + 1):
        for bend in order:
            if (part, bend) not in done:
                return Turn(part=part, bend=bend)
    return None


def turn_at(store: Store, opened: JobText, job: Job, part: int, bend: int) -> Turn:
    """Return a bend of a part as the log left it."""
    lines = [one for one in store.log.lines(opened.item) if (one.part, one.bend) == (part, bend)]
    if not lines:
        return Turn(part=part, bend=bend)
    push = typed_push(part, bend, lines[-1].figures)
    further = _onward(store, opened, job, push).aim if lines[-1].counted else None
    return Turn(part=part, bend=bend, further=further, pushed=push.travel)


def next_part(lines: tuple[LogEntry, ...], bend: int) -> int:
    """Return the piece that comes next: the first that has not had this bend in the log."""
    done = [one.part for one in lines if one.bend == bend]
    return max(done, default=0) + 1


def _known(
    store: Store, opened: JobText, job: Job, piece: int, *, new_mounting: bool
) -> LearnedJob:
    return learned_from(
        store,
        opened.text,
        job,
        part=part_name(opened.item, piece),
        new_mounting=new_mounting,
    )


def typed_push(part: int, bend: int, figures: Mapping[str, float]) -> Typed:
    """Return the figures of a push as doubts are asked of them."""
    return Typed(
        part=part,
        bend=bend,
        travel=figures.get("travel"),
        free=free_angle(figures),
        loaded=figures.get("loaded"),
        gauge=figures.get("gauge"),
        looks=angles_read(figures),
    )


def _others(job: Job, known: LearnedJob, bend: int) -> Iterator[tuple[int, Foretold]]:
    """What the other bends of the job are foretold to show at their own settings."""
    for other in range(1, len(job.part.bends) + 1):
        if other == bend:
            continue
        try:
            now = bend_now(job, known, other)
        except InputError:
            continue  # that one jams, so it was not bent
        expected = known.foretold(job, other, now.travel)
        if expected is not None:
            yield other, expected


def _onward(store: Store, opened: JobText, job: Job, push: Typed) -> Onward:
    """What follows for the part that is on the press, by all that is known of it."""
    wanted, tolerance = job.part.pressed_angle(push.bend), bend_limit(job.part, push.bend)[0]
    aim = None
    if push.free is not None and is_short(push.free, wanted, tolerance):
        known = _known(store, opened, job, push.part, new_mounting=False)
        aim = _aim(job, known, push.bend)
    return onward(push.free, wanted, tolerance, push.travel, aim)


def _aim(job: Job, known: LearnedJob, bend: int) -> Aim | None:
    try:
        now = bend_now(job, known, bend)
    except JamsError:
        return None  # what is known now says that the tooling jams before the angle
    return Aim(travel=now.travel, band=now.travel_band)
