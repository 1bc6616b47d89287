"""The first-off and inspection sheet: each leg and angle with its limits and room for readings."""

from __future__ import annotations

from typing import Any

from strapwright import drawing
from strapwright.drawing.drawn_figures import section
from strapwright.planning.limits_and_weights.limit_chances import limits_of
from strapwright.planning.plan_values import Plan
from strapwright.scene.frame import Frame
from strapwright.scene.lettering import as_fractions
from strapwright.sheets.setup_sheet import Paper
from strapwright.wording.blank_words import how_measured
from strapwright.wording.figures import figures_for
from strapwright.wording.limits_and_weights.limit_words import (
    NORMAL,
    limit_words,
    takes_words,
)

_PART = Frame(width=680.0, height=300.0, body=15.0)
PARTS = 5  # columns for readings: the first part and some of those after it


def inspection_sheet(plan: Plan, *, paper: Paper | None = None) -> bytes:
    """Lay out the sheet that the first part and the later ones are measured by.

    Parameters
    ----------
    plan
        As planned.
    paper
        ``letter`` or ``a4``; ``None`` takes letter for an inch job and A4 for a metric one.

    Returns
    -------
    bytes
        PDF; the same plan gives the same bytes.

    Raises
    ------
    StrapwrightError
        Where the sheet cannot be laid out.
    """
    # Digests, gauges and the layout engine take long to load; a plan on a terminal needs none.
    from strapwright.sheets.angle_gauges import gauges_of  # noqa: PLC0415
    from strapwright.sheets.bend_data import refused_line  # noqa: PLC0415
    from strapwright.sheets.job_code import job_digest  # noqa: PLC0415
    from strapwright.sheets.typeset import compile_pdf  # noqa: PLC0415

    limits, show = limits_of(plan), figures_for(plan.job)
    gauges = {
        bend.bend: gauge.degrees
        for bend in limits.bends
        for gauge in gauges_of(plan)
        if bend.bend in gauge.finished
    }
    said = limit_words(limits, plan.job.part, show)
    names = [""] * len(limits.legs) + [
        f"{gauges[one.bend]:g}° gauge" if one.bend in gauges else "" for one in limits.bends
    ]
    chosen = paper or ("letter" if plan.job.units == "inch" else "a4")
    drawn = bool(plan.finished.size)
    data: dict[str, Any] = {
        "paper": {"letter": "us-letter", "a4": "a4"}[chosen],
        "name": plan.job.part.name,
        "digest": job_digest(plan.job),
        "facts": f"qty {plan.job.part.quantity}, {plan.job.part.material}, "
        f"{section(plan)}, legs measured {how_measured(plan.job.part)}",
        "refused": refused_line(plan),
        "drawn": drawn,
        "parts": PARTS,
        "rows": [
            {
                "name": one.name,
                "wanted": as_fractions(one.wanted),
                "between": f"{one.low} to {one.high}",
                "by": one.by,
                "gauge": gauge,
                "first": one.first,
                "later": one.later,
            }
            for one, gauge in zip(said, names, strict=True)
        ],
        "gauged": bool(gauges),
        "takes": [as_fractions(one) for one in takes_words(limits, show)],
        "normal": NORMAL,
    }
    pictures = {"part.svg": drawing.to_svg(drawing.part_scene(plan, _PART), "paper")}
    return compile_pdf("inspection.typ", data, pictures if drawn else {})
