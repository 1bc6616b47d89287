"""Correct a line of a job's log, or leave it out; its old states stay."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import UTC, datetime

from strapwright.errors import InputError
from strapwright.findings import Finding
from strapwright.service.shop_log.learned_jobs import learned_from, part_name
from strapwright.service.shop_log.logged_push import JobText, asked_about, typed_push
from strapwright.service.shop_log.typed_readings import (
    FIELDS,
    LEGS,
    corrected,
    refuse_unread,
)
from strapwright.shop_files.reading_job import read_job
from strapwright.store import LogEntry, Store


def change_line(
    store: Store,
    opened: JobText,
    line: int,
    typed: Mapping[str, str],
    *,
    counted: bool | None,
    why: str,
) -> tuple[LogEntry, ...]:
    """Correct a line of a job, or leave it out; return its states, the newest first.

    Parameters
    ----------
    store, opened
        The store, and the job whose line it is.
    line
        Its number.
    typed
        Names of texts -> as they should be, in the units of the job; the rest stays.
    counted
        Whether it is learned from; ``None`` leaves that as it is.
    why
        In the person's own words.

    Raises
    ------
    InputError
        If nothing is to be changed, something cannot be read, the line is of another job, or no
        reading is left of one that counts.
    Missing
        If there is no such line.
    """
    if not typed and counted is None:
        raise InputError(
            "log", "nothing is to be changed", "give the figure as it should be, or leave it out"
        )
    log = store.log
    now = log.states(line)[0]
    if now.item != opened.item:
        raise InputError("line", "this line is of another job", "see log list", value=str(line))
    at = datetime.now(UTC)
    texts: dict[str, str] | None = None
    figures: dict[str, float] | None = None
    if typed:
        job = read_job(opened.text, beside=store.beside(opened.text))
        texts, figures = corrected(now, typed, job)
    if now.counted if counted is None else counted:
        refuse_unread(now.typed if texts is None else texts)
    log.change(line, why, at, typed=texts, figures=figures, counted=counted)
    return log.states(line)


def asked_of_change(
    store: Store, opened: JobText, line: int, typed: Mapping[str, str]
) -> tuple[Finding, ...]:
    """Return what is to be asked about a corrected line before it is kept, as about a new one.

    It is held to the job as it was when the bend was made, and to all lines but itself.  A bend
    that cannot be worked out foretells nothing, so nothing is asked about it.  What was
    asked of the line as it is was answered.

    Parameters
    ----------
    store, opened, line, typed
        As :func:`change_line` takes them.

    Raises
    ------
    InputError
        If something typed cannot be read.
    Missing
        If there is no such line.
    """
    now = store.log.states(line)[0]
    read_now = any(typed.get(name, "").strip() for name in (*FIELDS, LEGS))
    if not read_now or now.item != opened.item:
        return ()
    job = read_job(opened.text, beside=store.beside(opened.text))
    _, figures = corrected(now, typed, job)
    text = store.text_of(now.item, now.version)
    lines = [one for one in store.log.lines(now.item) if one.line != line]
    push = typed_push(now.part, now.bend, figures)
    try:
        then = read_job(text, beside=store.beside(text))
        known = learned_from(store, text, then, part=part_name(now.item, now.part), without=line)
        asked = asked_about(then, known, push, figures, lines)
        before = typed_push(now.part, now.bend, now.figures)
        answered = asked_about(then, known, before, now.figures, lines)
    except InputError:
        return ()
    return tuple(one for one in asked if one not in answered)
