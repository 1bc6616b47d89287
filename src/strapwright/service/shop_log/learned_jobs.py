"""From the store to what is known of a job: the log lines that share lot, press or tooling."""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache
from hashlib import sha256
from types import MappingProxyType

from attrs import evolve, frozen

from strapwright.blank.trimmed_ends import is_trimmed
from strapwright.errors import InputError
from strapwright.learning.blank_legs import MeasuredPart, learn_blank
from strapwright.learning.learn import learn
from strapwright.learning.log_readings import Places
from strapwright.planning.from_the_log.learned_job import (
    LearnedJob,
    LogLine,
    readings_of,
    turned_alone,
)
from strapwright.planning.from_the_log.pushed_bend import pushed_bend
from strapwright.planning.plan import plan
from strapwright.service.shop_log.typed_readings import angles_read, free_angle
from strapwright.shop.job import Job
from strapwright.shop_files.opening import open_job, shop_file
from strapwright.shop_files.reading_job import read_job
from strapwright.store import LogEntry, Store

# Lines that a job learns from at most, the newest: of its own tooling, and of other tooling on the
# same press or of the same bar.  The time of an update stays short (a choice of ours), a shop's
# newest lines say most of its press, and a week of other work leaves the own tooling's lines in.
MOST_LINES, MOST_OTHERS = 40, 20
# Key of the store for a lot that was merged, before its name.
MERGED = "lot merged: "
# The next part, which nobody has logged yet.
NEXT = "next"
# Why a line of a bend on other tooling teaches nothing: what is learned goes by the tooling of the
# job, and the other has another nose or other shoulders.
ELSEWHERE = "the bend was made on other tooling than the job's own"


@frozen(kw_only=True)
class Things:
    """What a job is made with, by name: the file where it names one, else what tells it apart."""

    lot: str
    press: str
    tooling: str


def things_of(text: str, job: Job) -> Things:
    """Name the lot, the press and the tooling of a job.

    Parameters
    ----------
    text, job
        The job file and what it says.
    """
    files = _files(text)
    press, tooling = job.press, job.tooling
    bar = job.part.bar
    size = f"{bar.section} {bar.thickness:.2f} x {bar.width:.2f} mm"
    lot = f"bar of {job.part.name}: {job.part.material}, {size}"
    # Nothing tells such a press, or such tooling, from another: only this part has it for sure.
    bore = f"press of {job.part.name}, no bore"
    if press is not None and press.bore is not None:
        bore = f"bore {press.bore:.2f} mm"
    sizes = f"no tooling for {job.part.name}"
    if tooling is not None:
        shoulders = tooling.shoulders
        sizes = (
            f"nose {tooling.nose.radius:.2f} mm, shoulders {shoulders.radius:.2f} mm, "
            f"opening {shoulders.opening:.2f} mm"
        )
    return Things(
        lot=files["lot"] or lot,
        press=files["press"] or bore,
        tooling=files["tooling"] or sizes,
    )


@lru_cache(maxsize=16)
def _files(text: str) -> Mapping[str, str | None]:
    """Return the shop files that a job names; asked of the same few jobs over and over."""
    head = open_job(text)
    return MappingProxyType({key: shop_file(head, key) for key in ("lot", "press", "tooling")})


def things_in(store: Store, text: str, job: Job) -> Things:
    """Name the lot, the press and the tooling of a job; a lot that was merged by its new name.

    Parameters
    ----------
    store
        Opened.
    text, job
        The job file and what it says.
    """
    return merged_things(store, things_of(text, job))


def merged_things(store: Store, things: Things) -> Things:
    """Name a lot that was merged by its new name.

    Parameters
    ----------
    store
        Opened.
    things
        As a job names them.
    """
    while (into := store.setting(MERGED + things.lot)) is not None:
        things = evolve(things, lot=into)
    return things


def states_that_teach(store: Store, things: Things) -> str:
    """Name the lines that share a lot, press or tooling, each with its state; empty of none.

    The name changes with whatever :func:`gather` could take from the log for them.

    Parameters
    ----------
    store
        Opened.
    things
        By the names that the log has them under.
    """
    shared = [one for one in store.log.lines() if _shares(one, things)]
    if not shared:
        return ""
    states = ",".join(f"{one.line}.{one.revision}" for one in shared)
    return sha256(states.encode()).hexdigest()


@frozen(kw_only=True)
class Gathered:
    """Lines of the log that a job can learn from.

    Attributes
    ----------
    entries
        Those that count, oldest first.
    lines
        The same with the jobs they were of.
    left_out
        Numbers of lines that teach nothing, each with the reason.
    """

    entries: tuple[LogEntry, ...]
    lines: tuple[LogLine, ...]
    left_out: tuple[tuple[int, str], ...]


def gather(store: Store, job: Job, things: Things, without: int = 0) -> Gathered:
    """Gather the lines that share a job's lot, press or tooling.

    Parameters
    ----------
    store
        Opened.
    job
        As it is now; lot, press and tooling that a line shares are taken as this job states them.
    things
        Its lot, press and tooling by name.
    without
        Number of a line that is not looked at; 0 for none.
    """
    others = [one for one in store.log.lines() if one.line != without]
    shared = [one for one in others if _shares(one, things)]
    counted = [one for one in shared if one.counted]
    left_out = [(one.line, "left out by hand") for one in shared if not one.counted]
    found: list[tuple[LogEntry, LogLine]] = []
    read: dict[tuple[str, int], Job] = {}
    room = {True: MOST_LINES, False: MOST_OTHERS}
    for entry in reversed(counted):
        own = entry.tooling == things.tooling
        if not any(room.values()):
            break
        if not room[own]:
            continue
        try:
            key = entry.item, entry.version
            if key not in read:
                text = store.text_of(*key)
                read[key] = read_job(text, beside=store.beside(text))
            if read[key].part.tool_of(entry.bend) != 0:
                left_out.append((entry.line, ELSEWHERE))
                continue
            line = _line(entry, read[key], job, things)
        except InputError as error:
            left_out.append((entry.line, error.sentence))
            continue
        # A line that teaches nothing takes no other's room.
        room[own] -= 1
        found.append((entry, line))
    found.reverse()
    return Gathered(
        entries=tuple(entry for entry, _ in found),
        lines=tuple(line for _, line in found),
        left_out=tuple(sorted(left_out)),
    )


def learned_from(
    store: Store,
    text: str,
    job: Job,
    *,
    part: str = NEXT,
    new_mounting: bool = False,
    without: int = 0,
) -> LearnedJob:
    """Learn what the log says of a job's lot, press and tooling.

    Parameters
    ----------
    store
        Opened.
    text, job
        The job file and what it says.
    part
        Which piece is to be bent: one that was pushed already is known better.
    new_mounting
        Whether the tooling is put in again for it.
    without
        Number of a line that is not learned from; 0 for none.
    """
    things = things_in(store, text, job)
    found = gather(store, job, things, without)
    mounting = last_mounting(store, things.tooling) + (1 if new_mounting else 0)
    return LearnedJob(
        learned=learn(readings_of(found.lines)),
        blank=learn_blank(_measured(found, things), job.part.bar.thickness),
        places=Places(
            lot=things.lot,
            press=things.press,
            tooling=things.tooling,
            mounting=str(mounting),
            part=part,
        ),
    )


def _measured(found: Gathered, things: Things) -> list[MeasuredPart]:
    """Finished parts of a job's lot and tooling of which every leg was measured."""
    parts = []
    for entry, line in zip(found.entries, found.lines, strict=True):
        part, figures = line.job.part, entry.figures
        legs = [figures.get(f"leg {place}") for place in range(1, len(part.legs) + 1)]
        known = [one for one in legs if one is not None]
        same = entry.lot == things.lot and entry.tooling == things.tooling
        if not same or len(known) < len(legs) or "blank" not in figures:
            continue
        blank = plan(line.job, search=False).blank
        held = part.close is None and not part.finishes and not is_trimmed(part)
        if blank is None or line.job.blank.method != "strain" or not held:
            continue  # by another rule, or with a leg that takes up or is sawn to what it lacks
        turned = turned_alone(line.job)
        if turned < sum(bend.angle for bend in part.bends):
            continue  # what hits, a stack or other tooling take up is not corrected
        parts.append(
            MeasuredPart(
                extra=sum(known) - sum(part.legs) - (figures["blank"] - blank.length),
                legs=len(known),
                turned=turned,
            )
        )
    return parts


def last_mounting(store: Store, tooling: str) -> int:
    """Return which time a tooling is in the press, by the log; 1 before any line."""
    return max((one.mounting for one in store.log.lines() if one.tooling == tooling), default=1)


def part_name(item: str, part: int) -> str:
    """Name one piece among all pieces of all jobs."""
    return f"{item[:8]} part {part}"


def _shares(entry: LogEntry, things: Things) -> bool:
    return entry.lot == things.lot or entry.press == things.press or entry.tooling == things.tooling


def _line(entry: LogEntry, job: Job, target: Job, things: Things) -> LogLine:
    # A statement about a lot, a press or a tooling that was mended since holds for its lines too.
    if entry.lot == things.lot:
        part = evolve(job.part, lot=target.part.lot, material=target.part.material)
        job = evolve(job, part=part)
    if entry.press == things.press:
        job = evolve(job, press=target.press)
    if entry.tooling == things.tooling:
        job = evolve(job, tooling=target.tooling)
    if job.tooling is not None:
        pushed_bend(job, entry.bend)  # a bend that cannot be worked out teaches nothing
    figures = entry.figures
    return LogLine(
        entry=str(entry.line),
        job=job,
        places=Places(
            lot=entry.lot,
            press=entry.press,
            tooling=entry.tooling,
            mounting=str(entry.mounting),
            part=part_name(entry.item, entry.part),
        ),
        travel=figures["travel"],
        free=free_angle(figures),
        loaded=figures.get("loaded"),
        gauge=figures.get("gauge"),
        bend=entry.bend,
        looks=max(len(angles_read(figures)), 1),
    )
