"""The flag in a PDF that asks the print dialogue to leave its scale alone."""

from __future__ import annotations

import io


def without_scaling(pdf: bytes) -> bytes:
    """Set the viewer preference for no page scaling when printing.

    Parameters
    ----------
    pdf
        As laid out.

    Returns
    -------
    bytes
        The same file with the preference appended; the same input gives the same bytes.

    Notes
    -----
    ISO 32000-1, table 150: ``PrintScaling`` of ``None``.  A print dialogue may still be told to
    scale, which is why such a page carries check bars.
    """
    # Takes long to load, and most commands print no sheet.
    from pypdf import PdfWriter  # noqa: PLC0415
    from pypdf.generic import NameObject  # noqa: PLC0415

    # An added section leaves every byte of what was laid out as it is.
    writer = PdfWriter(io.BytesIO(pdf), incremental=True)
    preferences = writer.create_viewer_preferences()
    preferences[NameObject("/PrintScaling")] = NameObject("/None")
    out = io.BytesIO()
    writer.write(out)
    return out.getvalue()
