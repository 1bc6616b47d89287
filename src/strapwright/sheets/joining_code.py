"""The code that a phone scans to get in, for a page and for a terminal."""

from __future__ import annotations

import io

import segno


def code_drawn(link: str) -> str:
    """Return the code of an address as SVG, dark on light in every look."""
    raw = io.BytesIO()
    segno.make(link, error="m", micro=False).save(
        raw, kind="svg", xmldecl=False, border=4, omitsize=True, light="#fff", dark="#000",
        title="Code that opens the pages on a phone",
    )  # fmt: skip
    return raw.getvalue().decode()


def code_for_terminal(link: str) -> str:
    """Return the code of an address in characters."""
    drawn = io.StringIO()
    segno.make(link, error="m", micro=False).terminal(drawn, compact=True)
    return drawn.getvalue()
