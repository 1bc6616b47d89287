"""Bends that both the solver and the referee work out, and how they are set side by side.

Shared by the tests and by ``validation/referee.py``.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from attrs import evolve, frozen
from chain import Chain
from chain_section import Array, FibreSection
from chain_stroke import ChainCurve, as_curve, new_chain, push

from strapwright.bending import BendSetup, FlowCurve, state_at_travel
from strapwright.bending.solver_model import THIN, Effects

# Number of links, length of the shortest in thicknesses: each halves the one before.
MESHES = ((50, 0.08), (100, 0.04), (200, 0.02))
STEPS = 80

WIDE = BendSetup(
    section="slice",
    thickness=6.35,
    width=1.0,
    opening=50.8,
    nose_radius=9.525,
    shoulder_radius=6.35,
    friction=0.1,
    flow=FlowCurve(modulus=2e5, poisson=0.3, strength=734.4, offset=0.0096, exponent=0.2),
    width_state=1.0,
)
NARROW = BendSetup(
    section="slice",
    thickness=3.0,
    width=1.0,
    opening=50.0,
    nose_radius=6.0,
    shoulder_radius=5.0,
    friction=0.02,
    flow=FlowCurve(modulus=2e5, poisson=0.3, strength=800.0, offset=0.006, exponent=0.22),
    width_state=0.0,
)
BIG_NOSE = evolve(
    WIDE,
    nose_radius=19.05,
    shoulder_radius=3.175,
    friction=0.0,
    flow=FlowCurve(modulus=2e5, poisson=0.3, strength=900.0, offset=0.008, exponent=0.3),
)
SHARP_NOSE = evolve(
    WIDE,
    opening=76.2,
    nose_radius=3.175,
    flow=FlowCurve(modulus=2e5, poisson=0.3, strength=801.5, offset=0.00903, exponent=0.08),
)
LINEAR = evolve(
    WIDE,
    flow=FlowCurve(modulus=2e5, poisson=0.3, strength=290.0, offset=1.0, exponent=0.0, slope=60.0),
)
# An aluminium strip on a wide opening, half way between narrow and wide.
ALUMINIUM = evolve(
    WIDE,
    thickness=4.0,
    opening=64.0,
    nose_radius=8.0,
    shoulder_radius=8.0,
    friction=0.05,
    flow=FlowCurve(modulus=7e4, poisson=0.33, strength=380.0, offset=0.004, exponent=0.15),
    width_state=0.5,
)
# A metal that hardens much, without friction.
STAINLESS = evolve(
    WIDE,
    thickness=5.0,
    opening=60.0,
    nose_radius=5.0,
    shoulder_radius=5.0,
    friction=0.0,
    flow=FlowCurve(modulus=1.93e5, poisson=0.29, strength=1400.0, offset=0.03, exponent=0.45),
    width_state=0.8,
)
# Four thicknesses of nose and rough tooling: most of its springback is in the wrapped zone.
ROUGH = evolve(WIDE, opening=80.0, nose_radius=25.4, friction=0.2)

CASES: dict[str, tuple[BendSetup, float]] = {  # with the last travel [mm]
    "wide, hardening": (WIDE, 16.2),
    "narrow, low friction": (NARROW, 16.0),
    "big nose near its jam": (BIG_NOSE, 13.3),
    "sharp nose, little hardening": (SHARP_NOSE, 27.0),
    "linear hardening": (LINEAR, 16.2),
    "aluminium, wide opening": (ALUMINIUM, 21.0),
    "stainless, no friction": (STAINLESS, 20.0),
    "big nose, much friction": (ROUGH, 24.0),
}


@frozen(kw_only=True)
class Apart:
    """Largest difference over a stroke, ours less the referee's: force [-], angles [deg]."""

    force: float
    loaded: float
    free: float
    springback: float


def referee(
    setup: BendSetup,
    last: float,
    *,
    count: int = 100,
    first: float = 0.04,
    sticking: bool = True,
    fibres: int = 64,
) -> Chain:
    """A chain of this bend at touch; its unloading follows the setup's softer modulus."""
    flow = setup.flow

    def law(p: Array) -> Array:
        stress: Array = flow.strength * (flow.offset + p) ** flow.exponent + flow.slope * p
        return stress

    assert setup.width_state is not None
    section = FibreSection(
        setup.thickness, flow.modulus, flow.poisson, law, setup.width_state,
        softening=(setup.unloading_ratio, setup.unloading_rate), fibres=fibres,
    )  # fmt: skip
    return new_chain(
        setup.thickness, setup.opening, setup.nose_radius, setup.shoulder_radius, setup.friction,
        section, last, count=count, first=first, sticking=sticking,
    )  # fmt: skip


def by_chain(
    setup: BendSetup, travels: Array, *, count: int = 100, first: float = 0.04, steps: int = STEPS
) -> ChainCurve:
    """The referee's readings at these travels."""
    last = float(travels[-1])
    chain = referee(setup, last, count=count, first=first)
    return as_curve(push(chain, travels, last / steps))


def by_solver(setup: BendSetup, travels: Array, effects: Effects = THIN) -> ChainCurve:
    """The solver's readings at these travels."""
    states = [state_at_travel(setup, float(h), effects=effects) for h in travels]
    return ChainCurve(
        travels,
        np.array([s.force for s in states]),
        np.array([s.loaded_angle for s in states]),
        np.array([s.free_angle for s in states]),
    )


def stops(last: float, count: int = 12) -> Array:
    """Travels to compare at; the first is past yield."""
    found: Array = last * np.linspace(0.08, 1.0, count)
    return found


def apart(ours: ChainCurve, theirs: ChainCurve) -> Apart:
    """Set two strokes of the same travels side by side."""

    def largest(values: Array) -> float:
        return float(values[np.argmax(np.abs(values))])

    loaded = np.degrees(ours.loaded_angle - theirs.loaded_angle)
    free = np.degrees(ours.free_angle - theirs.free_angle)
    return Apart(
        force=largest(ours.force / theirs.force - 1.0),
        loaded=largest(loaded),
        free=largest(free),
        springback=largest(loaded - free),
    )


def meshes(
    setup: BendSetup, last: float, sizes: Sequence[tuple[int, float]] = MESHES
) -> list[Apart]:
    """Solver against referee, the links halved from one row to the next."""
    travels = stops(last)
    ours = by_solver(setup, travels)
    return [
        apart(ours, by_chain(setup, travels, count=count, first=first)) for count, first in sizes
    ]
