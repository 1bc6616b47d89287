"""The proof load: a quarter over what the plate says, on a block whose size is checked."""

from __future__ import annotations

import math

from attrs import frozen

from strapwright.bending.hydraulics import push_force
from strapwright.catalog.steels import find_steel
from strapwright.quantities import Units, show_pressure
from strapwright.quantities.inside_units import INCH_MM
from strapwright.shop.press import DAYLIGHT
from strapwright.strength.allowable_stress import ON_YIELD, SHEAR_SHARE
from strapwright.strength.beams import central_moment, flat_section
from strapwright.strength.check_values import ESTIMATE, Assessment, Bench
from strapwright.strength.hand_figures import shown
from strapwright.strength.rating import OVER, hopeless, plate_relief

BLOCK_STEEL = "A36"
_STEP = {"inch": INCH_MM / 4, "metric": 5.0}  # mm, in which flat bar is bought; common practice
_SHARES = (0.25, 0.5, 0.75, 1.0)  # stages of the proof; common practice, no source


@frozen(kw_only=True)
class ProofBlock:
    """A flat bar across the shoulders, under the nose.

    Attributes
    ----------
    thickness, width, length
        In the direction of the ram, along the nose and across it [mm].
    stress, allowed
        What bends it, F W/4 on its section, and Re/1.67 of mild steel [MPa].
    """

    thickness: float
    width: float
    length: float
    stress: float
    allowed: float


def proof_block(
    force: float, opening: float, radius: float, width: float, step: float
) -> ProofBlock:
    """Return the thinnest block that stands a push, a beam between the shoulders.

    The nose presses along a line in the middle: M = F W/4 (AISC manual, beam tables), 1.5 (F/2)/A,
    to Re/1.67 and 0.6 Re/1.67 of mild steel (AISC 360 F1, G1).

    Parameters
    ----------
    force
        Of the proof [N].
    opening, radius
        Middle to middle of the shoulders, and of each [mm].
    width
        Along the nose, that of the bars [mm].
    step
        Its thickness is a multiple of it [mm].
    """
    allowed = find_steel(BLOCK_STEEL, "proof load").yield_strength / ON_YIELD
    moment = central_moment(force, opening, 0.0)
    bent = math.sqrt(6 * moment / (width * allowed))
    sheared = 1.5 * force / 2 / (width * SHEAR_SHARE * allowed)
    thickness = math.ceil(max(bent, sheared) / step) * step
    # It reaches past each shoulder by its own thickness.
    length = math.ceil((opening + 2 * radius + 2 * thickness) / step) * step
    return ProofBlock(
        thickness=thickness,
        width=width,
        length=length,
        stress=moment / flat_section(width, thickness).modulus,
        allowed=allowed,
    )


def proof_steps(bench: Bench, assessment: Assessment, units: Units) -> tuple[str, ...]:
    """Return the steps of a proof load behind a shield; empty where there is no rating.

    Parameters
    ----------
    bench
        What was checked.
    assessment
        Of it.
    units
        Unit system to print in.
    """
    relief, press = plate_relief(bench, assessment, units), bench.press
    if relief is None or press is None or press.bore is None:
        return ()
    if assessment.rating is None or hopeless(assessment.checks) is not None or bench.loaded <= 0.0:
        return ()
    proof = OVER * relief
    force = push_force(press.bore, proof)
    shoulders = bench.tooling.shoulders
    block = proof_block(force, shoulders.opening, shoulders.radius, bench.loaded, _STEP[units])
    room = bench.thickness + (DAYLIGHT if press.daylight is None else press.daylight)
    if block.thickness > room:
        return (
            (
                f"A block that stands the proof is {_size(block, units)} and does not go under the "
                f"nose, which leaves {shown(room, 'mm', units)}. It is not proved: fix no plate."
            ),
            ESTIMATE,
        )
    plan = next((load.force for load in bench.centred if load.case == "plan"), 0.0)
    short = ""
    if plan > push_force(press.bore, relief):
        asked = shown(plan, "N", units)
        short = f"The plan asks for up to {asked}, more than the plate says. "
    return (
        (
            f"{short}First change what does not hold, or lower the relief as shown. Never "
            "proof-load tooling you know is too weak."
        ),
        (
            "Put a shield between you and the tooling, clear the room, wear eye protection. Work "
            "the valve from behind the shield."
        ),
        (
            f"Set the relief valve to {show_pressure(proof, units)}, {100 * OVER:.0f} % of what "
            "the plate says, against a closed cylinder with no tooling in the press. Read it on "
            "the gauge."
        ),
        (
            "Mark the tooling: scribe a line across every joint. Measure how straight the nose is "
            "with a dial indicator or straight edge, and write it down."
        ),
        (
            f"Put a block of mild steel across the shoulders, in the middle: {_size(block, units)} "
            "long across the nose. It must not be thinner: "
            f"F W/4 bends it to {shown(block.stress, 'MPa', units)} of the "
            f"{shown(block.allowed, 'MPa', units)} allowed at "
            f"{shown(force, 'N', units)}."
        ),
        *(
            f"Push to {show_pressure(share * proof, units)} ({100 * share:.0f} %), hold for "
            f"{'five minutes' if share == 1.0 else 'one minute'}, release all pressure, and only "
            "then go and look."
            for share in _SHARES
        ),
        (
            "Stop and scrap or fix it if a scribed line has shifted, a weld shows a crack, a bolt "
            "has turned or the nose stays bent by more than 0.1 mm (0.004 in)."
        ),
        (
            f"Set the relief valve back to {show_pressure(relief, units)}, read it on the gauge "
            "against a closed cylinder, and seal it."
        ),
        (
            "A block pushes straight down and does not wedge the shoulders apart: bend a trial bar "
            "of the heaviest part to its full angle as well, from behind the shield."
        ),
        "Fix the rating plate, write date and relief on it, and prove it again after any change.",
        ESTIMATE,
    )


def _size(block: ProofBlock, units: Units) -> str:
    thick, wide, long = (
        shown(size, "mm", units) for size in (block.thickness, block.width, block.length)
    )
    return f"{thick} thick, {wide} wide along the nose, {long}"
