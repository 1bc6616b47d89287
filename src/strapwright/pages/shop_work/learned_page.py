"""What the page of what the log taught says: each figure before, now, and what moved it."""

from __future__ import annotations

from itertools import groupby

from attrs import frozen

from strapwright.pages.page_statements import on_page
from strapwright.pages.sharing.own_view import AS_EACH_JOB, OwnView, seen_job
from strapwright.pages.workshop import OpenJob, Workshop
from strapwright.planning.from_the_log.learned_job import own_bend
from strapwright.planning.from_the_log.pushed_bend import pushed_bend
from strapwright.service.shop_log.log_commands import Known, known_in
from strapwright.shop.job import Job
from strapwright.store import LogEntry
from strapwright.wording.figures import Figures
from strapwright.wording.shop_log.learned_words import learned_words, line_words
from strapwright.wording.shop_log.log_words import setting_words
from strapwright.wording.telling import tell_all


@frozen(kw_only=True)
class FigureRow:
    """One figure that is learned.

    Attributes
    ----------
    name, before, now
        What it is, its band before any reading and now.
    moved
        Address and words of each line that moved it, the one that moved it most first; the address
        is empty where the line is of another job.
    """

    name: str
    before: str
    now: str
    moved: tuple[tuple[str, str], ...]


@frozen(kw_only=True)
class LearnedView:
    """The page.

    Attributes
    ----------
    things
        ``bar lot``, ``press`` and ``tooling`` with the figures of each.
    settings
        Where each bend stops before the log and now, a sentence each.
    blank
        What measured parts say of the blank, in sentences.
    strange
        Lines that the others do not explain, with their address.
    left_out
        Lines that teach nothing, with the reason.
    readings
        Lines that were learned from.
    """

    things: tuple[tuple[str, tuple[FigureRow, ...]], ...]
    settings: tuple[str, ...]
    blank: tuple[str, ...]
    strange: tuple[tuple[str, str], ...]
    left_out: tuple[tuple[int, str], ...]
    readings: int


def learned_view(
    shop: Workshop, opened: OpenJob, job: Job, view: OwnView = AS_EACH_JOB
) -> LearnedView:
    """Say what the log taught of the bar lot, the press and the tooling of a job.

    Parameters
    ----------
    shop, opened, job
        The job and the log.
    view
        How the device is shown figures.

    Raises
    ------
    InputError
        If a bend of it cannot be worked out.
    """
    reader = on_page(seen_job(job, view))
    known = known_in(shop.store, opened.text, job)
    learned = known.learned
    entries = {str(one.line): one for one in shop.store.log.lines()}
    lines = f"/jobs/{opened.item.id}/log/lines"

    def place(line: str) -> str:
        mine = line in entries and entries[line].item == opened.item.id
        return f"{lines}?line={line}" if mine else ""

    strange = dict.fromkeys(one.entry for one in learned.learned.outliers)
    return LearnedView(
        things=_things(known, entries, lines, opened.item.id, reader.figures),
        settings=tuple(
            setting_words(
                one.bend,
                one.before.travel,
                one.now.travel,
                (one.free_before, one.free_now),
                reader.figures,
            )
            for one in known.settings
        ),
        blank=tuple(one.text for one in tell_all(learned.blank_findings(job), reader)),
        strange=tuple((place(line), line) for line in strange),
        left_out=known.left_out,
        readings=len(learned.learned.entries),
    )


def _things(
    known: Known, entries: dict[str, LogEntry], lines: str, item: str, show: Figures
) -> tuple[tuple[str, tuple[FigureRow, ...]], ...]:
    bend = own_bend(known.job)
    if bend is None:
        return ()
    setup = pushed_bend(known.job, bend).setup
    rows = []
    for found in known.learned.figures(known.job):
        words = learned_words(found, setup, show)
        moved = []
        for line, by in found.moved:
            mine = line in entries and entries[line].item == item
            of = (entries[line].part, entries[line].bend) if mine else None
            moved.append((f"{lines}?line={line}" if mine else "", line_words(line, of, by)))
        row = FigureRow(name=words.name, before=words.before, now=words.now, moved=tuple(moved))
        rows.append((words.thing, row))
    return tuple(
        (thing, tuple(row for _, row in of)) for thing, of in groupby(rows, lambda one: one[0])
    )
