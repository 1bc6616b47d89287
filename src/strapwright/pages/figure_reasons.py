"""Why this number: the formula, what went into it, and where it comes from."""

from __future__ import annotations

from attrs import frozen

from strapwright.bending.hydraulics import piston_area
from strapwright.planning.bench_work.work_values import Twisting
from strapwright.planning.plan_values import Plan, Step
from strapwright.quantities.inside_units import INCH_MM
from strapwright.wording.figures import Figures, figures_for
from strapwright.wording.steps.speed_words import turn_per_travel

METHODS = {
    "strain": "the strain that the stroke solver finds through the thickness",
    "book soft": "the handbook line for soft copper and brass, 0.55 T + 1.57 R for 90°",
    "book medium": "the handbook line for half-hard metal and soft steel, 0.64 T + 1.57 R for 90°",
    "book hard": "the handbook line for hard metal, 0.71 T + 1.57 R for 90°",
    "din 6935": "DIN 6935",
    "factor": "the factor you entered",
}
_SOLVER = (
    "Our own stroke solver: the bar as a beam that hardens, between one nose and two shoulders "
    "with friction. Compared with published and finite-element cases on the validation page of the "
    "handbook."
)


@frozen(kw_only=True)
class Why:
    """How one number came about.

    Attributes
    ----------
    formula
        In words and signs.
    inputs
        Name and value of what went into it.
    source
        Where formula or method come from.
    """

    formula: str
    inputs: tuple[tuple[str, str], ...]
    source: str


def why_blank(plan: Plan) -> Why | None:
    """Say why the blank is that long; ``None`` where there is none."""
    blank = plan.blank
    if blank is None:
        return None
    show, part = figures_for(plan.job), plan.job.part
    inputs = [(f"leg {k}", show.on_bar(leg)) for k, leg in enumerate(part.legs, start=1)]
    inputs += [(f"left on at end {saw.end}", show.on_bar(saw.length)) for saw in blank.saws]
    inputs += [
        (f"leg {one.leg} loses when twisted", show.length(0.5 * sum(one.lost)))
        for one in plan.bench_work
        if isinstance(one, Twisting)
    ]
    inputs += [
        (f"bend {k} {'takes off' if taken >= 0.0 else 'adds'}", show.length(abs(taken)))
        for k, taken in enumerate(blank.deductions, start=1)
    ]
    inputs += [
        (f"by {METHODS.get(other.method, other.method)}", show.on_bar(other.length))
        for other in blank.alternatives
    ]
    return Why(
        formula=f"All legs, measured {part.measured}, less what each bend takes off.",
        inputs=tuple(inputs),
        source=f"Each bend by {METHODS.get(blank.method, blank.method)}.",
    )


def why_gauge(plan: Plan, step: Step) -> Why | None:
    """Say why the gauge reads that; ``None`` where there is no reading."""
    press, gauge = plan.job.press, step.gauge
    if press is None or press.bore is None or gauge is None:
        return None
    show = figures_for(plan.job)
    area = piston_area(press.bore)
    shown = f"{area / INCH_MM**2:.2f} in²" if plan.job.units == "inch" else f"{area:.0f} mm²"
    return Why(
        formula="force ÷ (piston area \N{MULTIPLICATION SIGN} efficiency) + gauge with no load",
        inputs=(
            ("force at full stroke", show.force(step.force, step.bands.force)),
            ("piston area, π/4 \N{MULTIPLICATION SIGN} bore²", shown),
            ("efficiency (share of the force that reaches the nose)", f"{press.efficiency:g}"),
            ("gauge with no load", show.pressure(press.no_load)),
            ("highest on the way", show.pressure(gauge.peak)),
        ),
        source="Definition of pressure; the share is common practice for a small cylinder.",
    )


def why_travel(plan: Plan, step: Step) -> Why:
    """Say why the ram goes that far."""
    show = figures_for(plan.job)
    plan = plan.on_tooling_of(step.bend)
    tooling, bar = plan.job.tooling, plan.job.part.bar
    inputs = [
        ("wanted after release", show.angle(step.wanted)),
        ("under load", show.angle(step.loaded_angle, step.bands.loaded_angle)),
        ("thickness", show.length(plan.job.part.lot.thickness or bar.thickness)),
    ]
    if tooling is not None:
        inputs += [
            ("opening", show.length(tooling.shoulders.opening)),
            ("nose radius", show.length(tooling.nose.radius)),
            ("shoulder radius", show.length(tooling.shoulders.radius)),
            ("friction", f"{tooling.friction:g}"),
        ]
    if plan.job.press is not None and plan.job.press.give:
        inputs.append(("flex of the press", show.length(plan.job.press.give * step.force)))
    name, turn = turn_per_travel(step, plan.job.units)
    inputs.append(("change of angle at full stroke", f"{turn:.1f}° per {name}"))
    return Why(
        formula="The travel after which the released bar has the wanted angle.",
        inputs=tuple(inputs),
        source=_SOLVER,
    )


def why_turn(plan: Plan, step: Step) -> Why:
    """Say why the bar is bent further than wanted, with the rules of the trade beside it."""
    show = figures_for(plan.job)
    inputs = [
        ("wanted after release", show.angle(step.wanted)),
        ("springs back", show.angle(step.loaded_angle - step.free_angle)),
    ]
    inputs += [
        (
            f"{check.name} ({check.source})",
            " here ".join(_in_unit(show, one, check.unit) for one in (check.value, check.ours)),
        )
        for check in step.cross_checks
    ]
    said = [one.text for one in step.cross_checks if one.name == "classical springback"]
    return Why(
        formula=" ".join(["Wanted angle + springback at that angle.", *said]),
        inputs=tuple(inputs),
        source=_SOLVER,
    )


def _in_unit(show: Figures, value: float, unit: str) -> str:
    shown = {"N": show.force, "mm": show.length, "rad": show.angle}.get(unit)
    return shown(value) if shown is not None else f"{value:.3g} {unit}".strip()
