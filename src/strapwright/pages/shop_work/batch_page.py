"""What the page of a batch says: one bend over its parts, and how it goes."""

from __future__ import annotations

from attrs import frozen

from strapwright.drawing.batch_charts.batch_drawing import (
    BATCH_PHONE,
    BATCH_WIDE,
    Dot,
    batch_scene,
)
from strapwright.pages.page_statements import on_page
from strapwright.pages.workshop import OpenJob, Workshop
from strapwright.scene.svg import to_svg
from strapwright.service.shop_log.batch import Batch, batch_of
from strapwright.service.shop_log.batch_text import batch_sentences, piece_notes
from strapwright.service.shop_log.logged_push import JobText
from strapwright.shop.job import Job


@frozen(kw_only=True)
class BatchView:
    """A batch on the page.

    Attributes
    ----------
    bend
        Its number.
    wanted
        Angle and tolerance.
    sentences
        How it goes, the first part first.
    rows
        Part, angle as read, and what is to be said of it; newest first.
    wide, narrow
        The chart; empty before any part.
    """

    bend: int
    wanted: str
    sentences: tuple[str, ...]
    rows: tuple[tuple[int, str, str], ...]
    wide: str
    narrow: str


def batch_view(shop: Workshop, opened: OpenJob, job: Job, bend: int) -> BatchView:
    """Chart a bend of a job over its parts.

    Raises
    ------
    InputError
        If there is no such bend, or it cannot be made.
    """
    text = JobText(item=opened.item.id, version=opened.version, text=opened.text)
    found = batch_of(shop.store, text, job, bend)
    show = on_page(job).figures
    sentences = tuple(batch_sentences(found))
    wide = narrow = ""
    if found.pieces:
        wide, narrow = _charts(found, " ".join(sentences))
    rows = [
        (one.part, show.angle(one.free), ", ".join(piece_notes(found, place)))
        for place, one in enumerate(found.pieces)
    ]
    return BatchView(
        bend=bend,
        wanted=f"{show.angle(found.wanted)} ± {show.angle(found.tolerance)}",
        sentences=sentences,
        rows=tuple(reversed(rows)),
        wide=wide,
        narrow=narrow,
    )


def _charts(found: Batch, said: str) -> tuple[str, str]:
    dots = [
        Dot(part=one.part, angle=one.at_one_stop, marked=bool(piece_notes(found, place)))
        for place, one in enumerate(found.pieces)
    ]
    since = None if found.moved is None else found.moved.since
    wide, narrow = (
        to_svg(
            batch_scene(
                dots, found.wanted, found.tolerance, found.chart, since, said=said, frame=frame
            ),
            None,
        )
        for frame in (BATCH_WIDE, BATCH_PHONE)
    )
    return wide, narrow
