"""Correct a line of a job's log, or leave it out; its old states stay."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import UTC, datetime

from strapwright.errors import InputError
from strapwright.service.shop_log.logged_push import JobText
from strapwright.service.shop_log.typed_readings import corrected, refuse_unread
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
