"""Cases of kind ``stroke``: force, angle and springback over travel against a reference."""

from __future__ import annotations

import math
from typing import Any

import numpy as np
from attrs import asdict, evolve, frozen

from case_files import Floats, Reader, Verdict
from strapwright.bending import BendSetup, FlowCurve, state_at_travel
from strapwright.bending.model_error import ModelError, model_error
from strapwright.errors import InputError

# Case -> springback that it reports and that of an independent code [deg], where they are further
# apart than the chain of links is from any other case of the series.
DOUBTED = {"O7": (8.02, 8.79)}
ANGLE_COUNTS_FROM = 0.08  # share of the last travel; touch is soft in the references before it
LEVELS_MEET = 0.02  # by how much plateau and start of hardening may differ; rounding of the file


@frozen(kw_only=True)
class Truth:
    """What the reference says; travels [mm], forces [N or N/mm], angles [deg]."""

    force_travel: Floats
    force: Floats
    angle_travel: Floats
    angle: Floats
    last_travel: float
    springback: float


@frozen(kw_only=True)
class Tolerance:
    """What the file asks for: relative forces [-], angles [deg]."""

    force_mean: float
    force_peak: float
    angle_rms: float
    springback: float


@frozen(kw_only=True)
class Figures:
    """How far off we are, ours less the reference; relative forces [-], angles [deg].

    Attributes
    ----------
    force_mean, force_bias, force_peak
        Mean of the size, mean, and largest size of the relative error at equal travel.
    angle_rms, angle_peak, angle_end
        Of the loaded angle at equal travel; the end one carries its sign.
    springback
        At the last travel, with its sign.
    """

    force_mean: float
    force_bias: float
    force_peak: float
    angle_rms: float
    angle_peak: float
    angle_end: float
    springback: float


def run(case: dict[str, Any]) -> dict[str, Any]:
    """Run one case; return name, kind, figures, verdict, text and why.

    Raises
    ------
    InputError
        Where the file lacks something, or the bend cannot be taken as far as the reference.
    SolverError
        Where the solver finds no answer.
    """
    reader = Reader(case)
    name = reader.text("name")
    setup = read_setup(reader)
    truth = read_truth(reader, setup)
    tolerance = read_tolerance(reader.part("tolerance"))
    figures = compare(setup, truth)
    band = stated_band(setup, truth)
    verdict, why = judge(figures, tolerance, band)
    return {
        "name": name,
        "kind": "stroke",
        "figures": named(figures),
        "verdict": verdict,
        "text": describe(figures),
        "why": (*why, *doubt_of(name)),
    }


def read_setup(reader: Reader) -> BendSetup:
    """Return the bend that a case describes."""
    bar, tooling = reader.part("bar"), reader.part("tooling")
    if bar.has("section"):
        section = bar.choice("section", ("flat", "square", "round"))
        depth = bar.number("diameter_mm" if section == "round" else "thickness_mm")
        width = bar.number("width_mm") if section == "flat" else depth
        state = None
    else:
        section, width = "slice", 1.0
        depth = bar.number("thickness_mm")
        wide = bar.choice("width_state", ("plane_strain", "plane_stress")) == "plane_strain"
        state = 1.0 if wide else 0.0
    return BendSetup(
        section=section,  # type: ignore[arg-type]  # one of four by the choice above
        thickness=depth,
        width=width,
        width_state=state,
        opening=tooling.number("opening_mm"),
        nose_radius=tooling.number("nose_radius_mm"),
        shoulder_radius=tooling.number("shoulder_radius_mm"),
        friction=reader.number("friction"),
        flow=read_flow(reader.part("material")),
    )


def read_flow(material: Reader) -> FlowCurve:
    """Return the flow curve of a case."""
    modulus, poisson = material.number("E_MPa", above=0.0), material.number("nu")
    law = material.choice("law", ("swift", "linear", "plateau"))
    if law != "linear":
        flow = FlowCurve(
            modulus=modulus,
            poisson=poisson,
            strength=material.number("K_MPa", above=0.0),
            offset=material.number("e0", above=0.0),
            exponent=material.number("n"),
        )
        return flow if law == "swift" else with_plateau(flow, material)
    return FlowCurve(
        modulus=modulus,
        poisson=poisson,
        strength=material.number("yield_MPa", above=0.0),
        offset=1.0,
        exponent=0.0,
        slope=material.number("H_MPa"),
    )


def with_plateau(flow: FlowCurve, material: Reader) -> FlowCurve:
    """Return the curve with the yield plateau, and the upper yield where one is stated."""
    level = material.number("yield_MPa", above=0.0)
    if abs(flow.yield_stress / level - 1.0) > LEVELS_MEET:
        raise InputError(
            "material",
            f"hardening begins at {flow.yield_stress:.4g} MPa and the plateau lies at {level:.4g} "
            "MPa",
            "let K e0^n be the yield",
        )
    peak, gone = level, 1.0
    if material.has("peak_MPa"):
        peak = material.number("peak_MPa", above=0.0)
        gone = material.number("peak_gone_at", above=0.0)
    return evolve(
        flow,
        plateau=material.number("plateau_strain"),
        peak=max(peak - level, 0.0),
        peak_gone=gone,
    )


def read_truth(reader: Reader, setup: BendSetup) -> Truth:
    """Return the rows that count."""
    curve, final = reader.part("curve"), reader.part("final")
    travel = curve.numbers("travel_mm")
    force = curve.numbers("force_N_per_mm" if setup.section == "slice" else "force_N")
    angle = curve.numbers("loaded_angle_deg")
    own = curve.has("angle_travel_mm")
    angle_travel = curve.numbers("angle_travel_mm") if own else travel
    if len(force) != len(travel) or len(angle) != len(angle_travel):
        raise InputError("curve", "columns differ in length", "give one value for each travel")
    if (np.diff(travel) <= 0.0).any() or (np.diff(angle_travel) <= 0.0).any():
        raise InputError("curve", "travel does not rise", "sort the rows by travel")
    shares = reader.numbers("force_counts_between")
    if len(shares) != 2 or not 0.0 <= shares[0] < shares[1] <= 1.0:
        raise InputError(
            "force_counts_between", "is not two rising shares from 0 to 1", "give e.g. [0.08, 1.0]"
        )
    # A hair of play, so that a row exactly on a limit counts.
    low, high = shares * travel[-1] + (-1e-9, 1e-9)
    counts = (travel >= low) & (travel <= high) & (travel > 0.0) & (force > 0.0)
    late = angle_travel >= ANGLE_COUNTS_FROM * angle_travel[-1] - 1e-9
    if not counts.any() or not late.any():
        raise InputError("curve", "no row counts", "give rows within force_counts_between")
    return Truth(
        force_travel=travel[counts],
        force=force[counts],
        angle_travel=angle_travel[late],
        angle=angle[late],
        last_travel=final.number("travel_mm"),
        springback=final.number("loaded_angle_deg") - final.number("free_angle_deg"),
    )


def read_tolerance(reader: Reader) -> Tolerance:
    """Return what must hold."""
    return Tolerance(
        force_mean=reader.number("force_mean_rel"),
        force_peak=reader.number("force_peak_rel"),
        angle_rms=reader.number("angle_rms_deg"),
        springback=reader.number("springback_deg"),
    )


def compare(setup: BendSetup, truth: Truth) -> Figures:
    """Solve at the reference's own travels and return the errors."""
    force = np.array([state_at_travel(setup, float(h)).force for h in truth.force_travel])
    ours = [state_at_travel(setup, float(h)).loaded_angle for h in truth.angle_travel]
    last = state_at_travel(setup, truth.last_travel)
    relative = force / truth.force - 1.0
    turned = np.degrees(ours) - truth.angle
    return Figures(
        force_mean=float(np.abs(relative).mean()),
        force_bias=float(relative.mean()),
        force_peak=float(np.abs(relative).max()),
        angle_rms=float(np.sqrt((turned**2).mean())),
        angle_peak=float(np.abs(turned).max()),
        angle_end=float(turned[-1]),
        springback=math.degrees(last.loaded_angle - last.free_angle) - truth.springback,
    )


def stated_band(setup: BendSetup, truth: Truth) -> ModelError:
    """What the solver states of itself at the end, of force also where its worst row lies."""
    band = model_error(setup, math.radians(float(truth.angle.max())))
    states = [state_at_travel(setup, float(h)) for h in truth.force_travel]
    misses = [abs(one.force / true - 1.0) for one, true in zip(states, truth.force, strict=True)]
    there = model_error(setup, states[int(np.argmax(misses))].loaded_angle)
    return evolve(band, force=max(band.force, there.force))


def judge(
    figures: Figures, tolerance: Tolerance, band: ModelError
) -> tuple[Verdict, tuple[str, ...]]:
    """Return the verdict and why; ``band`` is our own stated error.

    A miss is flagged only where every figure, the worst row of force and angle included, stays
    inside the band and a finding says why.
    """
    misses = [
        text
        for text, value, most in (
            ("mean force", figures.force_mean, tolerance.force_mean),
            ("peak force", figures.force_peak, tolerance.force_peak),
            ("rms angle", figures.angle_rms, tolerance.angle_rms),
            ("springback", abs(figures.springback), tolerance.springback),
        )
        if not value <= most
    ]
    if not misses:
        return Verdict.WITHIN, ()
    outside = f"outside the tolerance: {', '.join(misses)}"
    angle = math.degrees(band.angle)
    held = (
        figures.force_peak <= band.force
        and figures.angle_peak <= angle
        and abs(figures.springback) <= math.degrees(band.springback)
    )
    stated = (
        f"our band is {band.force:.1%} of force, {angle:.2f} deg of angle, "
        f"{math.degrees(band.springback):.2f} deg of springback"
    )
    if not held:
        return Verdict.FAIL, (outside, f"and outside our own band: {stated}")
    if not band.reasons:
        return Verdict.FAIL, (outside, f"inside our band, but no finding says why: {stated}")
    return Verdict.FLAGGED, (outside, *band.reasons)


def doubt_of(name: str) -> tuple[str, ...]:
    """Say where the truth of a case is itself in doubt."""
    if name not in DOUBTED:
        return ()
    told, other = DOUBTED[name]
    said = f"its truth is in doubt: {told:.2f} deg of springback"
    return (f"{said}, where an independent code gives {other:.2f} deg",)


def describe(figures: Figures) -> str:
    """Return the figures in one line."""
    return (
        f"force mean {figures.force_mean:.1%} (bias {figures.force_bias:+.1%}) "
        f"peak {figures.force_peak:.1%}, angle rms {figures.angle_rms:.2f} "
        f"end {figures.angle_end:+.2f} deg, springback {figures.springback:+.2f} deg"
    )


def named(figures: Figures) -> dict[str, float]:
    """Return the figures with their units in their names, for a file."""
    return {
        f"{name}_rel" if name.startswith("force") else f"{name}_deg": value
        for name, value in asdict(figures).items()
    }
