"""The setup sheet: what goes on the wall beside the press."""

from __future__ import annotations

from typing import Literal

from strapwright.planning.plan_values import Plan
from strapwright.scene.lettering import as_fractions

Paper = Literal["letter", "a4"]


def setup_sheet(plan: Plan, *, paper: Paper | None = None, bars: str = "") -> bytes:
    """Lay out the setup sheet of a plan.

    Parameters
    ----------
    plan
        As planned; what it lacks is named on the sheet.
    paper
        ``letter`` or ``a4``; ``None`` takes letter for an inch job and A4 for a metric one.
    bars
        Which bars the blanks are sawn from, in words; empty where nobody planned it.

    Returns
    -------
    bytes
        PDF; the same plan gives the same bytes.

    Raises
    ------
    StrapwrightError
        Where the sheet cannot be laid out.
    """
    # Fonts, layout engine and square code take long to load; commands that print no sheet wait
    # for none of them.
    from strapwright.sheets.sheet_data import sheet_data  # noqa: PLC0415
    from strapwright.sheets.typeset import compile_pdf  # noqa: PLC0415

    data, drawings = sheet_data(plan)
    chosen = paper or ("letter" if plan.job.units == "inch" else "a4")
    data["bars"] = as_fractions(bars)
    data["paper"] = {"letter": "us-letter", "a4": "a4"}[chosen]
    return compile_pdf("setup.typ", data, drawings)
