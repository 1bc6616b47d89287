"""Many bars at once: each draw is a whole bend of its own, pushed to one travel or one angle."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from strapwright.bending.kernel_curve import FREE, TRAVEL, solve_for
from strapwright.bending.kernel_frame import OK
from strapwright.bending.kernel_model import Inputs, Switches, assemble, top_slope
from strapwright.bending.kernel_stroke import Rule
from strapwright.compiled import jit

Floats = NDArray[np.float64]

# Columns of the draws that change the bar and the set-up.
STRENGTH = 0  # factor on the whole flow curve
EXPONENT = 1  # added to n
THICKNESS = 2  # factor
FRICTION = 3  # added
UNLOADING = 4  # factor
OPENING = 5  # added [mm]
GIVE = 6  # added [mm/N]
DRAW_COLUMNS = 7
# One more column may follow: added to the strain of the yield plateau [-].
PLATEAU = DRAW_COLUMNS

# Columns of the answers.
TRAVEL_OUT = 0
FORCE_OUT = 1
LOADED_OUT = 2
FREE_OUT = 3
CURVATURE_OUT = 4
ANSWER_COLUMNS = 5


@jit
def drawn(inputs: Inputs, draws: Floats, i: int) -> Inputs:
    """Return the bend of one draw; nothing leaves the range the model is made for."""
    plateau = inputs.plateau
    if draws.shape[1] > PLATEAU:
        plateau = max(plateau + draws[i, PLATEAU], 0.0)
    exponent = inputs.exponent
    if exponent > 0.0:
        exponent = max(exponent + draws[i, EXPONENT], 0.005)
    return Inputs(
        kind=inputs.kind,
        thickness=inputs.thickness * draws[i, THICKNESS],
        width=inputs.width,
        state=inputs.state,
        opening=inputs.opening + draws[i, OPENING],
        nose=inputs.nose,
        shoulder=inputs.shoulder,
        friction=max(inputs.friction + draws[i, FRICTION], 0.0),
        modulus=inputs.modulus,
        poisson=inputs.poisson,
        # A harder exponent turns the curve about the yield point, not about a strain of one.
        strength=inputs.strength
        * draws[i, STRENGTH]
        * inputs.offset ** (inputs.exponent - exponent),
        offset=inputs.offset,
        exponent=exponent,
        slope=inputs.slope * draws[i, STRENGTH],
        plateau=plateau,
        peak=inputs.peak * draws[i, STRENGTH],
        peak_gone=inputs.peak_gone,
        unloading=inputs.unloading * draws[i, UNLOADING],
        unloading_rate=inputs.unloading_rate,
        give=max(inputs.give + draws[i, GIVE], 0.0),
        bars=inputs.bars,
    )


@jit
def push_draws(
    inputs: Inputs,
    switches: Switches,
    rule: Rule,
    draws: Floats,
    travels: Floats,
    angle: float,
    guess: float,
) -> tuple[Floats, Floats]:
    """Push every draw to each of its travels and to one free angle.

    Parameters
    ----------
    draws
        Shape (n, 7) or (n, 8), columns as named above.
    travels
        Travel from touch of each push of each draw, shape (n, m) [mm].
    angle
        Total free angle wanted, or 0 where not asked [rad].
    guess
        Leg slope to start from [rad].

    Returns
    -------
    at_travel
        Shape (n, m, 5), columns as named above, angles total; NaN where a draw jams.
    at_angle
        Shape (n, 5).
    """
    n = draws.shape[0]
    m = travels.shape[1]
    at_travel = np.full((n, m, ANSWER_COLUMNS), np.nan)
    at_angle = np.full((n, ANSWER_COLUMNS), np.nan)
    for i in range(n):
        frame, table, scale, _ = assemble(drawn(inputs, draws, i), switches)
        top = top_slope(frame)
        root = 0.0
        start = guess
        if angle > 0.0:
            alpha, point, _ = solve_for(
                frame, table, rule, which=FREE, target=0.5 * angle, top=top, guess=start, root=root
            )
            if point.status == OK:
                start = alpha
                root = point.root
                at_angle[i, TRAVEL_OUT] = point.travel
                at_angle[i, FORCE_OUT] = point.force * scale
                at_angle[i, LOADED_OUT] = 2.0 * alpha
                at_angle[i, FREE_OUT] = 2.0 * point.free
                at_angle[i, CURVATURE_OUT] = point.curvature
        for j in range(m):
            if travels[i, j] <= 0.0:
                for k in range(ANSWER_COLUMNS):
                    at_travel[i, j, k] = 0.0
                continue
            alpha, point, _ = solve_for(
                frame,
                table,
                rule,
                which=TRAVEL,
                target=travels[i, j],
                top=top,
                guess=start,
                root=root,
            )
            if point.status == OK:
                start = alpha
                root = point.root
                at_travel[i, j, TRAVEL_OUT] = point.travel
                at_travel[i, j, FORCE_OUT] = point.force * scale
                at_travel[i, j, LOADED_OUT] = 2.0 * alpha
                at_travel[i, j, FREE_OUT] = 2.0 * point.free
                at_travel[i, j, CURVATURE_OUT] = point.curvature
    return at_travel, at_angle
