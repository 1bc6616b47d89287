"""A plan for a person at a terminal: steps that begin with a verb, figures beside what they say."""

from __future__ import annotations

import textwrap

from strapwright.bending.bend_values import Band
from strapwright.findings import Severity
from strapwright.motion.refused_bends import has_no_stop
from strapwright.planning.bar_rolls import roll_words
from strapwright.planning.plan_values import Plan, Step
from strapwright.shop.bar import Bar
from strapwright.wording import hold_words
from strapwright.wording.caution_words import READ_LOADED
from strapwright.wording.figures import Figures, Kind, figures_for
from strapwright.wording.gauge_words import no_gauge_words
from strapwright.wording.handling_words import handling_words
from strapwright.wording.reader import at_command
from strapwright.wording.refused_words import NO_STOP, WORD, clash_words, headline
from strapwright.wording.relief_words import relief_words
from strapwright.wording.remedy_words import HEAD, remedy_words, rest_words
from strapwright.wording.telling import Told, tell_all
from strapwright.wording.way_off_words import way_off_words

WIDTH = 88  # columns
_HEADS = {
    Severity.REFUSAL: "Cannot be made as stated",
    Severity.WARNING: "Warnings",
    Severity.NOTE: "Notes",
}


def plan_to_text(plan: Plan) -> str:
    """Write a plan in words.

    Parameters
    ----------
    plan
        As made by :func:`strapwright.planning.plan`.

    Returns
    -------
    str
        Lines of at most 88 columns where words allow it, ending in a newline.
    """
    show = figures_for(plan.job)
    blocks = [_refused(plan), _head(plan, show), _blank(plan, show)]
    blocks.append(_stack(plan, show))
    blocks += [_step(step, plan, show) for step in plan.steps]
    blocks.append(_springback(plan))
    told = tell_all(plan.findings, at_command(plan.job))
    blocks += _found(plan, told)
    if plan.handling is not None and plan.handling.cost is not None:
        blocks.insert(-1 - len(_HEADS), textwrap.wrap(handling_words(plan.handling), WIDTH))
    if plan.cautions:
        blocks.append(["Mind", *(line for one in plan.cautions for line in _point(one))])
    return "\n\n".join("\n".join(block) for block in blocks if block) + "\n"


def findings_to_text(plan: Plan) -> str:
    """Write only the findings of a plan in words.

    Parameters
    ----------
    plan
        As made by :func:`strapwright.planning.plan`.

    Returns
    -------
    str
        What cannot be made first, then warnings, then notes; one line where there is none.
    """
    told = tell_all(plan.findings, at_command(plan.job))
    blocks = _found(plan, told)
    said = "\n\n".join("\n".join(block) for block in blocks if block)
    return f"{said or 'Nothing found.'}\n"


def _refused(plan: Plan) -> list[str]:
    """The banner of a refused part, above all else."""
    said = headline(plan, at_command(plan.job))
    return [] if said is None else textwrap.wrap(f"{WORD.upper()}: {said.sentence}", WIDTH)


def _head(plan: Plan, show: Figures) -> list[str]:
    part = plan.job.part
    bends = "1 bend" if len(part.bends) == 1 else f"{len(part.bends)} bends"
    return [
        f"{part.name}, {part.quantity} off",
        f"{section_text(part.bar, show)}, {part.material}, {bends}",
    ]


def section_text(bar: Bar, show: Figures) -> str:
    """Name a bar by its section and sizes."""
    thick = show.stated(bar.thickness)
    if bar.section != "flat":
        return f"{bar.section} {thick}"
    return f"flat {thick} x {show.stated(bar.width)}"


def _blank(plan: Plan, show: Figures) -> list[str]:
    blank = plan.blank
    if blank is None:
        return ["Blank: nothing can be said; see the findings."]
    band = plan.length_band
    spread = "" if band is None else f", {show.between(band, 'mm')}"
    of = " of bar 1" if plan.stack else ""
    lines = [f"Cut the blank{of} to {show.on_bar(blank.length)}{spread} (by {blank.method})."]
    if blank.alternatives:
        others = ", ".join(
            f"{other.method} {show.on_bar(other.length)}" for other in blank.alternatives
        )
        lines += textwrap.wrap(
            f"Other methods: {others}.", WIDTH, initial_indent="  ", subsequent_indent="  "
        )
    if blank.marks:
        lines.append("Mark it, all from end 1:")
    for mark in blank.marks:
        first, last = (show.on_bar(place) for place in mark.tangents)
        zone = "" if mark.hit > 1 else f", zone {first} to {last}"  # hits of a row share theirs
        sight = f", sight {show.on_bar(mark.sight)}" if blank.carries_sight(mark) else ""
        lines.append(f"  bend {mark.label}: nose {show.on_bar(mark.nose)}{sight}{zone}")
    lines += [
        f"  hole {hole.hole}: {show.on_bar(hole.position)}, diameter {show.stated(hole.diameter)}"
        + (f", {show.on_bar(abs(hole.across))} off the middle" if hole.across else "")
        for hole in blank.holes
    ]
    return lines


def _stack(plan: Plan, show: Figures) -> list[str]:
    """Blank, marks and angles of every bar of a stack."""
    if not plan.stack:
        return []
    lines = ["Each bar of the stack by itself; bar 1 lies at the nose at every bend:"]
    for one in plan.stack:
        marks = "; ".join(
            f"bend {mark.label}: nose {show.on_bar(mark.nose)}"
            + (f", sight {show.on_bar(mark.sight)}" if one.blank.carries_sight(mark) else "")
            + f", opens to {show.angle(one.free[mark.bend - 1])}"
            for mark in one.blank.marks
        )
        lines += textwrap.wrap(
            f"{one.name}: cut {show.on_bar(one.blank.length)}; {marks}",
            WIDTH,
            initial_indent="  ",
            subsequent_indent="    ",
        )
    return lines


def _step(step: Step, plan: Plan, show: Figures) -> list[str]:
    travel = show.between(step.bands.travel, "mm")
    roll = roll_words(step.hold.roll, step.hold.end_left)
    turned = f"{roll} from the drawn face, then " if roll else ""
    hold = f"{turned}{hold_words.laid(plan, step)}"
    if has_no_stop(plan, step):
        why = clash_words(plan, step, at_command(plan.job))
        said = f"{why}. {NO_STOP}" if why else NO_STOP
        return [_title(plan, step, show), *_row("Hold", hold), *_row(WORD, said)]
    rows = [
        ("Hold", hold),
        ("Nose", hold_words.where_nose_is(step.hold)),
        ("Carried", hold_words.carried(step.hold, show)),
        ("Push", f"{show.setting(step.setting.travel)} from touch, {travel}"),
        *_stops(step, show),
        ("Gauge", _gauge(step, show)),
        *_relief(step, show),
        ("Under ram", _loaded(step, show)),
        ("Let go", _banded(step, step.free_angle, step.bands.free_angle, "rad", show)),
        ("Force", _banded(step, step.force, step.bands.force, "N", show)),
        *_bottoming(step, show),
        ("Radius", f"a gauge reads {show.length(step.radii.gauge)} on the inside"),
        *_around(step, show),
    ]
    lines = [_title(plan, step, show)]
    for name, text in rows:
        lines += _row(name, text)
    return lines + _staged(step, show)


def _title(plan: Plan, step: Step, show: Figures) -> str:
    way = "up" if plan.job.part.bends[step.bend - 1].side > 0 else "down"
    whole = show.angle(step.wanted if step.total is None else step.total)
    by = "" if step.hits == 1 else f" by {step.hits} hits, each as follows"
    return f"{step.order}. Bend {step.bend}, {way} {whole}{by}"


def _bottoming(step: Step, show: Figures) -> list[tuple[str, str]]:
    """From where on nothing is promised."""
    if step.bottoming_travel is None:
        return []
    start = show.setting_below(step.bottoming_travel)
    return [("Bottoms", f"from a travel of {start} on; past it no angle is promised")]


def _around(step: Step, show: Figures) -> list[tuple[str, str]]:
    """End stop, nearest piece and how the part comes off."""
    rows = []
    if step.end_stop is not None:
        rows.append(("End stop", f"{show.length(step.end_stop)} left of the middle of the nose"))
    if step.clearance is not None and step.nearest is not None:
        rows.append(
            ("Clear", f"{show.clearance(step.clearance)} at least, from the {step.nearest.name}")
        )
    if step.coming_off is not None:
        rows.append(("Comes off", way_off_words(step)))
    return rows


def _row(name: str, text: str) -> list[str]:
    return textwrap.wrap(text, WIDTH, initial_indent=f"   {name:<10}", subsequent_indent=" " * 13)


def _banded(step: Step, value: float, band: Band, kind: Kind, show: Figures) -> str:
    if step.bottoms_first:
        return "not promised: it bottoms first"
    said = show.banded(value, band, kind)
    return f"{said.shown}, {said.between}"


def _loaded(step: Step, show: Figures) -> str:
    said = _banded(step, step.loaded_angle, step.bands.loaded_angle, "rad", show)
    return said if step.bottoms_first else f"{said}; {READ_LOADED}"


def _stops(step: Step, show: Figures) -> list[tuple[str, str]]:
    """Faces and stop block."""
    setting = step.setting
    rows = []
    if setting.faces is not None:
        first, second = setting.faces_between
        rows.append(
            ("Measure", f"{show.setting(setting.faces)} between the {first} and the {second}")
        )
    if setting.block is not None:
        stands, meets = setting.block_between
        rows.append(
            ("Block", f"{show.setting(setting.block)} high, on the {stands}, met by the {meets}")
        )
    return rows


def _gauge(step: Step, show: Figures) -> str:
    gauge = step.gauge
    if gauge is None:
        return f"no reading: {no_gauge_words(step.no_gauge)}"
    band = Band(low=gauge.low, high=gauge.high)
    said = show.banded(gauge.value, band, "MPa")
    return (
        f"{said.shown}, {said.between}; let off and look if it passes "
        f"{show.pressure_down(gauge.ease_off)}"
    )


def _relief(step: Step, show: Figures) -> list[tuple[str, str]]:
    words = relief_words(step.relief, show)
    return [] if words is None else [("Relief", words.sentence)]


def _staged(step: Step, show: Figures) -> list[str]:
    """First push, then how much more by what the protractor shows, as two lines of a table."""
    staged = step.staged
    if staged is None:
        return []
    first = show.setting(staged.first_travel)
    expected = show.angle(staged.first_free)
    extras = [show.bare_setting(extra) for extra in staged.extra]
    name, _ = show.size_of("mm")
    reads = "".join(f"{show.angle(reading):>7}" for reading in staged.readings)
    more = "".join(f"{extra:>7}" for extra in extras)
    return [
        *_row(
            "In stages", f"push {first}, let off and read the angle (expect {expected}); where it"
        ),
        f"{'':13}stands at  {reads}",
        f"{'':13}push on{name} {more}",
    ]


def _springback(plan: Plan) -> list[str]:
    """By how much and why the classical ratio misses, once for all bends that are alike."""
    bends: dict[str, list[int]] = {}
    for step in plan.steps:
        for check in step.cross_checks:
            if check.name == "classical springback":
                bends.setdefault(check.text, []).append(step.bend)
    if not bends:
        return []
    said = [(f"bend {_listed(sorted(found))}", text) for text, found in bends.items()]
    return [
        "Springback, beside the classical ratio (Kalpakjian and Schmid, 4 x^3 - 3 x + 1)",
        *(line for where, text in said for line in _point(f"{where}: {text}")),
    ]


def _listed(bends: list[int]) -> str:
    *first, last = map(str, bends)
    return f"{', '.join(first)} and {last}" if first else last


def _findings(findings: tuple[Told, ...], severity: Severity) -> list[str]:
    found = [one for one in findings if one.severity == severity]
    if not found:
        return []
    lines = [_HEADS[severity]]
    for one in found:
        lines += _point(f"{one.where}: {one.sentence} [{one.code}]")
    return lines


def _found(plan: Plan, told: tuple[Told, ...]) -> list[list[str]]:
    """Findings, with what would make a refused part right below what refuses it."""
    refusals, *others = (_findings(told, severity) for severity in _HEADS)
    return [refusals, _remedies(plan), *others]


def _remedies(plan: Plan) -> list[str]:
    """What would make a refused part, each with its figure."""
    if plan.remedies is None:
        return []
    show = figures_for(plan.job)
    said = [remedy_words(one, show) for one in plan.remedies.found]
    lines = [f"{one.order} {one.checked}" for one in said]
    lines += rest_words(plan.remedies, show)
    return [HEAD, *(line for text in lines for line in _point(text))]


def _point(text: str) -> list[str]:
    return textwrap.wrap(text, WIDTH, initial_indent="  - ", subsequent_indent="    ")
