"""The packet of a job: all its sheets in one file for the bench."""

from __future__ import annotations

from strapwright.errors import InputError
from strapwright.pages.making_page import made_of
from strapwright.pages.shelves import rack_of
from strapwright.pages.shop_work.cut_page import bars_of, order_of
from strapwright.pages.workshop import Workshop
from strapwright.planning.plan_values import Plan
from strapwright.service.rack_after_cut import kept_offcuts
from strapwright.wording.bars_and_money.cut_words import CutWords


def packet_of(shop: Workshop, job: str, text: str, made: Plan) -> bytes:
    """Return setup sheet, template, inspection sheet, cut list and tooling in one file.

    Parameters
    ----------
    shop
        Whose rack and crib are asked.
    job, text
        The job's id and its file.
    made
        Its plan.

    Returns
    -------
    bytes
        PDF.  Without tooling that is made here it has no sheets of it, and without a blank no cut
        list; the bookmarks say what is in it.

    Raises
    ------
    InputError
        Where a blank is longer than any bar.
    StrapwrightError
        Where a sheet cannot be laid out.
    """
    from strapwright.sheets import setup_sheet  # noqa: PLC0415  typesetting takes long to load
    from strapwright.sheets.cut_list_sheet import cut_list_sheet  # noqa: PLC0415
    from strapwright.sheets.inspection_sheet import inspection_sheet  # noqa: PLC0415
    from strapwright.sheets.job_packet import job_packet  # noqa: PLC0415
    from strapwright.sheets.making_sheet import making_sheet  # noqa: PLC0415
    from strapwright.sheets.template_sheet import template_pdf  # noqa: PLC0415

    parts = [
        ("Setup sheet", setup_sheet(made, bars=bars_of(shop, job))),
        ("1:1 template", template_pdf(made)),
        ("Inspection sheet", inspection_sheet(made)),
    ]
    if made.blank is not None:
        order = order_of(shop, [job])
        rack = rack_of(shop)
        labels = {(one.section, one.bar): one.label for one in kept_offcuts(order, rack)}
        words = CutWords(units=order.units, reading=order.reading)
        sheet = cut_list_sheet(order.sections, words, labels, mark=order.mark, units=order.units)
        parts.append(("Cut list", sheet))
    try:
        tooling = made_of(shop, text, {})
    except InputError:
        tooling = None  # no tooling, or none that is made here: its page says so
    if tooling is not None:
        parts.append(("Tooling", making_sheet(tooling)))
    return job_packet(parts)
