"""Everything of a job on paper in one file, with a bookmark for each part of it."""

from __future__ import annotations

import io
from collections.abc import Sequence


def job_packet(parts: Sequence[tuple[str, bytes]]) -> bytes:
    """Put sheets behind one another.

    Parameters
    ----------
    parts
        Heading and PDF of each, in their order.

    Returns
    -------
    bytes
        PDF whose print dialogue is asked to leave the scale alone, for the template in it; the
        same input gives the same bytes.
    """
    from pypdf import PdfReader, PdfWriter  # noqa: PLC0415  takes long to load

    from strapwright.sheets.print_scaling import without_scaling  # noqa: PLC0415

    writer = PdfWriter()
    for heading, raw in parts:
        first = len(writer.pages)
        for page in PdfReader(io.BytesIO(raw)).pages:
            writer.add_page(page)
        writer.add_outline_item(title=heading, page_number=first)
    out = io.BytesIO()
    writer.write(out)
    return without_scaling(out.getvalue())
