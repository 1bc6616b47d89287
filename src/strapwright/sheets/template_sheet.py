"""The 1:1 template: paper strips to mark the blank by, and angle gauges to cut out."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from strapwright.blank.blank_values import Blank
from strapwright.drawing.bend_sides import sighted
from strapwright.drawing.drawn_figures import section
from strapwright.planning.plan_values import Plan
from strapwright.quantities import Units
from strapwright.sheets.angle_gauges import (
    UNKNOWN,
    gauge_sheets,
    gauges_of,
    gauges_under,
    plain_gauges,
)
from strapwright.sheets.bend_data import refused_line
from strapwright.sheets.gauge_shape import radius_below
from strapwright.sheets.paper_figures import Figures
from strapwright.sheets.setup_sheet import Paper
from strapwright.sheets.strip_drawing import off_the_bar, strip_sheets
from strapwright.sheets.true_scale import Line, Sheet

Data = dict[str, Any]


def template_pdf(plan: Plan, *, paper: Paper | None = None) -> bytes:
    """Lay out the 1:1 template of a plan.

    Parameters
    ----------
    plan
        As planned.
    paper
        ``letter`` or ``a4``; ``None`` takes letter for an inch job and A4 for a metric one.

    Returns
    -------
    bytes
        PDF that asks not to be scaled; the same plan gives the same bytes.

    Raises
    ------
    StrapwrightError
        Where the sheet cannot be laid out.
    """
    # Loads digests and the square code's library, which angle gauges alone do not need.
    from strapwright.sheets.job_code import job_digest  # noqa: PLC0415

    chosen: Paper = paper or ("letter" if plan.job.units == "inch" else "a4")
    show = Figures(job=plan.job)
    strips = () if plan.blank is None else _strips(plan, plan.blank, chosen, show)
    drawn = [shape for strip in strips for shape in strip.shapes]
    cut = notes = ""
    if plan.blank is not None:
        cut = f"Cut the bar to {show.words(plan.blank.length)}."
        if plan.stack:
            cut = "One strip a bar: cut each bar to what its own strip says."
        notes = off_the_bar(plan, plan.blank)
    data = {
        "name": plan.job.part.name,
        "title": "1:1 template",
        "facts": f"{section(plan)}, {plan.job.part.material}",
        "digest": job_digest(plan.job),
        "refused": refused_line(plan),
        "cut": cut,
        "notes": notes,
        "sighted": sighted(plan),
        "sawn": plan.blank is not None and bool(plan.blank.saws),
        "joined": any(isinstance(one, Line) and one.stroke == "join" for one in drawn),
        "side": "face" if plan.job.part.bar.section != "round" else "side",
    }
    gauges = gauges_of(plan)
    both = gauges_under(strips[-1], gauges) if strips else None
    if both is not None:
        return _compile(data, (*strips[:-1], both))
    return _compile(data, (*strips, *gauge_sheets(gauges, chosen)))


def _strips(plan: Plan, blank: Blank, paper: Paper, show: Figures) -> tuple[Sheet, ...]:
    """Strips of the only bar, or of every bar of a stack, each with its name and its length."""
    if not plan.stack:
        return strip_sheets(plan, blank, paper)
    found: list[Sheet] = []
    for one in plan.stack:
        name = f"{one.name[:1].upper()}{one.name[1:]}, cut to {show.words(one.blank.length)}"
        found += strip_sheets(plan, one.blank, paper, name)
    return tuple(found)


def angles_pdf(degrees: Sequence[float], *, paper: Paper) -> bytes:
    """Lay out paper gauges for any angles.

    Parameters
    ----------
    degrees
        Bend angles, how far each turns the bar, above 0 and at most 175 [deg].
    paper
        ``letter``, which reads inches, or ``a4``, which reads mm.

    Returns
    -------
    bytes
        PDF that asks not to be scaled; the same angles give the same bytes.

    Raises
    ------
    StrapwrightError
        Where the sheet cannot be laid out.
    """
    units: Units = "inch" if paper == "letter" else "metric"
    data = {
        "name": "Angle gauges",
        "title": "1:1",
        "facts": "",
        "digest": "",
        "refused": "",
        "cut": "",
        "notes": (
            f"Inside pieces clear inside radii up to {radius_below(UNKNOWN, units)} unless they "
            "say less."
        ),
    }
    return _compile(data, gauge_sheets(plain_gauges(degrees, units), paper))


def _compile(data: Data, sheets: Sequence[Sheet]) -> bytes:
    # The layout engine takes long to load; commands that print no sheet do not wait for it.
    from strapwright.sheets.print_scaling import without_scaling  # noqa: PLC0415
    from strapwright.sheets.typeset import compile_pdf  # noqa: PLC0415

    whole = {**data, "sheets": [sheet.data() for sheet in sheets]}
    return without_scaling(compile_pdf("template.typ", whole, {}))
