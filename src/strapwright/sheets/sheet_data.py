"""A plan as plain strings for the setup sheet: everything said, nothing laid out."""

from __future__ import annotations

from typing import Any, Literal

from attrs import evolve

from strapwright import drawing
from strapwright.blank.blank_values import Blank
from strapwright.drawing.clash_drawing import clash_scene
from strapwright.drawing.drawn_figures import section
from strapwright.motion.refused_bends import has_no_stop, is_refused
from strapwright.planning.hits_and_stacks.stack_values import StackBar
from strapwright.planning.plan_values import Plan, SecondStroke, Step
from strapwright.planning.several_toolings.tool_use import ToolUse
from strapwright.scene.frame import Frame
from strapwright.scene.lettering import as_fractions
from strapwright.sheets.bend_data import (
    bend_data,
    bends_of,
    finding_data,
    refused_line,
    second_data,
    told,
)
from strapwright.sheets.job_code import code_svg, job_digest
from strapwright.sheets.paper_figures import Figures, Shown
from strapwright.sheets.sheet_pictures import in_pieces
from strapwright.shop.job import Job
from strapwright.shop.part_holes import cut_kind
from strapwright.shop.tooling import Tooling
from strapwright.wording.blank_words import METHOD_WORDS, cut_size, how_measured
from strapwright.wording.caution_words import ESTIMATE, SAFETY
from strapwright.wording.figures import figures_for
from strapwright.wording.limits_and_weights.weight_words import blank_weight
from strapwright.wording.places import listed
from strapwright.wording.reader import on_paper
from strapwright.wording.remedy_words import HEAD, remedy_words, rest_words
from strapwright.wording.steps.bench_work_words import bench_head, bench_work_words
from strapwright.wording.steps.handling_words import handling_words
from strapwright.wording.steps.lay_words import side_by_side

Data = dict[str, Any]

# 680 px over 180 mm: names in 11 pt, figures in 15 pt.
_WIDE, _TYPE = 680.0, 15.0
_PART_HIGH = (330.0, 45.0, 700.0)  # px up to three bends, more for each further bend, at most
_BLANK = Frame(width=_WIDE, height=330.0, body=_TYPE)
# A job of one or two bends has its first side for everything but the bends.
_SMALL_PART = Frame(width=300.0, height=250.0, body=18.0)
_SMALL_BLANK = Frame(width=_WIDE, height=210.0, body=_TYPE)
_FEW = 2  # bends
_TALL = 800.0  # px; with its heading it still finds room on letter
# Half the sheet wide, as tall as a picture gets; a low one shrinks, so its type is larger.
_BEND = {
    "": Frame(width=340.0, height=224.0, body=16.0),
    "-low": Frame(width=340.0, height=224.0, body=20.0),
}
_CLASH = Frame(width=_WIDE, height=420.0, body=_TYPE)
_POSES: tuple[Literal["rest"], Literal["stroke"]] = ("rest", "stroke")

# What the press is set to, and what is then read.
_SETTING = ("settings", "stop_by", "gauge", "relief", "angles", "staged")

_SAME = Shown(main="", rest="")
_NOTHING = Shown(main="\N{EN DASH}", rest="")


def sheet_data(plan: Plan) -> tuple[Data, dict[str, str]]:
    """Say a plan.

    Parameters
    ----------
    plan
        As planned.

    Returns
    -------
    dict, dict
        What ``setup.typ`` takes as ``data.json``, and its drawings by file name.
    """
    show = Figures(job=plan.job)
    part = plan.job.part
    drawings = {"code.svg": code_svg(plan.job)}
    # Holes need words of their own, which find no room in the small picture.
    small = len(part.bends) <= _FEW and part.stacked == 1 and not part.holes
    if plan.finished.size:
        frame = _SMALL_PART if small else _part_frame(len(part.bends))
        drawings["part.svg"] = _paper(drawing.part_scene(plan, frame))
    strips: list[str] = []
    if plan.blank is not None:
        frame = _SMALL_BLANK if small else _BLANK
        for piece in in_pieces(drawing.blank_scene(plan, frame), _TALL):
            strips.append(f"blank-{len(strips) + 1}.svg")
            drawings[strips[-1]] = _paper(piece)
    strokes = () if is_refused(plan) else plan.second_strokes
    for step in plan.steps:
        if has_no_stop(plan, step):
            drawings[f"bend-{step.order}-clash.svg"] = _paper(clash_scene(plan, step, _CLASH))
        else:
            drawings |= _bend_drawings(plan, step)
    for stroke in strokes:
        drawings |= _bend_drawings(stroke.made, stroke.step)
    later = [finding for stroke in strokes for finding in stroke.made.findings]
    # What is found of a second stroke stands with that.
    first = evolve(plan, findings=tuple(one for one in plan.findings if one not in later))
    data = {
        "name": part.name,
        "digest": job_digest(plan.job),
        "refused": refused_line(plan),
        "facts": _facts(plan, show),
        "blank": None if plan.blank is None else _blank(plan, plan.blank, show),
        "stack": [_stack_bar(one, show) for one in plan.stack],
        "drawn": "part.svg" in drawings,
        "small": small,
        "strips": strips,
        "bends": _alike_once(
            [
                *(bend_data(first, index) for index in range(len(first.steps))),
                *(second_data(one) for one in strokes),
            ]
        ),
        "no_bends": _no_bends(plan),
        "bench_work": _bench_work(plan),
        "work_head": bench_head(plan),
        "remedies": _remedies(plan),
        "findings": [finding_data(one) for one in told(plan) if _general(plan, bends_of(one))],
        "safety": SAFETY,
        "cautions": list(plan.cautions),
        "remedy_head": HEAD,
        "estimate": ESTIMATE,
    }
    return data, drawings


def _bend_drawings(plan: Plan, step: Step) -> dict[str, str]:
    """Pictures of one bend, by file name."""
    return {
        f"bend-{step.order}-{pose}{size}.svg": _paper(
            drawing.bend_scene(plan, step, pose, frame, figures=False)
        )
        for pose in _POSES
        for size, frame in _BEND.items()
    }


def _alike_once(bends: list[Data]) -> list[Data]:
    """Let a bend that is set like an earlier one name that one instead of saying it all again."""
    found: list[Data] = []
    for one in bends:
        like = next((other for other in found if _set_alike(one, other)), None)
        if like is None:
            found.append({**one, "like": ""})
            continue
        # What was told there is not told again; a warning of its own is.
        new = [each for each in one["findings"] if each not in like["findings"]]
        small = [] if one["small"] == like["small"] else one["small"]
        found.append({**one, "like": like["title"], "findings": new, "small": small})
    return found


def _set_alike(one: Data, other: Data) -> bool:
    """Whether the press is set, pushed and read the same; clashes are told each."""
    if one["clash"] or other["clash"] or other["like"]:
        return False
    return all(one[name] == other[name] for name in _SETTING)


def _remedies(plan: Plan) -> list[str]:
    """Say what would make a refused part."""
    if plan.remedies is None:
        return []
    show = figures_for(plan.job)
    words = [remedy_words(one, show) for one in plan.remedies.found]
    return [*(f"{one.order} {one.checked}" for one in words), *rest_words(plan.remedies, show)]


def _part_frame(bends: int) -> Frame:
    """Room for the finished part: each bend brings words that need some."""
    least, more, most = _PART_HIGH
    return Frame(width=_WIDE, height=min(least + more * max(0, bends - 3), most), body=_TYPE)


def _paper(scene: drawing.Scene) -> str:
    return drawing.to_svg(scene, "paper")


def _general(plan: Plan, bends: frozenset[int]) -> bool:
    """Whether a finding has no block of a bend to stand in."""
    return not bends & {step.bend for step in plan.steps}


def _facts(plan: Plan, show: Figures) -> list[list[str]]:
    part = plan.job.part
    bends = "1 bend" if len(part.bends) == 1 else f"{len(part.bends)} bends"
    weight = blank_weight(plan.weights, show.plain)
    facts = [
        ["Quantity", str(part.quantity)],
        ["Bar", ", ".join(filter(None, (section(plan), weight)))],
        ["Material", part.material],
        ["Shape", f"{bends}, legs measured {how_measured(part)}"],
        ["Main tooling" if plan.others else "Tooling", _tooling(plan.job, show)],
        *([_capital(one.name), _use(one, show)] for one in plan.others),
        *([_capital(one.tooling), _again(one, show)] for one in plan.second_strokes),
    ]
    if part.at_once > 1:
        facts.append(["At once", side_by_side(part)])
    if part.stacked > 1:
        facts.append(["Stacked", f"{part.stacked} bars on each other"])
    if len(plan.steps) > 1:
        facts.append(["Order", f"bend {', then '.join(str(step.bend) for step in plan.steps)}"])
    if plan.handling is not None and plan.handling.cost is not None and plan.handling.bends > 1:
        facts.append(["Handling", handling_words(plan.handling, head="")])
    return facts


def _capital(name: str) -> str:
    return f"{name[:1].upper()}{name[1:]}"


def _use(one: ToolUse, show: Figures) -> str:
    """Sizes of other tooling, and which bends are made on it."""
    several = "s" if len(one.bends) > 1 else ""
    return f"{_sizes(one.tooling, show)}; for bend{several} {listed(one.bends)}"


def _again(stroke: SecondStroke, show: Figures) -> str:
    """Sizes of the tooling that a bend is pushed on in."""
    tooling = stroke.made.job.toolings()[stroke.tool]
    return f"{_sizes(tooling, show)}; to finish bend {stroke.bend}"


def _tooling(job: Job, show: Figures) -> str:
    if job.tooling is None:
        return "not entered"
    return _sizes(job.tooling, show)


def _sizes(tooling: Tooling, show: Figures) -> str:
    nose, shoulders = tooling.nose, tooling.shoulders
    return (
        f"nose (punch) radius {show.short(nose.radius)}, shoulders (die) opening "
        f"{show.short(shoulders.opening)}, radius {show.short(shoulders.radius)}"
    )


def _blank(plan: Plan, blank: Blank, show: Figures) -> Data:
    band = plan.length_band
    sizes = [
        f"{METHOD_WORDS[other.method]} {show.words(other.length)}" for other in blank.alternatives
    ]
    return {
        "length": show.length(blank.length),
        "others": show.others(blank.length),
        "between": "" if band is None else show.length_between(band),
        "method": METHOD_WORDS[blank.method],
        "alternatives": "; ".join(sizes),
        "sighted": plan.job.tooling is not None,  # there is an edge to sight along
        "marks": [
            {
                "bend": mark.label,
                "nose": show.length(mark.nose),
                "sight": show.length(mark.sight) if blank.carries_sight(mark) else _NOTHING,
                # The hits of a row share their zone: it stands once, beside the first.
                "from": show.length(mark.tangents[0]) if mark.hit <= 1 else _SAME,
                "to": show.length(mark.tangents[1]) if mark.hit <= 1 else _SAME,
            }
            for mark in blank.marks
        ],
        "holes": [
            {
                "hole": f"{cut_kind(hole)} {hole.hole}",
                "at": show.length(hole.position),
                "across": show.short(abs(hole.across)) if hole.across else "",
                "size": as_fractions(cut_size(hole, on_paper(plan.job).figures)),
            }
            for hole in blank.drilled_flat
        ],
        "twists": [
            {"leg": str(one.leg), "from": show.length(one.begin), "to": show.length(one.end)}
            for one in blank.twists
        ],
        "saws": [{"end": str(saw.end), "at": show.length(saw.position)} for saw in blank.saws],
        "welds": [
            {"weld": str(weld.weld), "at": show.length(weld.position)} for weld in blank.welds
        ],
    }


def _bench_work(plan: Plan) -> list[Data]:
    """Say what is done after the press."""
    refused = is_refused(plan)
    words = zip(plan.bench_work, bench_work_words(plan, on_paper(plan.job)), strict=True)
    return [
        {"title": as_fractions(one.title), "text": as_fractions(one.text)}
        for work, one in words
        # What is pushed on at the press has a block of its own, as the bends before it.
        if refused or not isinstance(work, SecondStroke)
    ]


def _stack_bar(one: StackBar, show: Figures) -> Data:
    return {
        "name": one.name[:1].upper() + one.name[1:],
        "length": show.length(one.blank.length),
        "marks": [
            {
                "bend": mark.label,
                "nose": show.length(mark.nose),
                "sight": show.length(mark.sight) if one.blank.carries_sight(mark) else _NOTHING,
                "free": show.angle(one.free[mark.bend - 1]),
            }
            for mark in one.blank.marks
        ],
    }


def _no_bends(plan: Plan) -> str:
    if plan.steps:
        return ""
    if plan.job.tooling is None:
        return "No settings yet: enter the tooling (nose and shoulders)."
    return "No settings yet: see the notes and warnings."
