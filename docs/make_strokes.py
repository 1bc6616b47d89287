"""Write ``docs/validation-strokes.md`` and its pictures from the stroke cases, one by one.

``python docs/make_strokes.py``: for every case our curve in its band, the reference's points on it,
and our figure, the truth and the difference under it.
"""

from __future__ import annotations

import math
import sys
from pathlib import Path

import numpy as np
from attrs import frozen

ROOT = Path(__file__).resolve().parent.parent
sys.path.append(str(ROOT / "validation"))

from strapwright.service.compiler_cache import prepare_cache

prepare_cache()  # before anything that is compiled is imported

from stroke_plots import Panel, plot

import stroke_cases  # scripts, not a package
from case_files import Floats, Reader, read_case
from strapwright.bending import (
    BendSetup,
    StrokeState,
    state_at_travel,
)
from strapwright.bending.model_error import ModelError, model_error
from strapwright.drawing import to_svg
from strapwright.wording.bend_finding_words import WEAK_SPOTS

CASES = ROOT / "validation" / "cases" / "stroke"
PAGE = ROOT / "docs" / "validation-strokes.md"
PICTURES = ROOT / "docs" / "pictures" / "strokes"
POINTS = 80
HEAD = """# Strokes, one by one

Written by `python docs/make_strokes.py` from the case files under `validation/cases/stroke`. The
line is our curve, the band around it what the solver says of itself there (nine in ten), the dots
are the reference's rows that count. Below, ours less the reference at equal travel, in the same
band. Forces of a *slice* are for each mm of width, the others for the whole bar.

The references are finite elements, themselves trusted to about 1 % of force, 0.15° of angle and
0.05° of springback. They helped to choose the solver's constants: how well a case does that took no
part stands under *Leave-one-out* in [validation](validation.md).
"""


@frozen(kw_only=True)
class Compared:
    """One case, solved.

    Attributes
    ----------
    source
        What the reference is.
    end, half
        Our states at the last travel, and at half of it.
    loaded, free, half_force
        The reference at the same two travels [deg, N or N/mm].
    """

    name: str
    source: str
    setup: BendSetup
    truth: stroke_cases.Truth
    tolerance: stroke_cases.Tolerance
    figures: stroke_cases.Figures
    band: ModelError
    verdict: str
    end: StrokeState
    half: StrokeState
    loaded: float
    free: float
    half_force: float


def compare(path: Path) -> Compared:
    """Run one case file as the case runner does."""
    case = read_case(path)
    reader = Reader(case)
    setup = stroke_cases.read_setup(reader)
    truth = stroke_cases.read_truth(reader, setup)
    tolerance = stroke_cases.read_tolerance(reader.part("tolerance"))
    figures = stroke_cases.compare(setup, truth)
    band = model_error(setup, math.radians(float(truth.angle.max())))
    stated = stroke_cases.stated_band(setup, truth)
    verdict, _ = stroke_cases.judge(figures, tolerance, stated)
    final = reader.part("final")
    half = 0.5 * truth.last_travel
    return Compared(
        name=reader.text("name"),
        source=reader.text("source").split(". ")[0],
        setup=setup,
        truth=truth,
        tolerance=tolerance,
        figures=figures,
        band=band,
        verdict=str(verdict),
        end=state_at_travel(setup, truth.last_travel),
        half=state_at_travel(setup, half),
        loaded=final.number("loaded_angle_deg"),
        free=final.number("free_angle_deg"),
        half_force=float(np.interp(half, truth.force_travel, truth.force)),
    )


def unit_of(setup: BendSetup) -> str:
    """Unit of the forces of a case."""
    return "N/mm" if setup.section == "slice" else "N"


def picture(one: Compared, theme: str) -> str:
    """Draw one case as SVG."""
    setup, truth = one.setup, one.truth
    last = max(float(truth.force_travel[-1]), float(truth.angle_travel[-1]))
    travel = last * (np.arange(1, POINTS + 1) / POINTS) ** 1.3
    states = [state_at_travel(setup, float(h)) for h in travel]
    force = np.array([state.force for state in states])
    angle = np.degrees([state.loaded_angle for state in states])
    ours = _at(setup, truth.force_travel, "force")
    turned = np.degrees(_at(setup, truth.angle_travel, "loaded_angle"))
    band = math.degrees(one.band.angle)
    panels = [
        Panel(
            name=f"force on the nose, {unit_of(setup)}",
            difference="ours less the reference, % of force",
            travel=travel,
            ours=force,
            low=force * (1.0 - one.band.force),
            high=force * (1.0 + one.band.force),
            at=truth.force_travel,
            truth=truth.force,
            apart=100.0 * (ours / truth.force - 1.0),
            band=100.0 * one.band.force,
        ),
        Panel(
            name="angle under load, degrees",
            difference="ours less the reference, degrees",
            travel=travel,
            ours=angle,
            low=np.maximum(angle - band, 0.0),
            high=angle + band,
            at=truth.angle_travel,
            truth=truth.angle,
            apart=turned - truth.angle,
            band=band,
        ),
    ]
    said = stroke_cases.describe(one.figures)
    scene = plot(f"Stroke {one.name}: force and angle against travel", said, panels)
    return to_svg(scene, theme)  # type: ignore[arg-type]  # dark or light


def _at(setup: BendSetup, travels: Floats, name: str) -> Floats:
    return np.array([getattr(state_at_travel(setup, float(h)), name) for h in travels])


def bar_words(setup: BendSetup) -> str:
    """Say the bar and its metal."""
    flow, t = setup.flow, setup.thickness
    bar = {
        "slice": f"slice of a {'wide' if setup.width_state else 'narrow'} bar {t:g} thick "
        f"(plane {'strain' if setup.width_state else 'stress'})",
        "flat": f"flat {t:g} x {setup.width:g}",
        "square": f"square {t:g}",
        "round": f"round {t:g}",
    }[setup.section]
    past = f"p-{flow.plateau:g}" if flow.plateau else "p"
    swift = f"$\\sigma = {flow.strength:g}\\,({flow.offset:.4g}+{past})^{{{flow.exponent:g}}}$ MPa"
    metal = f"yield {flow.strength:g} MPa, hardening {flow.slope:g} MPa" if flow.slope else swift
    if flow.plateau:
        metal = f"yield {flow.yield_stress:.0f} MPa to a strain of {flow.plateau:g}, then {swift}"
    return (
        f"{bar}; opening {setup.opening:g}, nose {setup.nose_radius:g}, shoulders "
        f"{setup.shoulder_radius:g} mm, W/t {setup.opening / t:.1f}; friction {setup.friction:g}; "
        f"{metal}"
    )


def rows_of(one: Compared) -> list[str]:
    """Our figure, the truth, the difference and our band, a line each."""
    unit, force = unit_of(one.setup), f"± {100 * one.band.force:.1f} %"
    angle = f"± {math.degrees(one.band.angle):.2f}°"
    back = f"± {math.degrees(one.band.springback):.2f}°"
    loaded, free = math.degrees(one.end.loaded_angle), math.degrees(one.end.free_angle)
    peak = max(state_at_travel(one.setup, float(h)).force for h in one.truth.force_travel)
    shown = [
        (f"force at half the travel, {unit}", one.half.force, one.half_force, force),
        (f"highest force, {unit}", peak, float(one.truth.force.max()), force),
    ]
    lines = [
        f"| {name} | {ours:.4g} | {truth:.4g} | {100 * (ours / truth - 1):+.1f} % | {band} |"
        for name, ours, truth, band in shown
    ]
    for name, ours, truth, band in (
        ("angle under load at the end", loaded, one.loaded, angle),
        ("angle after release", free, one.free, ""),
        ("springback", loaded - free, one.loaded - one.free, back),
    ):
        lines.append(f"| {name} | {ours:.2f}° | {truth:.2f}° | {ours - truth:+.2f}° | {band} |")
    return lines


def section_of(one: Compared) -> str:
    """Write one case."""
    name, asks = one.name, one.tolerance
    found = one.figures
    lines = [
        f"## {name}",
        "",
        f"{bar_words(one.setup)[:1].upper()}{bar_words(one.setup)[1:]}. {one.source}.",
        "",
    ]
    for theme in ("light", "dark"):
        lines += [
            f"```{{image}} pictures/strokes/{name}.{theme}.svg",
            f":alt: Stroke {name}, ours and the reference",
            f":class: only-{theme}",
            "```",
            "",
        ]
    lines += [
        f"| {name} | ours | reference | difference | our band |",
        "|---|---|---|---|---|",
        *rows_of(one),
        "",
        (
            f"Over the stroke: mean force {found.force_mean:.1%} (asked {asks.force_mean:.1%}), "
            f"worst force {found.force_peak:.1%} (asked {asks.force_peak:.1%}), angle "
            f"{found.angle_rms:.2f}° rms (asked {asks.angle_rms:.2f}°), springback "
            f"{found.springback:+.2f}° (asked {asks.springback:.2f}°): **{one.verdict}**."
        ),
        "",
    ]
    if one.band.reasons:
        why = "; ".join(WEAK_SPOTS[reason] for reason in one.band.reasons)
        lines += [f"The band is widened here: {why}.", ""]
    return "\n".join(lines)


def main() -> int:
    """Write the page and the pictures; fails where a case does."""
    PICTURES.mkdir(parents=True, exist_ok=True)
    sections, failed = [], 0
    for path in sorted(CASES.glob("*.json")):
        one = compare(path)
        failed += one.verdict == "fail"
        sections.append(section_of(one))
        for theme in ("light", "dark"):
            file = PICTURES / f"{one.name}.{theme}.svg"
            file.write_text(picture(one, theme), encoding="utf-8")
        sys.stdout.write(f"{one.name}: {one.verdict}\n")
    PAGE.write_text(HEAD + "\n" + "\n".join(sections).strip() + "\n", encoding="utf-8")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())
